package cli

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"gaugesheet/report/archive"
)

// mayReplace refuses an output that would replace a file which the program did
// not make, unless that is forced. Of its own files it replaces sheets, and
// what the function mine knows.
func mayReplace(name string, force bool, mine func([]byte) bool) error {
	info, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return noAccess("%s: cannot be written: %v", name, reason(err))
	case info.IsDir():
		return noAccess("%s: cannot be written: it is a folder", name)
	case !info.Mode().IsRegular():
		return noAccess("%s: cannot be written: %v", name, errNoFile)
	case force:
		return nil
	}
	data, err := readFile(name, archive.MostBytes)
	if err != nil || !mine(data) {
		return noAccess("%s: exists and was not made by gaugesheet; it was left as it is", name).
			withHint("name another file with -o, or replace it with --force")
	}
	return nil
}

// nothing is no file of the program's.
func nothing([]byte) bool { return false }

// put writes an output: a file, or standard output.
func (c *Command) put(name string, data []byte) error {
	if name == standard {
		if _, err := c.Stdout.Write(data); err != nil {
			return noAccess("standard output: %v", reason(err))
		}
		return nil
	}
	if err := writeFile(name, data); err != nil {
		return noAccess("%s: cannot be written: %v", name, reason(err))
	}
	return nil
}

// putText writes a text to a file, or to standard output where none is named;
// on a terminal nothing in it steers the terminal.
func (c *Command) putText(name string, data []byte, force bool) error {
	if name == "" || name == standard {
		if isTerminal(c.Stdout) {
			return c.write(data)
		}
		return c.put(standard, data)
	}
	if isThere(name, data) {
		return c.say("%s is there already", name)
	}
	if err := mayReplace(name, force, nothing); err != nil {
		return err
	}
	if err := c.put(name, data); err != nil {
		return err
	}
	return c.say("wrote %s", name)
}

// isThere tells whether a file has these very bytes.
func isThere(name string, data []byte) bool {
	if info, err := os.Stat(name); err != nil || !info.Mode().IsRegular() {
		return false
	}
	there, err := readFile(name, archive.MostBytes)
	return err == nil && bytes.Equal(there, data)
}

// oneSpelling is a path under which a file is known however it is spelled.
func oneSpelling(name string) string {
	abs, err := filepath.Abs(name)
	if err != nil {
		return name
	}
	dir, base := filepath.Split(abs)
	if real, err := filepath.EvalSymlinks(abs); err == nil {
		abs = real
	} else if real, err := filepath.EvalSymlinks(dir); err == nil {
		abs = filepath.Join(real, base)
	}
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		abs = strings.ToLower(abs)
	}
	return abs
}

// isFolder tells whether an output names a folder: one that is there, or by
// its last character.
func isFolder(name string) bool {
	if strings.HasSuffix(name, "/") || strings.HasSuffix(name, string(filepath.Separator)) {
		return true
	}
	info, err := os.Stat(name)
	return err == nil && info.IsDir()
}

// withExtension gives a job file's name another ending.
func withExtension(name, ending string) string {
	if ext := filepath.Ext(name); isYAML(name) || strings.EqualFold(ext, ".json") {
		name = strings.TrimSuffix(name, ext)
	}
	return name + ending
}
