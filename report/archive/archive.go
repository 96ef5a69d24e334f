// Package archive reads sheets back: the job file and the other files that a
// sheet carries come out of its PDF, and the page is drawn again from them to
// see whether it still says what they say.
package archive

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"strings"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/sheet"
	"gaugesheet/templates"
)

// Limits of what is read.
const (
	MostBytes = 64 << 20 // of a sheet's PDF
)

// Reasons for which a file is not read as a sheet.
var (
	ErrNotPDF    = errors.New("not a PDF")
	ErrEncrypted = errors.New("the PDF is encrypted; save it without a password first")
	ErrForeign   = errors.New("the PDF was not made by gaugesheet")
	ErrNoJob     = errors.New("the sheet carries no job file: it was made with --no-attach, or another program took the file out")
	ErrTooLarge  = fmt.Errorf("the file is larger than %d MB", MostBytes>>20)
)

// A File travels in a sheet. Its Name is a path relative to the job file.
type File struct {
	Name string
	Data []byte
}

// A Sheet is a sheet's PDF with what it carries.
type Sheet struct {
	Version     string // of the program that made it
	Kind        string // of the sheet, "" where the PDF does not say
	Paper       string // "" where the PDF does not say
	Language    string // of its words; "" where the PDF names none that is known
	Fingerprint string // of the job file, as the PDF has it
	Job         File
	Files       []File // that the job draws on
	Template    *File  // the user's own; nil where the sheet is the program's

	file *pdffile.File
	page pdffile.Dict
}

// Open reads a sheet. The error is one of this package's, or says what is
// damaged.
func Open(data []byte) (*Sheet, error) {
	if len(data) > MostBytes {
		return nil, ErrTooLarge
	}
	f, marks, err := open(data)
	if err != nil {
		return nil, err
	}
	s := &Sheet{Version: marks["gaugesheet"], Kind: marks["sheet"], Paper: marks["paper"], Fingerprint: marks["fingerprint"], file: f}
	if s.Language, err = languageOf(f); err != nil {
		return nil, err
	}
	pages, err := f.Pages()
	switch {
	case err != nil:
		return nil, explain(err)
	case len(pages) != 1:
		return nil, fmt.Errorf("the PDF has %d pages, a sheet has one", len(pages))
	}
	s.page = pages[0]
	if err := s.files(); err != nil {
		return nil, err
	}
	return s, nil
}

// languageOf is the language that the PDF says it is in.
func languageOf(f *pdffile.File) (string, error) {
	catalog, err := f.Catalog()
	if err != nil {
		return "", explain(err)
	}
	tag, err := f.Text(catalog["Lang"])
	if err != nil {
		return "", nil
	}
	return templates.Tagged(tag), nil
}

// Made tells whether a file is a sheet of this program, of any version: with
// or without a job file, and whether or not its page can still be read.
func Made(data []byte) bool {
	_, _, err := open(data)
	return err == nil
}

func open(data []byte) (*pdffile.File, map[string]string, error) {
	f, err := pdffile.Open(data)
	if err != nil {
		return nil, nil, explain(err)
	}
	info, err := f.Dict(f.Trailer["Info"])
	if err != nil {
		return nil, nil, explain(err)
	}
	keywords, err := f.Text(info["Keywords"])
	if err != nil {
		return nil, nil, explain(err)
	}
	if !strings.HasPrefix(keywords, "gaugesheet ") {
		return nil, nil, ErrForeign
	}
	marks := map[string]string{}
	for _, mark := range strings.Split(keywords, ";") {
		key, value, _ := strings.Cut(strings.TrimSpace(mark), " ")
		marks[key] = value
	}
	return f, marks, nil
}

func explain(err error) error {
	var damage *pdffile.DamageError
	switch {
	case errors.Is(err, pdffile.ErrNotPDF):
		return ErrNotPDF
	case errors.Is(err, pdffile.ErrEncrypted):
		return ErrEncrypted
	case errors.As(err, &damage):
		return fmt.Errorf("the PDF is damaged: %w", err)
	}
	return err
}

// files sorts the attached files by what they are.
func (s *Sheet) files() error {
	attached, err := s.file.Attached()
	if err != nil {
		return explain(err)
	}
	found := false
	for _, a := range attached {
		file := File{a.Name, a.Data}
		switch {
		case a.Description == sheet.JobFileDescription && !found:
			s.Job, found = file, true
		case a.Description == sheet.TemplateDescription && s.Template == nil:
			s.Template = &file
		default:
			s.Files = append(s.Files, file)
		}
	}
	if !found {
		return ErrNoJob
	}
	return nil
}

// JobFingerprint is the fingerprint of the job file that the sheet carries.
func (s *Sheet) JobFingerprint() string {
	sum := sha256.Sum256(s.Job.Data)
	return hex.EncodeToString(sum[:])
}
