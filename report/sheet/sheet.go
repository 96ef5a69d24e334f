// Package sheet makes a test sheet of a job (the job and its diagnosis become words
// and figures, a template says which of them stand where, and the page is fitted
// and drawn), and knows nothing of files or of how a reading is judged.
package sheet

import (
	"cmp"
	"fmt"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/layout"
	"gaugesheet/layout/pdf"
	"gaugesheet/layout/raster"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// Options say how a job is put on paper.
type Options struct {
	Kind     string // "" is the job's own
	Paper    string // "" is the job's own
	Language string // one of templates.Languages; "" is the job's own, without a job that of the paper
	// Words are said instead of the language's own, where given.
	Words        *templates.Catalogue
	Template     []byte // nil is the program's own for the kind
	TemplateName string
	NoAttach     bool      // leave the job file out of the PDF
	Boxes        bool      // draw every block's outline
	Engine       diag.Spec // what is known of the engine of a bench sheet without a job
	Version      string
	// Sign signs the list of the files that the sheet carries; nil where none is
	// asked for.
	Sign func(list []byte) (signature []byte, err error)
}

// A Sheet is a job fitted to one page.
type Sheet struct {
	view   *view
	fitted *layout.Fitted
	paper  layout.Size
}

// New makes the sheet of a job. The error is a *layout.TooFull (wrapped) where
// the page does not hold the job, a *TemplateError where the template is wrong.
func New(j *job.Job, d *diag.Diagnosis, o Options) (*Sheet, error) {
	if o.Kind == "" {
		o.Kind = j.Sheet.Value
	}
	if o.Kind == templates.Bench {
		return Blank(j.Test().Engine, j, o)
	}
	v := &view{job: j, test: j.Test(), d: shown(d, j.Test()), engine: j.Test().Engine}
	return v.fit(o)
}

// Blank makes the empty bench sheet of an engine, with the job's identity
// filled in where there is a job.
func Blank(e *engine.Engine, j *job.Job, o Options) (*Sheet, error) {
	o.Kind = templates.Bench
	v := &view{job: j, engine: e, test: &diag.Test{Engine: e}}
	if j == nil {
		v.job = &job.Job{}
		v.test.Spec = o.Engine
		o.NoAttach = true
	} else {
		v.test = j.Test()
	}
	return v.fit(o)
}

// A TemplateError is what is wrong with a template of the user's.
type TemplateError struct {
	Name     string
	Problems []templates.Problem
}

// Error gives the first problem; Problems has them all.
func (e *TemplateError) Error() string { return fmt.Sprintf("%s:%s", e.Name, e.Problems[0]) }

func (v *view) fit(o Options) (*Sheet, error) {
	v.options, v.said, v.titles = o, map[*diag.Story]templates.SaidStory{}, map[*diag.Finding]string{}
	var err error
	if v.words = o.Words; v.words == nil {
		if v.words, err = templates.Words(v.language()); err != nil {
			return nil, err
		}
	}
	v.words = v.words.Of(diag.ChambersOf(v.engine))
	if v.sheet, err = o.template(); err != nil {
		return nil, err
	}
	paper, err := paperSize(v.paperName())
	if err != nil {
		return nil, err
	}
	theme := v.theme()
	page := v.page(paper)
	if v.err != nil {
		return nil, v.err
	}
	fitted, err := layout.Fit(page, theme)
	if err != nil {
		return nil, fmt.Errorf("the %s sheet on %s: %w", v.sheet.Name, v.paperName(), err)
	}
	return &Sheet{view: v, fitted: fitted, paper: paper}, nil
}

// ShowsPlan reports that the sheet of a job has room for the step behind the next
// check, so that it has to be tried out; a template of the user's own may.
func (o Options) ShowsPlan(j *job.Job) bool {
	if o.Template != nil {
		return true
	}
	t, err := templates.BuiltIn(cmp.Or(o.Kind, j.Sheet.Value))
	return err != nil || (&view{sheet: t}).hasBlock("plan")
}

func (o Options) template() (*templates.Sheet, error) {
	if o.Template == nil {
		return templates.BuiltIn(o.Kind)
	}
	t, problems := ReadTemplate(o.Template)
	if len(problems) > 0 {
		return nil, &TemplateError{Name: o.TemplateName, Problems: problems}
	}
	return t, nil
}

// ReadTemplate reads a template of the user's and reports everything that is
// wrong with it.
func ReadTemplate(data []byte) (*templates.Sheet, []templates.Problem) {
	return templates.ReadSheet(data, slices.Sorted(maps.Keys(builders)))
}

// Draw draws the page on any surface.
func (s *Sheet) Draw(surface layout.Surface) {
	if s.view.options.Boxes {
		surface = layout.Boxes(surface, true)
	}
	s.fitted.Draw(surface)
}

// Language is the language of the page's words.
func (s *Sheet) Language() string { return s.view.words.Language }

// PDF writes the page as a file that carries the job file and the files that
// it draws on. The same job gives the same bytes, whenever it is written.
func (s *Sheet) PDF() ([]byte, error) {
	v := s.view
	title := joined(" · ", v.kindTitle(), v.job.Number.Value, v.job.Vehicle.Description.Value)
	if title == "" {
		title = v.label("document.subject")
	}
	opt := pdf.Options{
		Paper:    s.paper,
		Title:    title,
		Author:   v.job.Shop.Name.Value,
		Subject:  v.label("document.subject"),
		Creator:  "gaugesheet " + v.options.Version,
		Lang:     templates.Tag(v.words.Language),
		Created:  v.job.Date.Time,
		Keywords: v.keywords(),
	}
	if !v.options.NoAttach {
		opt.Attachments = v.attachments()
		var err error
		if opt.Attachments, err = v.signed(opt.Attachments); err != nil {
			return nil, err
		}
	}
	doc := pdf.New(opt)
	s.Draw(doc)
	return doc.Bytes()
}

// PNG makes a picture of the page, for a message or a text about the job. It
// carries no job file: what is filed is the PDF.
func (s *Sheet) PNG() ([]byte, error) {
	page := raster.New(raster.Options{Paper: s.paper})
	s.Draw(page)
	return page.PNG()
}

// keywords are the marks by which the program knows a sheet of its own.
func (v *view) keywords() string {
	words := "gaugesheet " + v.options.Version + "; sheet " + v.sheet.Name + "; paper " + v.paperName()
	if v.job.Raw != nil {
		words += "; fingerprint " + v.job.Fingerprint()
	}
	return words
}

// JobFileDescription marks the attached file that the sheet was made from.
const JobFileDescription = "gaugesheet job file"

func (v *view) attachments() []pdf.Attachment {
	if v.job.Raw == nil {
		return nil
	}
	files := []pdf.Attachment{{
		Name: filepath.Base(v.job.Name), Type: "application/yaml",
		Description: JobFileDescription, Data: v.job.Raw,
	}}
	for _, f := range v.job.Files {
		files = append(files, pdf.Attachment{
			Name: f.Name, Type: mediaType(f.Name), Description: "gaugesheet " + f.Role + " file", Data: f.Data,
		})
	}
	if v.options.Template != nil {
		files = append(files, pdf.Attachment{
			Name: filepath.Base(v.options.TemplateName), Type: "application/yaml",
			Description: TemplateDescription, Data: v.options.Template,
		})
	}
	return files
}

// TemplateDescription marks the attached template of the user's.
const TemplateDescription = "gaugesheet template file"

func mediaType(name string) string {
	switch ext := strings.ToLower(path.Ext(name)); ext {
	case ".yaml", ".yml":
		return "application/yaml"
	case ".png":
		return "image/png"
	case ".jpg", ".jpeg":
		return "image/jpeg"
	}
	return "application/octet-stream"
}
