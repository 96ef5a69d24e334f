package cli

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"sync"
	"time"
)

// A file is written whole or not at all: under a name of chance in the same
// folder first, then put in its place. Whatever ends the program in between
// (a full disk, a kill, a power cut) leaves the old file as it was, and at most
// a temporary one, which a later run clears away.

// temporaryName is what temporary files are called: short, since the file's own
// name may be as long as the system allows.
var temporaryName = regexp.MustCompile(`^\.gaugesheet-[0-9a-f]{32}\.tmp$`)

// stale is how old a temporary file is that no run is writing any more.
const stale = time.Hour

func newTemporaryName() string {
	var chance [16]byte
	rand.Read(chance[:]) // never fails
	return ".gaugesheet-" + hex.EncodeToString(chance[:]) + ".tmp"
}

// A place for files is a folder: one of the system's, or one that names cannot
// lead out of.
type folder interface {
	OpenFile(name string, flag int, perm fs.FileMode) (*os.File, error)
	Rename(from, to string) error
	Remove(name string) error
}

// everywhere is the system's folders.
type everywhere struct{}

func (everywhere) OpenFile(name string, flag int, perm fs.FileMode) (*os.File, error) {
	return os.OpenFile(name, flag, perm)
}
func (everywhere) Rename(from, to string) error { return os.Rename(from, to) }
func (everywhere) Remove(name string) error     { return os.Remove(name) }

// writeFile writes a file whole or not at all. One that it replaces keeps its
// permissions; what a link leads to is replaced, not the link.
func writeFile(name string, data []byte) error {
	if target, err := filepath.EvalSymlinks(name); err == nil {
		name = target
	}
	var mode fs.FileMode
	if info, err := os.Stat(name); err == nil {
		if !info.Mode().IsRegular() {
			return errNoFile
		}
		mode = info.Mode().Perm()
	}
	clearStale(filepath.Dir(name))
	return writeWhole(everywhere{}, name, data, mode)
}

// errNoFile is of what could be written to, but never taken back.
var errNoFile = errors.New("it is no file but a device, a pipe or a folder; '-o -' writes to standard output")

// writeWhole writes a file into a folder; the mode is that of a file that is
// replaced, 0 where there is none.
func writeWhole(in folder, name string, data []byte, mode fs.FileMode) error {
	temporary := filepath.Join(filepath.Dir(name), newTemporaryName())
	f, err := in.OpenFile(temporary, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	written.add(temporary)
	defer written.remove(temporary)
	_, err = f.Write(data)
	if err == nil && mode != 0 {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	err = errors.Join(err, f.Close())
	if err == nil {
		err = in.Rename(temporary, name)
	}
	if err != nil {
		in.Remove(temporary)
		return err
	}
	syncFolder(in, filepath.Dir(name))
	return nil
}

// syncFolder has the folder's new entry written to the disk. Where a system
// does not do that for folders, it does it by itself.
func syncFolder(in folder, dir string) {
	if f, err := in.OpenFile(dir, os.O_RDONLY, 0); err == nil {
		f.Sync()
		f.Close()
	}
}

// cleared are the folders that this process has looked through.
var cleared sync.Map

// clearStale removes temporary files that a run left which was killed. A file
// of a user's is never called so.
func clearStale(dir string) {
	if _, done := cleared.LoadOrStore(dir, true); done {
		return
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		if !temporaryName.MatchString(e.Name()) || !e.Type().IsRegular() {
			continue
		}
		if info, err := e.Info(); err == nil && time.Since(info.ModTime()) > stale {
			os.Remove(filepath.Join(dir, e.Name()))
		}
	}
}

// written are the temporary files that are being written, for a run that is
// ended at once.
var written inWork

type inWork struct {
	mutex sync.Mutex
	names map[string]bool
}

func (w *inWork) add(name string) {
	w.mutex.Lock()
	defer w.mutex.Unlock()
	if w.names == nil {
		w.names = map[string]bool{}
	}
	w.names[name] = true
}

func (w *inWork) remove(name string) {
	w.mutex.Lock()
	defer w.mutex.Unlock()
	delete(w.names, name)
}

// clear removes them; nothing is written any more.
func (w *inWork) clear() {
	w.mutex.Lock()
	for name := range w.names {
		os.Remove(name)
	}
}
