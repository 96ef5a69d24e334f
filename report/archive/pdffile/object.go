// Package pdffile reads the objects of a PDF file, just as much of ISO 32000-2 as
// taking attached files out of a page of ours, and comparing what it draws, needs;
// it knows nothing of what is drawn, of jobs or of engines. It reads files that other tools have saved again, with compressed
// lists of objects and encrypted without a password too, but repairs nothing,
// and refuses what readers make different things of: a name twice in a
// dictionary, numbers that PDF does not have, an object that is not where the
// list of objects says. Unambiguous asks the same of a file as a whole.
//
// It is safe with files of any origin: depth, objects, sizes and the amount of
// unpacked data are limited, nothing is executed, and damage is an error.
//
// The libraries that were tried hide what this is about: DEVELOPERS.md has the
// figures.
package pdffile

import (
	"errors"
	"fmt"
)

// The kinds of objects. Null is nil, booleans are bool, numbers float64,
// arrays []Object.
type (
	// Object is nil, bool, float64, String, Name, []Object, Dict, *Stream or Ref.
	Object any
	// String is a string's bytes, decoded from its notation.
	String string
	// Name is a name without its slash.
	Name string
	// Dict is a dictionary by its names.
	Dict map[Name]Object
	// Ref refers to an object by its number.
	Ref struct{ Number, Generation int }
	// Stream is a dictionary with data, still packed.
	Stream struct {
		Dict Dict
		Raw  []byte
	}
)

// A DamageError says what in a file is not as it has to be.
type DamageError struct{ What string }

func (e *DamageError) Error() string { return e.What }

func damaged(format string, args ...any) error { return &DamageError{fmt.Sprintf(format, args...)} }

// Reasons for which a file is not read.
var (
	ErrNotPDF    = errors.New("it is not a PDF")
	ErrEncrypted = errors.New("it is encrypted")
	ErrInline    = errors.New("a picture stands in the page's content") // whose end readers look for each in its way
	ErrTooLarge  = errors.New("it holds more objects or more packed data than are read")
)

// What is read of one file, all in all.
const (
	mostObjects = 1 << 18  // entries of its lists of objects
	mostMade    = 1 << 20  // objects made, each number and name counted
	mostTables  = 64       // lists of objects, one for each time it was saved
	mostUnpack  = 64 << 20 // bytes unpacked
	mostList    = 8 << 20  // bytes of one stream that is taken apart into objects
)
