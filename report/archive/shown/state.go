package shown

import (
	"math"
	"slices"

	"gaugesheet/report/archive/pdffile"
)

// A state is what the next mark is made with.
type state struct {
	ctm          matrix
	fill, stroke colour
	pen          pen
	clips        []*clip
	text         textState
	odd          string // a state that no sheet has
}

type textState struct {
	face                    *face
	size, space, wide, lead float64
	rise                    float64
	mode                    float64
}

type pen struct {
	width, cap, join, miter, phase float64
	coarse                         bool // curves may be drawn as a few straight lines
	dash                           []float64
}

// A clip is an area to which marks are cut.
type clip struct {
	look   string
	points []float64
	box    Box
	plain  bool // it is the box
}

func initial() state {
	return state{ctm: identity, pen: pen{width: 1, miter: 10}, text: textState{wide: 1}}
}

// A colour is one of grey, red-green-blue, or four inks; red-green-blue with
// equal parts is grey.
type colour struct {
	inks  bool
	v     [4]float64
	odd   string // of a space that no sheet has
	parts int    // of its space; 0 is 1
}

// same allows for colours that were rounded to a part in 255, or to less.
func (c colour) same(d colour, within float64) bool {
	if c.inks != d.inks || c.odd != d.odd {
		return false
	}
	for i := range c.v {
		if math.Abs(c.v[i]-d.v[i]) > min(within, 0.5/255) {
			return false
		}
	}
	return true
}

// colourOf makes a colour of its parts.
func colourOf(n []float64) (colour, bool) {
	for i := range n {
		n[i] = math.Min(math.Max(n[i], 0), 1)
	}
	switch len(n) {
	case 1:
		return colour{v: [4]float64{n[0], n[0], n[0]}, parts: 1}, true
	case 3:
		return colour{v: [4]float64{n[0], n[1], n[2]}, parts: 3}, true
	case 4:
		return colour{inks: true, v: [4]float64(n), parts: 4}, true
	}
	return colour{}, false
}

// A reader goes through a page's operations.
type reader struct {
	file     *pdffile.File
	paper    Box
	types    map[pdffile.Ref]*face
	programs map[*pdffile.Stream]*program
	marks    []Mark
	heard    []Heard
	measured int // how many measures the marks have
	shown    int // how many codes of letters were shown
}

// A drawing is one content stream being gone through.
type drawing struct {
	*reader
	resources pdffile.Dict
	depth     int
	state
	saved  []state
	path   path
	cut    bool // the path is to become a clip
	even   bool // by the even-odd rule
	tm     matrix
	line   matrix
	open   bool   // a text is begun
	within int    // how many marked parts were open then
	marked []part // those that are open
}

// draw goes through a content.
func (r *reader) draw(content []byte, resources pdffile.Object, s state, depth int) error {
	ops, err := r.file.Operations(content)
	if err != nil {
		return err
	}
	own, err := r.file.Dict(resources)
	if err != nil {
		return err
	}
	if err := r.noDefaults(own); err != nil {
		return err
	}
	d := &drawing{reader: r, resources: own, depth: depth, state: s, tm: identity, line: identity}
	for _, op := range ops {
		if err := d.do(op); err != nil {
			return err
		}
	}
	return d.ended()
}

// ended refuses a content that leaves something begun: some readers go on with
// it in what comes after.
func (d *drawing) ended() error {
	if len(d.path.parts) > 0 || d.cut || d.open || len(d.marked) > 0 || d.depth > 0 && len(d.saved) > 0 {
		return unknown("something that is begun and not ended")
	}
	return nil
}

// ownSpaces are names that mean a space of colours by themselves. Some readers
// look them up in the page's own list first, for pictures too.
var ownSpaces = map[pdffile.Name]bool{
	"DefaultGray": true, "DefaultRGB": true, "DefaultCMYK": true,
	"DeviceGray": true, "DeviceRGB": true, "DeviceCMYK": true, "G": true, "RGB": true, "CMYK": true,
	"CalGray": true, "CalRGB": true, "CalCMYK": true, "Lab": true, "ICCBased": true, "Indexed": true, "I": true, "Separation": true, "DeviceN": true, "Pattern": true,
}

// noDefaults refuses resources that give plain colours another meaning.
func (r *reader) noDefaults(resources pdffile.Dict) error {
	spaces, err := r.file.Dict(resources["ColorSpace"])
	if err != nil {
		return err
	}
	for name := range spaces {
		if ownSpaces[name] {
			return unknown("colours that mean others")
		}
	}
	return nil
}

// resource gives a named resource.
func (d *drawing) resource(category pdffile.Name, op pdffile.Operation) (pdffile.Object, error) {
	named, err := d.file.Dict(d.resources[category])
	if err != nil {
		return nil, err
	}
	if len(op.Operands) != 1 { // of several names readers take the first, or the last
		return nil, unknown("an operation with other operands than its name")
	}
	name, _ := op.Operands[0].(pdffile.Name)
	return named[name], nil
}

// A part is a marked part of a content.
type part struct {
	as     Heard
	hidden bool // it can be
}

// hidden tells whether what is drawn now can be hidden.
func (d *drawing) hidden() bool {
	return slices.ContainsFunc(d.marked, func(p part) bool { return p.hidden })
}

// hear notes a text as what is read aloud of the part that is open. Readers take a
// numbered part within one that is none of the page's own for either: what it stands
// in goes into its tag.
func (d *drawing) hear(text string) {
	at := Heard{ID: -1}
	for i, p := range d.marked {
		if i > 0 {
			at.Tag += " "
		}
		at.Tag += p.as.Tag
		if p.as.ID >= 0 || p.as.Tag == "Artifact" {
			at.ID = p.as.ID
		}
	}
	if n := len(d.heard); n > 0 && d.heard[n-1].Tag == at.Tag && d.heard[n-1].ID == at.ID {
		d.heard[n-1].Text += text
		return
	}
	at.Text = text
	d.heard = append(d.heard, at)
}

// add adds a mark, with the clips that cut it.
func (d *drawing) add(m Mark) error {
	if m.Kind != Letter {
		d.hear(other)
	}
	m.look += d.odd
	if d.pen.coarse {
		m.look += " in coarse curves"
	}
	if d.hidden() {
		m.look += " can be hidden"
	}
	m.Reach = m.Reach.around(m.Box)
	for _, c := range d.clips {
		m.Reach = m.Reach.cut(c.box)
		if c.plain && c.box.contains(m.Box) {
			continue
		}
		m.look += " clip " + c.look
		m.measures = append(m.measures, c.points...)
		m.Box = m.Box.cut(c.box)
	}
	return d.put(m)
}

// put adds a mark as it is.
func (r *reader) put(m Mark) error {
	if r.measured += len(m.measures); r.measured > mostMeasures || len(r.marks) > most {
		return pdffile.ErrTooLarge
	}
	r.marks = append(r.marks, m)
	return nil
}
