package archive

import (
	"bytes"
	"fmt"
	"reflect"
	"strings"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/archive/shown"
)

// An Outcome is what can be said of a sheet after its page was drawn again.
type Outcome int

// The outcomes, the best first.
const (
	// Same: the file is the one that the program draws, or a strict reading of
	// its page gives what the program draws, and nothing else that could show
	// or run.
	Same Outcome = iota
	// Unvouched: the words and numbers agree in order and place, but the file
	// was rewritten, or something stands beside them, so that no more can be
	// said.
	Unvouched
	// Different: a word, a number, a place, a size or a shape differs, something
	// lies over the page, or the page was not drawn from what the file carries.
	Different
)

// A Verdict is what came of drawing a page again.
type Verdict struct {
	// Differences are in sentences, the first the one that matters most.
	Differences []string
	// Reasons are why a page that says the same cannot be vouched for.
	Reasons []string
	// Notes are what else has to be known, such as that the sheet was made by
	// another version.
	Notes []string
}

// Outcome is the worst of what was found.
func (v *Verdict) Outcome() Outcome {
	switch {
	case len(v.Differences) > 0:
		return Different
	case len(v.Reasons) > 0:
		return Unvouched
	}
	return Same
}

func (v *Verdict) differs(format string, args ...any) {
	v.Differences = append(v.Differences, fmt.Sprintf(format, args...))
}

func (v *Verdict) doubts(format string, args ...any) {
	v.Reasons = append(v.Reasons, fmt.Sprintf(format, args...))
}

func (v *Verdict) notes(format string, args ...any) {
	v.Notes = append(v.Notes, fmt.Sprintf(format, args...))
}

// Verify draws the sheet again from the job file that it carries and compares
// what the page shows. However the file says it was made, it is read with the
// same strictness. The error says why it cannot be read or drawn again.
func (s *Sheet) Verify(version string) (v Verdict, err error) {
	defer caught(&err)
	page, others, err := s.find()
	if err != nil {
		return v, err
	}
	said := s.Version
	if said == "" {
		said = version
	}
	again, err := s.redraw(page, said)
	if err != nil {
		return v, err
	}
	if again.file == nil { // byte for byte what was drawn
		s.remarks(&v, version)
		return v, nil
	}
	if err := s.file.Unambiguous(); err != nil {
		return v, fmt.Errorf("readers would not agree on the PDF: %w", explain(err))
	}
	ours, strange, err := readPage(s.file, page)
	if err != nil {
		return v, err
	}
	c := &comparison{s: s, v: &v, ours: ours, again: again, pair: newPairing(s.file, page.Ref, again.file, again.drawn.page.Ref)}
	if err := c.all(strange, others); err != nil {
		return v, explain(err)
	}
	s.remarks(&v, version)
	return v, nil
}

// remarks are what has to be known of the sheet beside what it says.
func (s *Sheet) remarks(v *Verdict, version string) {
	if s.Template != nil {
		v.notes("it is drawn by a template of its own, %s, which chooses what of the job is on the page", quoted(s.Template.Name))
	}
	if s.Version != "" && s.Version != version {
		v.notes("the sheet says that it was made by version %s, this is version %s, which may place things otherwise", s.Version, version)
	}
}

// mostPages is among how many pages a sheet is looked for.
const mostPages = 1000

// find gives the page that is the sheet's, and the others of the PDF.
func (s *Sheet) find() (pdffile.Page, []pdffile.Page, error) {
	if len(s.pages) == 0 {
		return pdffile.Page{}, nil, fmt.Errorf("the PDF has no pages")
	}
	if len(s.pages) == 1 {
		return s.pages[0], nil, nil
	}
	if len(s.pages) > mostPages {
		return pdffile.Page{}, nil, ErrTooLarge
	}
	s.file.Search()
	print := shortPrint(s.JobFingerprint())
	found := -1
	for i, page := range s.pages {
		if s.says(page, print) {
			found = i
			break
		}
	}
	if found < 0 && *s.left < 0 {
		return pdffile.Page{}, nil, ErrTooLarge
	}
	if found < 0 {
		return pdffile.Page{}, nil, fmt.Errorf("none of the %d pages of the PDF says that it was drawn from the job file that the PDF carries (%s)", len(s.pages), print)
	}
	others := append(append([]pdffile.Page{}, s.pages[:found]...), s.pages[found+1:]...)
	return s.pages[found], others, nil
}

// redraw makes the sheet again: in each way in which it may have been drawn,
// until one is the page.
func (s *Sheet) redraw(page pdffile.Page, version string) (*redrawn, error) {
	ways := s.ways(page)
	var first *redrawn
	var problem error
	best := -1
	ours, _, err := readPage(s.file, page)
	if err != nil {
		return nil, err
	}
	for _, way := range ways {
		if *s.draws--; *s.draws < 0 {
			break
		}
		if way.boxes && first != nil && len(ours.marks) <= len(first.drawn.marks) {
			break // outlines of blocks are more marks
		}
		again, err := s.draw(way, version)
		if err != nil {
			if first == nil && problem == nil {
				problem = err
			}
			continue
		}
		if again.file == nil {
			return again, nil
		}
		alike := 0
		for alike < min(len(ours.marks), len(again.drawn.marks)) && shown.Same(ours.marks[alike], again.drawn.marks[alike], coarse) {
			alike++
		}
		problem = nil
		if first == nil || alike > best || alike == best && alikeTexts(ours.marks, again.drawn.marks) > alikeTexts(ours.marks, first.drawn.marks) {
			first, best = again, alike
		}
		if alike == len(again.drawn.marks) {
			break
		}
	}
	if first == nil && problem == nil {
		problem = ErrTooLarge
	}
	return first, problem
}

