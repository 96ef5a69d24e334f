package archive

import (
	"bytes"
	"errors"
	"fmt"
	"path"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/story"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/archive/shown"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
	"gaugesheet/templates"

	"golang.org/x/text/unicode/norm"
)

// drawn is what a page draws.
type drawn struct {
	page    pdffile.Page
	content []byte
	ops     []pdffile.Operation
	runs    []pdffile.Run
	marks   []shown.Mark
	heard   []shown.Heard
}

// readPage reads a page. What it draws with that is not known comes as the
// second error, a *shown.UnknownError.
func readPage(f *pdffile.File, page pdffile.Page) (d drawn, strange, err error) {
	d.page = page
	if d.content, err = f.Content(page.Dict); err != nil {
		return d, nil, explain(err)
	}
	d.content = bytes.TrimRight(d.content, "\r\n ")
	if d.ops, err = f.Operations(d.content); errors.Is(err, pdffile.ErrInline) {
		return d, &shown.UnknownError{What: "a picture in its content"}, nil
	} else if err != nil {
		return d, nil, explain(err)
	}
	fonts, err := f.Fonts(page.Dict)
	if err != nil {
		return d, nil, explain(err)
	}
	d.runs = pdffile.Runs(d.ops, fonts)
	for i := range d.runs { // a space at a line's end parts its last word from the next line's first
		d.runs[i].Text = strings.TrimRight(d.runs[i].Text, " ")
	}
	var unknown *shown.UnknownError
	d.marks, d.heard, err = shown.Marks(f, page)
	if errors.As(err, &unknown) {
		return d, unknown, nil
	}
	if err != nil {
		return d, nil, explain(err)
	}
	return d, nil, nil
}

// redrawn is the page as the job file gives it.
type redrawn struct {
	data     []byte
	file     *pdffile.File
	drawn    drawn
	test     *diag.Test
	recorded []record.Text
}

// A looks is how a sheet may have been drawn: as it says itself, or where it
// does not say, each way in turn.
type looks struct {
	kind, paper, language string
	boxes                 bool
	bench                 bool // empty, to write on
}

// ways are the ways in which the sheet may have been drawn.
func (s *Sheet) ways(page pdffile.Page) []looks {
	kinds, papers, languages := []string{s.Kind}, []string{s.Paper}, []string{s.Language}
	if s.Kind == "" && s.Template == nil {
		kinds = templates.Kinds()
	}
	if s.Paper == "" {
		papers = []string{paperOf(s.file, page)}
	}
	if s.Language == "" {
		languages = templates.Languages()
	}
	var ways []looks
	for _, boxes := range []bool{false, true} {
		for _, k := range kinds {
			for _, p := range papers {
				for _, l := range languages {
					if k == templates.Bench {
						ways = append(ways, looks{k, p, l, boxes, true})
					}
					if k != templates.Bench || s.Template != nil { // a template may call itself so, and be filled in
						ways = append(ways, looks{k, p, l, boxes, false})
					}
				}
			}
		}
	}
	return ways
}

// paperOf names the paper of a page's size, "" where it is none of ours.
func paperOf(f *pdffile.File, page pdffile.Page) string {
	box, err := f.Box(page.Dict["MediaBox"])
	if err != nil {
		return ""
	}
	for name, size := range map[string][2]float64{"letter": {612, 792}, "legal": {612, 1008}, "a4": {595.28, 841.89}} {
		if w, h := box[2]-box[0]-size[0], box[3]-box[1]-size[1]; w*w < 1 && h*h < 1 {
			return name
		}
	}
	return ""
}

// read reads the job file that the sheet carries, with the files it draws on.
func (s *Sheet) read(blank bool) (*job.Job, *diag.Diagnosis, error) {
	reader := job.Reader{Open: s.open, HasGlyph: face.Metrics().Has, Absolute: true}
	if blank {
		j, problems := reader.ReadForBlank(s.Job.Name, s.Job.Data)
		if len(problems) > 0 {
			return nil, nil, unreadable(problems)
		}
		return j, nil, nil
	}
	j, problems := reader.Read(s.Job.Name, s.Job.Data)
	if len(problems) > 0 {
		return nil, nil, unreadable(problems)
	}
	return j, story.Diagnose(j.Test()), nil
}

func unreadable(problems job.Problems) error {
	return fmt.Errorf("this version cannot read the job file that the sheet carries: %w", problems[0])
}

// open gives a file that the sheet carries.
func (s *Sheet) open(name string) ([]byte, error) {
	for _, f := range s.Files {
		if f.Name == name || norm.NFC.String(path.Clean(f.Name)) == path.Clean(name) {
			return f.Data, nil
		}
	}
	return nil, errors.New("the sheet does not carry it")
}

// draw draws the sheet in one way.
func (s *Sheet) draw(way looks, version string) (*redrawn, error) {
	j, d, err := s.read(way.bench)
	if err != nil {
		return nil, err
	}
	o := sheet.Options{Kind: way.kind, Paper: way.paper, Language: way.language, Boxes: way.boxes, Version: version}
	if s.Template != nil {
		o.Template, o.TemplateName = s.Template.Data, s.Template.Name
	}
	if s.Signature != nil { // whose it is, and of what, is another question
		o.Sign = func([]byte) ([]byte, error) { return s.Signature.Data, nil }
	}
	var page *sheet.Sheet
	if way.kind == templates.Bench && !way.bench {
		o.Kind = "" // the job's own
	}
	if way.bench {
		page, err = sheet.Blank(j.Test().Engine, j, o)
	} else {
		page, err = sheet.New(j, d, o)
	}
	if err != nil {
		return nil, fmt.Errorf("the page cannot be drawn again: %w", err)
	}
	again := &redrawn{test: j.Test()}
	if again.data, err = page.PDF(); err != nil {
		return nil, fmt.Errorf("the page cannot be drawn again: %w", err)
	}
	if bytes.Equal(again.data, s.data) {
		return again, nil
	}
	if again.file, err = pdffile.Open(again.data); err != nil {
		return nil, err
	}
	pages, err := again.file.Pages()
	if err != nil {
		return nil, err
	}
	var strange error
	again.drawn, strange, err = readPage(again.file, pages[0])
	if err = errors.Join(err, strange); err != nil {
		return nil, fmt.Errorf("the page that was drawn again is not readable: %w", err)
	}
	r := record.New(face.Metrics())
	page.Draw(r)
	again.recorded = r.Texts()
	return again, nil
}

// shortPrint is a fingerprint as pages show it.
func shortPrint(fingerprint string) string { return fingerprint[:4] + " " + fingerprint[4:8] }
