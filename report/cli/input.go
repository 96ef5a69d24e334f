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
	"strings"

	"gaugesheet/layout/face"
	"gaugesheet/report/job"

	"golang.org/x/text/unicode/norm"
)

// mostFile is how many bytes of a file are read; what a job file may have is
// for its reader to say.
const mostFile = 32 << 20

// standard names standard input and output on the command line.
const standard = "-"

// An input is a job file that the command line names.
type input struct {
	path string
	name string // its place in a folder of sheets: below the folder that was named, else its file name
}

// inputs gives the job files that arguments name: files, standard input, for a
// folder the job files in and below it, for a pattern the files that it fits.
// Several tells whether more than one file was named, or a folder.
func (c *Command) inputs(args []string) (jobs []input, several bool, err error) {
	stdin := false
	for _, arg := range args {
		if arg == standard {
			if stdin {
				return nil, false, wrongUse("standard input is named twice")
			}
			stdin = true
			jobs = append(jobs, input{standard, "job.yaml"})
			continue
		}
		paths, err := expanded(arg)
		if err != nil {
			return nil, false, err
		}
		for _, p := range paths {
			if info, err := os.Stat(p); err != nil || !info.IsDir() {
				jobs = append(jobs, input{p, filepath.Base(p)}) // a file that cannot be read fails by itself
				continue
			}
			found, err := c.jobsIn(p)
			if err != nil {
				return nil, false, err
			}
			jobs, several = append(jobs, found...), true
		}
	}
	return jobs, several || len(jobs) > 1, nil
}

// expanded gives the files that a pattern fits, for shells that hand patterns
// on as they are; what is there by that very name is no pattern.
func expanded(arg string) ([]string, error) {
	if _, err := os.Lstat(arg); err == nil || !strings.ContainsAny(arg, "*?[") {
		return []string{arg}, nil
	}
	paths, err := filepath.Glob(arg)
	switch {
	case err != nil:
		return nil, wrongUse("%s: not a pattern of file names", arg).withHint("a bracket that is meant as itself is written [[]")
	case len(paths) == 0:
		return nil, noAccess("%s: no file fits this pattern", arg)
	}
	return paths, nil
}

// jobsIn lists the job files in a folder and in those below it, in the order
// of their paths. Files and folders whose names begin with a dot are left
// alone, and links to folders are not followed.
func (c *Command) jobsIn(dir string) ([]input, error) {
	var jobs []input
	var walk func(below string) error
	walk = func(below string) error {
		entries, err := os.ReadDir(filepath.Join(dir, below))
		if err != nil {
			return noAccess("%s: %v", filepath.Join(dir, below), reason(err))
		}
		for _, e := range entries {
			name := filepath.Join(below, e.Name())
			file := filepath.Join(dir, name)
			switch {
			case strings.HasPrefix(e.Name(), "."):
			case e.IsDir():
				if err := walk(name); err != nil {
					return err
				}
			case !isYAML(e.Name()) || !isRegular(file):
			case hasEngine(file):
				jobs = append(jobs, input{file, name})
			case e.Name() == profileName: // it stands there for its jobs
			default:
				c.complain("%s: left out, it names no engine and so is no job file", file)
			}
		}
		return nil
	}
	if err := walk(""); err != nil {
		return nil, err
	}
	if len(jobs) == 0 {
		return nil, noAccess("%s: no job files in this folder", dir).withHint("a job file ends in .yaml and names an engine")
	}
	return jobs, nil
}

// isRegular tells a file from a pipe or a device, which is not read because it
// stands in a folder.
func isRegular(name string) bool {
	info, err := os.Stat(name)
	return err != nil || info.Mode().IsRegular() // one that cannot be read fails by itself
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
	return oneLineOf(name)
}

// oneLineOf is a name on one line: a file's name may hold an end of line, and what
// follows would pass for a message.
func oneLineOf(name string) string {
	return strings.NewReplacer("\n", `\u000a`, "\t", `\u0009`).Replace(name)
}

// readJob reads a job file with what it draws on. Of the job, the problems and
// the error one is set.
func (c *Command) readJob(name string, blank bool) (*job.Job, job.Problems, error) {
	return c.readJobWith(name, blank, besides(name))
}

func (c *Command) readJobWith(name string, blank bool, open job.Opener) (*job.Job, job.Problems, error) {
	data, err := c.readInput(name, mostFile)
	if err != nil {
		return nil, nil, err
	}
	reader := job.Reader{Open: open, HasGlyph: face.Metrics().Has, Today: c.today(), Absolute: c.absolute}
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
	return func(file string) ([]byte, error) {
		p := besidePath(name, file)
		info, err := os.Stat(p)
		if apart := norm.NFD.String(p); errors.Is(err, fs.ErrNotExist) && apart != p { // as some systems name files
			if there, err2 := os.Stat(apart); err2 == nil {
				p, info, err = apart, there, nil
			}
		}
		if err != nil {
			return nil, err
		}
		if !info.Mode().IsRegular() {
			return nil, &fs.PathError{Op: "read", Path: p, Err: errors.New("it is not a file")}
		}
		return readFile(p, mostFile)
	}
}

// besidePath is where a file lies that a job names.
func besidePath(name, file string) string {
	dir := "."
	if name != standard {
		dir = filepath.Dir(name)
	}
	p := filepath.FromSlash(file)
	if path.IsAbs(file) || filepath.IsAbs(p) {
		return p
	}
	return filepath.Join(dir, p)
}