// alikeTexts is how many letters two pages have alike from their start.
func alikeTexts(a, b []shown.Mark) int {
	n := 0
	for n < min(len(a), len(b)) && a[n].Text == b[n].Text {
		n++
	}
	return n
}

// How far apart measures of two pages may be, in points: by the rounding of
// programs that save numbers as they are, and of those that write a page anew.
// The coarser one is a fiftieth of a millimetre.
const (
	fine   = 0.0005
	coarse = 0.06
)

// A comparison holds a page against the one that was drawn again.
type comparison struct {
	s     *Sheet
	v     *Verdict
	ours  drawn
	again *redrawn
	pair  *pairing
}

func (c *comparison) all(strange error, others []pdffile.Page) error {
	if err := c.marks(strange); err != nil {
		return err
	}
	for _, step := range []func() error{c.pageEntries, c.nodes, c.notesOver, c.catalog, c.info, c.attachments, func() error { return c.others(others) }} {
		if err := step(); err != nil {
			return err
		}
	}
	c.fingerprint()
	return c.canonical()
}

// marks compares what the page shows.
func (c *comparison) marks(strange error) error {
	same := bytes.Equal(c.ours.content, c.again.drawn.content) || reflect.DeepEqual(c.ours.ops, c.again.drawn.ops)
	if strange != nil {
		c.v.differs("%v", strange)
		if said := runsApart(c.ours.runs, c.again.drawn.runs, c.again); said != "" {
			c.v.Differences = append([]string{said}, c.v.Differences...)
		}
		return nil
	}
	ours, theirs := c.ours.marks, c.again.drawn.marks
	at, extra := align(ours, theirs)
	if at < 0 && onlyPictures(ours, theirs) {
		c.pictures()
		return nil
	}
	if at < 0 {
		c.v.differs("%s", c.apart())
		return nil
	}
	alike, err := c.pair.resources(c.ours.page, c.again.drawn.page)
	if err != nil {
		return err
	}
	exact := extra == 0 && alike && (same || sameSteps(c.ours.ops, c.again.drawn.ops) && within(ours, theirs, fine))
	if extra > 0 {
		c.stamp(append(append([]shown.Mark{}, ours[:at]...), ours[at+len(theirs):]...))
	} else if !exact {
		c.v.doubts("the page was written anew%s: its words, numbers, lines and shapes agree in order and place", c.byWhom())
	}
	return nil
}

// near is how close to the page's own words, in points, something else may not
// stand: a figure beside a figure makes another number of it.
const near = 6

// mostExtra is how many marks a stamp may have.
const mostExtra = 2000

// align finds the one list of marks in the other: where it starts, and how
// many marks there are beside it; -1 where it is not in it.
func align(ours, theirs []shown.Mark) (at, extra int) {
	extra = len(ours) - len(theirs)
	for at := 0; at <= min(extra, mostExtra); at++ {
		if within(ours[at:at+len(theirs)], theirs, coarse) {
			return at, extra
		}
	}
	return -1, 0
}

func within(a, b []shown.Mark, by float64) bool {
	for i := range a {
		if len(a) != len(b) || !shown.Same(a[i], b[i], by) {
			return false
		}
	}
	return len(a) == len(b)
}

// stamp judges what was drawn beside the page's own.
func (c *comparison) stamp(extra []shown.Mark) {
	if len(extra) > mostExtra {
		c.v.differs("the page draws far more than its job file gives")
		return
	}
	text := ""
	for _, m := range extra {
		if over := c.under(m.Reach.Grown(near)); over != "" {
			c.v.differs("something was drawn over the page, %s", over)
			return
		}
		text += m.Text
	}
	if text = strings.TrimSpace(text); text != "" {
		text = ": " + quoted(text)
	}
	c.v.doubts("a stamp stands on the page beside what it says%s", text)
}

// under says what of the page is in a box; "" where nothing is.
func (c *comparison) under(b shown.Box) string {
	text, touched := "", false
	for _, m := range c.again.drawn.marks {
		if m.Touches(b) {
			touched = true
			text += m.Text
		}
	}
	switch {
	case text != "":
		if r := []rune(text); len(r) > 30 {
			text = string(r[:30]) + "…"
		}
		return "at " + quoted(text)
	case touched:
		return "at a line or a picture of it"
	}
	return ""
}

// apart names the first difference in what is shown: a text, or else a shape.
func (c *comparison) apart() string {
	if said := runsApart(c.ours.runs, c.again.drawn.runs, c.again); said != "" {
		return said
	}
	return drawingApart(c.ours, c.again.drawn)
}

// byWhom names the program that saved the file, where it says so.
func (c *comparison) byWhom() string {
	info, err := c.s.file.Dict(c.s.file.Trailer["Info"])
	if err != nil {
		return ""
	}
	producer, err := c.s.file.Text(info["Producer"])
	if err != nil || producer == "" || strings.HasPrefix(producer, "gaugesheet ") {
		return ""
	}
	return " by " + quoted(producer)
}

func (c *comparison) fingerprint() {
	was, is := c.s.Fingerprint, c.s.JobFingerprint()
	if was == "" || was == is {
		return
	}
	if is[:8] != was[:min(8, len(was))] { // as much as the page shows of it tells them apart
		was, is = was[:min(8, len(was))], is[:8]
	}
	said := fmt.Sprintf("the sheet was made from a job file with the fingerprint %s, the one that it carries has %s", was, is)
	if c.v.Outcome() == Different {
		c.v.notes("%s", said)
	} else {
		c.v.differs("%s", said)
	}
}
