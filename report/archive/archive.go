// Package archive reads sheets back (the job file and the other files that a sheet
// carries come out of its PDF, and the page is drawn again from them to see
// whether it still says what they say), and knows nothing of how a reading is
// judged or of where files lie.
package archive

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"regexp"
	"strings"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/sheet"
	"gaugesheet/templates"
)

// MostBytes is how large a sheet's PDF may be that is read.
const MostBytes = 64 << 20

// Reasons for which a file is not read as a sheet.
var (
	ErrNotPDF    = errors.New("not a PDF")
	ErrEncrypted = errors.New("the PDF is encrypted; save it without a password first")
	ErrForeign   = errors.New("the PDF was not made by gaugesheet, or another program took out what it carried")
	ErrNoJob     = errors.New("the sheet carries no job file: it is an empty bench sheet, was made with --no-attach, or another program took the file out")
	ErrTooLarge  = fmt.Errorf("the file is larger than %d MB, or holds more than is read", MostBytes>>20)
)

// errPanic is of a file that shows a mistake of this program.
var errPanic = errors.New("the PDF cannot be read")

// A File travels in a sheet. Its Name is a path relative to the job file.
type File struct {
	Name string
	Data []byte
}

// A Sheet is a job file that a PDF carries, with what it draws on.
type Sheet struct {
	Version     string // of the program that made it, "" where the PDF does not say
	Kind        string // of the sheet, "" where the PDF does not say
	Paper       string // "" where the PDF does not say
	Language    string // of its words; "" where the PDF names none that is known
	Fingerprint string // of the job file, as the PDF has it; "" where it does not say
	Job         File
	Files       []File // that the job draws on
	Template    *File  // the user's own; nil where the sheet is the program's
	Signed      *File  // the list of files that were signed; nil where none was
	Signature   *File  // of that list

	data  []byte
	file  *pdffile.File
	pages []pdffile.Page
	draws *int                 // how often sheets of this file may still be drawn again
	left  *int                 // how many bytes of pages are still looked at beside the sheet's
	parts map[pdffile.Ref]bool // whether they say what this sheet's page does
	// doubtful are attached files that readers do not agree on, strangers such
	// as no sheet has, elsewhere those that are named and not carried.
	doubtful, strangers, elsewhere []string
}

// Open reads the first sheet of a PDF. The error is one of this package's, or
// says what is damaged.
func Open(data []byte) (*Sheet, error) {
	sheets, err := OpenAll(data)
	if err != nil {
		return nil, err
	}
	return sheets[0], nil
}

// OpenAll reads the sheets of a PDF, which may hold other pages too. The error
// is as Open's.
func OpenAll(data []byte) (sheets []*Sheet, err error) {
	defer caught(&err)
	if len(data) > MostBytes {
		return nil, ErrTooLarge
	}
	f, err := pdffile.Open(data)
	if err != nil {
		return nil, explain(err)
	}
	marks, err := marksOf(f)
	if err != nil {
		return nil, err
	}
	pages, err := f.Pages()
	if err != nil {
		return nil, explain(err)
	}
	attached, err := f.Attached()
	if err != nil {
		return nil, explain(err)
	}
	if sheets, err = sorted(attached); err != nil {
		return nil, err
	}
	if len(sheets) == 0 && marks != nil {
		return nil, ErrNoJob
	}
	if len(sheets) == 0 {
		return nil, ErrForeign
	}
	language, err := languageOf(f)
	draws, left := mostDraws, mostLooked
	for _, s := range sheets {
		s.data, s.file, s.pages, s.draws, s.left = data, f, pages, &draws, &left
		if len(sheets) == 1 && marks != nil {
			s.Version, s.Kind, s.Paper, s.Fingerprint = marks["gaugesheet"], marks["sheet"], marks["paper"], marks["fingerprint"]
			s.Language = language
		}
	}
	return sheets, err
}

