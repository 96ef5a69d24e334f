// Package pdffile reads the objects of a PDF file: just as much of ISO 32000-2
// as taking attached files out of a page of ours, and comparing what it draws,
// needs. It reads files that other tools have saved again, with compressed
// lists of objects too, but repairs nothing: a file that is damaged is
// reported as damaged.
//
// It is safe with files of any origin: depth, sizes and the amount of
// unpacked data are limited, nothing is executed, and damage is an error.
//
// A general-purpose library would serve, but costs more than half of the time
// that this program takes to start and draw a page.
package pdffile

import "fmt"

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
