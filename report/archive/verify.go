package archive

import (
	"bytes"
	"errors"
	"fmt"
	"path"
	"reflect"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/story"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
)

// A Verdict is what came of drawing a page again.
type Verdict struct {
	// Difference is the first difference in a sentence, "" where there is none.
	Difference string
	// Notes are what else has to be known, such as that the sheet was made by
	// another version.
	Notes []string
}

// Same reports that the page still says what its job file says.
func (v Verdict) Same() bool { return v.Difference == "" }

// Verify draws the sheet again from the job file that it carries and compares
// what the page draws. A sheet that another version of the program made is
// compared by its words and numbers only. The error says why the page cannot
// be drawn again.
func (s *Sheet) Verify(version string) (Verdict, error) {
	ours, err := content(s.file, s.page)
	if err != nil {
		return Verdict{}, err
	}
	again, err := s.redraw(ours)
	if err != nil {
		return Verdict{}, err
	}
	var v Verdict
	if s.Version != version {
		v.Notes = append(v.Notes, fmt.Sprintf("the sheet was made by version %s, this is version %s: only words and numbers are compared", s.Version, version))
	}
	if v.Difference, err = s.compare(ours, again, s.Version == version); err != nil {
		return Verdict{}, err
	}
	if got := s.JobFingerprint(); s.Fingerprint != got {
		was, is := s.Fingerprint, got
		if is[:8] != was[:min(8, len(was))] { // as much as the page shows of it tells them apart
			was, is = was[:min(8, len(was))], is[:8]
		}
		said := fmt.Sprintf("the sheet was made from a job file with the fingerprint %s, the one that it carries has %s", was, is)
		if v.Difference == "" {
			v.Difference = said
		} else {
			v.Notes = append(v.Notes, said)
		}
	}
	return v, nil
}

// redrawn is the page as the job file gives it.
type redrawn struct {
	file     *pdffile.File
	page     pdffile.Dict
	drawn    drawn
	test     *diag.Test
	recorded []record.Text
}

// redraw makes the sheet again, and once more with its blocks outlined where
// the page is such a one.
func (s *Sheet) redraw(ours drawn) (*redrawn, error) {
	j, d, err := s.read()
	if err != nil {
		return nil, err
	}
	var first *redrawn
	for _, boxes := range []bool{false, true} {
		again, err := s.draw(j, d, boxes)
		if err != nil {
			return nil, err
		}
		if first == nil {
			first = again
		}
		if difference, err := s.compare(ours, again, true); err == nil && difference == "" {
			return again, nil
		}
	}
	return first, nil
}

// read reads the job file that the sheet carries, with the files it draws on.
func (s *Sheet) read() (*job.Job, *diag.Diagnosis, error) {
	reader := job.Reader{Open: s.open, HasGlyph: face.Metrics().Has}
	if s.Kind == "blank" {
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
		if f.Name == name || path.Clean(f.Name) == path.Clean(name) {
			return f.Data, nil
		}
	}
	return nil, errors.New("the sheet does not carry it")
}

func (s *Sheet) draw(j *job.Job, d *diag.Diagnosis, boxes bool) (*redrawn, error) {
	o := sheet.Options{Kind: s.Kind, Paper: s.Paper, Language: s.Language, Boxes: boxes, Version: s.Version}
	if s.Template != nil {
		o.Template, o.TemplateName = s.Template.Data, s.Template.Name
	}
	var page *sheet.Sheet
	var err error
	if s.Kind == "blank" {
		page, err = sheet.Blank(j.Test().Engine, j, o)
	} else {
		page, err = sheet.New(j, d, o)
	}
	if err != nil {
		return nil, fmt.Errorf("the page cannot be drawn again: %w", err)
	}
	data, err := page.PDF()
	if err != nil {
		return nil, fmt.Errorf("the page cannot be drawn again: %w", err)
	}
	again := &redrawn{test: j.Test()}
	if again.file, err = pdffile.Open(data); err != nil {
		return nil, err
	}
	pages, err := again.file.Pages()
	if err != nil {
		return nil, err
	}
	again.page = pages[0]
	if again.drawn, err = content(again.file, again.page); err != nil {
		return nil, err
	}
	r := record.New(face.Metrics())
	page.Draw(r)
	again.recorded = r.Texts()
	return again, nil
}

// compare gives the first difference between the sheet's page and the one
// drawn again: in its words, and then, where the version is the same, in
// everything else that is drawn.
func (s *Sheet) compare(ours drawn, again *redrawn, drawing bool) (string, error) {
	theirs := again.drawn
	if !drawing {
		return wordsApart(ours.runs, theirs.runs, again), nil
	}
	if difference := runsApart(ours.runs, theirs.runs, again); difference != "" {
		return difference, nil
	}
	if !bytes.Equal(ours.data, theirs.data) && !reflect.DeepEqual(ours.ops, theirs.ops) {
		return drawingApart(ours, theirs), nil
	}
	return s.restApart(again)
}

// restApart compares what is not in the page's content: fonts, pictures, the
// size of the paper, and what was laid over the page.
func (s *Sheet) restApart(again *redrawn) (string, error) {
	if notes, err := s.file.Array(s.page["Annots"]); err != nil {
		return "", explain(err)
	} else if len(notes) > 0 {
		return "something was laid over the page: a note, a stamp or a form field", nil
	}
	for _, part := range []struct {
		key   pdffile.Name
		named string
	}{
		{"MediaBox", "the paper's size"}, {"CropBox", "the part of the page that is shown"},
		{"Rotate", "the way the page is turned"}, {"Resources", "a font or a picture"},
	} {
		ours, err := s.file.Digest(s.page[part.key])
		if err != nil {
			return "", explain(err)
		}
		theirs, err := again.file.Digest(again.page[part.key])
		if err != nil {
			return "", err
		}
		if ours != theirs {
			return fmt.Sprintf("the words are the same, but %s is not as its job file gives it", part.named), nil
		}
	}
	return "", nil
}

// drawn is what a page draws.
type drawn struct {
	data []byte
	ops  []pdffile.Operation
	runs []pdffile.Run
}

func content(f *pdffile.File, page pdffile.Dict) (drawn, error) {
	var d drawn
	var err error
	if d.data, err = f.Content(page); err != nil {
		return d, explain(err)
	}
	d.data = bytes.TrimRight(d.data, "\r\n ")
	if d.ops, err = pdffile.Operations(d.data); err != nil {
		return d, explain(err)
	}
	fonts, err := f.Fonts(page)
	if err != nil {
		return d, explain(err)
	}
	d.runs = pdffile.Runs(d.ops, fonts)
	for i := range d.runs { // a space at a line's end parts its last word from the next line's first
		d.runs[i].Text = strings.TrimRight(d.runs[i].Text, " ")
	}
	return d, nil
}