// caught makes an error of a panic: files come from anywhere, and one that
// shows a mistake of ours must not end the run for all others.
func caught(err *error) {
	if p := recover(); p != nil {
		*err = fmt.Errorf("%w: %v", errPanic, p)
	}
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
func Made(data []byte) (made bool) {
	var err error
	defer func() { made = made && err == nil }()
	defer caught(&err)
	f, err := pdffile.Open(data)
	if err != nil {
		return false
	}
	marks, err := marksOf(f)
	return marks != nil
}

// marksOf are what the PDF says of itself in its keywords; nil where it does
// not say that it was made by this program.
func marksOf(f *pdffile.File) (map[string]string, error) {
	info, err := f.Dict(f.Trailer["Info"])
	if err != nil {
		return nil, explain(err)
	}
	keywords, err := f.Text(info["Keywords"])
	if err != nil {
		return nil, explain(err)
	}
	if !strings.HasPrefix(keywords, "gaugesheet ") {
		return nil, nil
	}
	marks := map[string]string{}
	for _, mark := range strings.Split(keywords, ";") {
		key, value, _ := strings.Cut(strings.TrimSpace(mark), " ")
		marks[key] = value
	}
	if !aVersion.MatchString(marks["gaugesheet"]) {
		delete(marks, "gaugesheet")
	}
	return marks, nil
}

// aVersion is what a version looks like; anything else would be a text of the
// file's own in messages and in what is drawn again.
var aVersion = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9.+-]{0,59}$`)

func explain(err error) error {
	var damage *pdffile.DamageError
	switch {
	case errors.Is(err, pdffile.ErrNotPDF):
		return ErrNotPDF
	case errors.Is(err, pdffile.ErrEncrypted):
		return ErrEncrypted
	case errors.Is(err, pdffile.ErrTooLarge):
		return ErrTooLarge
	case errors.As(err, &damage):
		return fmt.Errorf("the PDF is damaged: %w", err)
	}
	return err
}

// sorted sorts attached files by what they are: a sheet's own follow its job
// file.
func sorted(attached []pdffile.Attached) ([]*Sheet, error) {
	var sheets []*Sheet
	s := &Sheet{} // what stands before the first job file
	for _, a := range attached {
		file := File{a.Name, a.Data}
		if a.Description == sheet.JobFileDescription {
			if len(sheets) >= mostSheets {
				return nil, ErrTooLarge
			}
			before := *s
			s = &Sheet{Job: file}
			if len(sheets) == 0 {
				s.doubtful, s.strangers, s.elsewhere = before.doubtful, before.strangers, before.elsewhere
			}
			sheets = append(sheets, s)
		}
		if a.Doubtful != "" {
			s.doubtful = append(s.doubtful, fmt.Sprintf("'%s': %s", a.Name, a.Doubtful))
		}
		switch {
		case a.Elsewhere:
			s.elsewhere = append(s.elsewhere, a.Name)
		case len(sheets) == 0:
			s.strangers = append(s.strangers, a.Name)
		case a.Description == sheet.JobFileDescription:
		case a.Description == sheet.TemplateDescription && s.Template == nil:
			s.Template = &file
		case a.Description == sheet.SignedDescription && s.Signed == nil:
			s.Signed = &file
		case a.Description == sheet.SignatureDescription && s.Signature == nil:
			s.Signature = &file
		case sheet.IsOwnDescription(a.Description):
			s.Files = append(s.Files, file)
		default:
			s.strangers = append(s.strangers, a.Name)
		}
	}
	return sheets, nil
}

// How many sheets of one PDF are read, and how often pages are drawn again for
// it, all in all.
const (
	mostSheets = 20
	mostDraws  = 30
)

// JobFingerprint is the fingerprint of the job file that the sheet carries.
func (s *Sheet) JobFingerprint() string {
	sum := sha256.Sum256(s.Job.Data)
	return hex.EncodeToString(sum[:])
}
