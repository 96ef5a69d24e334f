package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"sort"
	"strings"

	"gaugesheet/layout/face"
	"gaugesheet/report/job"
)

// mostFile is how many bytes of a file are read; what a job file may have is
// for its reader to say.
const mostFile = 32 << 20

// standard names standard input and output on the command line.
const standard = "-"

// inputs gives the job files that arguments name: files, standard input, and
// for a folder the job files in it. Folders tells whether one was named.
func (c *Command) inputs(args []string) (paths []string, folders bool, err error) {
	stdin := false
	for _, arg := range args {
		if arg == standard {
			if stdin {
				return nil, false, wrongUse("standard input is named twice")
			}
			stdin = true
			paths = append(paths, arg)
			continue
		}
		if info, err := os.Stat(arg); err != nil || !info.IsDir() {
			paths = append(paths, arg) // a file that cannot be read fails by itself
			continue
		}
		jobs, err := c.jobsIn(arg)
		if err != nil {
			return nil, false, err
		}
		paths, folders = append(paths, jobs...), true
	}
	return paths, folders, nil
}

// jobsIn lists the job files in a folder, not in those below it.
func (c *Command) jobsIn(dir string) ([]string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, noAccess("%s: %v", dir, reason(err))
	}
	var jobs []string
	for _, e := range entries {
		file := filepath.Join(dir, e.Name())
		if e.IsDir() || !isYAML(e.Name()) || strings.HasPrefix(e.Name(), ".") {
			continue
		}
		if hasEngine(file) {
			jobs = append(jobs, file)
		} else {
			c.complain("%s: left out, it names no engine and so is no job file", file)
		}
	}
	if len(jobs) == 0 {
		return nil, noAccess("%s: no job files in this folder", dir).withHint("a job file ends in .yaml and names an engine")
	}
	sort.Strings(jobs)
	return jobs, nil
}

func isYAML(name string) bool {
	ext := strings.ToLower(filepath.Ext(name))
	return ext == ".yaml" || ext == ".yml"
}

// engineKey tells a job file from a shop profile or a template beside it.
var engineKey = regexp.MustCompile(`(?m)^\s{0,3}\{?\s*["']?engine["']?\s*:|[{,]\s*["']?engine["']?\s*:`)

// hasEngine tells whether a file names an engine; a file that cannot be read
// stays, and fails by itself.
func hasEngine(file string) bool {
	data, err := readFile(file, mostFile)
	return err != nil || engineKey.Match(data)
}

// readFile reads a file with at most that many bytes.
func readFile(name string, most int64) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err := f.Stat(); err != nil {
		return nil, err
	} else if info.IsDir() {
		return nil, errors.New("it is a folder")
	}
	return readAll(f, most)
}

func readAll(r io.Reader, most int64) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, most+1))
	if err == nil && int64(len(data)) > most {
		err = fmt.Errorf("it is larger than %d MB", most>>20)
	}
	return data, err
}

// readInput reads a file named on the command line.
func (c *Command) readInput(name string, most int64) ([]byte, error) {
	var data []byte
	var err error
	if name == standard {
		data, err = readAll(c.Stdin, most)
	} else {
		data, err = readFile(name, most)
	}
	if err != nil {
		return nil, noAccess("%s: cannot be read: %v", called(name), reason(err))
	}
	return data, nil
}

// called is how messages call a path of the command line.
func called(name string) string {
	if name == standard {
		return "standard input"
	}
	return name
}

// readJob reads a job file with what it draws on. Of the job, the problems and
// the error one is set.
func (c *Command) readJob(name string, blank bool) (*job.Job, job.Problems, error) {
	data, err := c.readInput(name, mostFile)
	if err != nil {
		return nil, nil, err
	}
	reader := job.Reader{Open: besides(name), HasGlyph: face.Metrics().Has, Today: c.today()}
	read := reader.Read
	if blank {
		read = reader.ReadForBlank
	}
	j, problems := read(called(name), data)
	if j != nil && name == standard {
		j.Name = "job.yaml" // as the sheet carries it
	}
	return j, problems, nil
}

// besides opens the files that a job names: beside the job file, in the
// working folder where the job comes from standard input.
func besides(name string) job.Opener {
	dir := "."
	if name != standard {
		dir = filepath.Dir(name)
	}
	return func(file string) ([]byte, error) {
		p := filepath.FromSlash(file)
		if !path.IsAbs(file) && !filepath.IsAbs(p) {
			p = filepath.Join(dir, p)
		}
		info, err := os.Stat(p)
		if err != nil {
			return nil, err
		}
		if !info.Mode().IsRegular() {
			return nil, &fs.PathError{Op: "read", Path: p, Err: errors.New("it is not a file")}
		}
		return readFile(p, mostFile)
	}
}
