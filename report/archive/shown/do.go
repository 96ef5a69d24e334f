package shown

import (
	"strconv"
	"strings"

	"gaugesheet/report/archive/pdffile"
)

// deepest is how often a state may be saved in a row, and how deep parts may
// stand in one another.
const (
	deepestSaved = 500
	deepestPart  = 4
)

// Which operators stand where (ISO 32000-2, 8.2): of others readers do
// different things.
var (
	ofTexts    = wordsOf("Td TD Tm T* Tj TJ ' \" ET")
	inTexts    = wordsOf("Td TD Tm T* Tj TJ ' \" ET Tc Tw Tz TL Tf Tr Ts w J j M d ri i gs g G rg RG k K cs CS sc SC scn SCN BMC BDC EMC MP DP")
	ofOutlines = wordsOf("l c v y h W W* S s f F f* B B* b b* n")
	inOutlines = wordsOf("m re l c v y h W W* S s f F f* B B* b b* n w J j M d i g G rg RG k K") // one program puts pens and colours there
)

func wordsOf(list string) map[string]bool {
	words := map[string]bool{}
	for _, w := range strings.Fields(list) {
		words[w] = true
	}
	return words
}

// inOrder tells whether an operator stands where it may. One that nobody knows is
// told as such.
func (d *drawing) inOrder(name string) error {
	outlined := len(d.path.parts) > 0
	switch {
	case !known[name]:
	case outlined && !inOutlines[name]:
		return unknown("%q within an outline", name)
	case !outlined && ofOutlines[name]:
		return unknown("%q without an outline", name)
	case d.open && !inTexts[name]:
		return unknown("%q within a text", name)
	case !d.open && ofTexts[name]:
		return unknown("%q outside of a text", name)
	}
	return nil
}

// known are the operators that are read.
var known = func() map[string]bool {
	words := wordsOf("d ri gs cs CS sc scn SC SCN Tf Tj TJ ' \" Do MP DP BMC BDC EMC")
	for name := range counts {
		words[name] = true
	}
	return words
}()

// numbers are an operation's operands where these are so many numbers.
func numbers(op pdffile.Operation, count int) ([]float64, error) {
	if len(op.Operands) != count {
		return nil, unknown("%q with %d operands", op.Name, len(op.Operands))
	}
	n := make([]float64, count)
	for i, o := range op.Operands {
		v, ok := o.(float64)
		if !ok || v > 1e7 || v < -1e7 {
			return nil, unknown("%q with something else than a number", op.Name)
		}
		n[i] = v
	}
	return n, nil
}

// counts is how many numbers the operators take whose operands are numbers.
var counts = map[string]int{
	"cm": 6, "w": 1, "J": 1, "j": 1, "M": 1, "i": 1,
	"m": 2, "l": 2, "c": 6, "v": 4, "y": 4, "re": 4, "h": 0,
	"S": 0, "s": 0, "f": 0, "F": 0, "f*": 0, "B": 0, "B*": 0, "b": 0, "b*": 0, "n": 0, "W": 0, "W*": 0,
	"g": 1, "G": 1, "rg": 3, "RG": 3, "k": 4, "K": 4,
	"BT": 0, "ET": 0, "Tc": 1, "Tw": 1, "Tz": 1, "TL": 1, "Tr": 1, "Ts": 1, "Td": 2, "TD": 2, "Tm": 6, "T*": 0,
	"q": 0, "Q": 0,
}

// do carries one operation out.
func (d *drawing) do(op pdffile.Operation) error {
	if err := d.inOrder(op.Name); err != nil {
		return err
	}
	count, plain := counts[op.Name]
	if !plain {
		return d.doNamed(op)
	}
	n, err := numbers(op, count)
	if err != nil {
		return err
	}
	switch op.Name {
	case "q":
		if len(d.saved) >= deepestSaved {
			return pdffile.ErrTooLarge
		}
		d.saved = append(d.saved, d.state)
	case "Q":
		if len(d.saved) == 0 {
			return unknown("more ends of parts than starts")
		}
		d.state, d.saved = d.saved[len(d.saved)-1], d.saved[:len(d.saved)-1]
	case "cm":
		if !d.ctm.holds(n[4], n[5]) {
			return errRounding
		}
		d.ctm = matrix(n).times(d.ctm)
	case "w", "J", "j", "M", "i":
		d.setPen(op.Name, n[0])
	case "g", "rg", "k":
		d.fill, _ = colourOf(n)
	case "G", "RG", "K":
		d.stroke, _ = colourOf(n)
	case "m", "l", "c", "v", "y", "re", "h":
		return d.path.add(op.Name, n, d.ctm)
	case "W", "W*":
		d.cut, d.even = true, op.Name == "W*"
	case "S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "n":
		return d.paint(op.Name)
	default:
		return d.doText(op.Name, n)
	}
	return nil
}

func (d *drawing) setPen(name string, v float64) {
	switch name {
	case "w":
		d.pen.width = v
	case "J":
		d.pen.cap = v
	case "j":
		d.pen.join = v
	case "M":
		d.pen.miter = v
	case "i":
		d.pen.coarse = v > 1
	}
}

// doNamed carries out operations with other operands than numbers.
func (d *drawing) doNamed(op pdffile.Operation) error {
	switch op.Name {
	case "d":
		return d.setDash(op)
	case "ri":
		return nil // how colours are fitted into those of a printer
	case "gs":
		return d.setState(op)
	case "cs", "CS":
		return d.setSpace(op)
	case "sc", "scn", "SC", "SCN":
		return d.setColour(op)
	case "Tf":
		return d.setFace(op)
	case "Tj", "TJ", "'", "\"":
		return d.show(op)
	case "Do":
		return d.object(op)
	case "MP", "DP": // a point, which shows nothing
	case "BMC", "BDC":
		return d.begin(op)
	case "EMC":
		if len(d.marked) == 0 || len(op.Operands) > 0 {
			return unknown("more ends of parts than starts")
		}
		d.marked = d.marked[:len(d.marked)-1]
	default:
		return unknown("%s, which no sheet has", strconv.Quote(op.Name))
	}
	return nil
}

// begin begins a marked part: one that can be hidden, or one that says
// something else than it shows.
func (d *drawing) begin(op pdffile.Operation) error {
	if want := map[string]int{"BMC": 1, "BDC": 2}[op.Name]; len(op.Operands) != want || len(d.marked) > deepestSaved {
		return unknown("marked parts that are none")
	}
	tag, named := op.Operands[0].(pdffile.Name)
	if !named {
		return unknown("marked parts that are none")
	}
	p := part{as: Heard{Tag: tag, ID: -1}, hidden: tag == "OC"}
	if op.Name == "BMC" {
		d.marked = append(d.marked, p)
		return nil
	}
	o := op.Operands[1]
	if _, named := o.(pdffile.Name); named {
		var err error
		if o, err = d.resource("Properties", pdffile.Operation{Operands: op.Operands[1:]}); err != nil {
			return err
		}
	}
	properties, err := d.file.Dict(o)
	if err != nil {
		return err
	}
	kind := properties["Type"]
	p.hidden = p.hidden || kind == pdffile.Name("OCG") || kind == pdffile.Name("OCMD")
	if id, given := properties["MCID"].(float64); given {
		p.as.ID = int(id)
	} else if properties["MCID"] != nil {
		return unknown("marked parts that are none")
	}
	d.marked = append(d.marked, p)
	for _, key := range []pdffile.Name{"ActualText", "Alt", "E", "Lang"} {
		if properties[key] == nil {
			continue
		}
		text, err := d.file.Text(properties[key])
		if err != nil {
			return err
		}
		if err := d.put(Mark{Kind: Spoken, Text: text, Box: d.paper, Reach: d.paper, look: string(key)}); err != nil {
			return err
		}
	}
	return nil
}

func (d *drawing) setDash(op pdffile.Operation) error {
	if len(op.Operands) != 2 {
		return unknown("a dash of %d operands", len(op.Operands))
	}
	list, _ := op.Operands[0].([]pdffile.Object)
	dash, err := numbers(pdffile.Operation{Name: "d", Operands: list}, len(list))
	if err != nil {
		return err
	}
	phase, ok := op.Operands[1].(float64)
	if !ok || len(dash) > 20 {
		return unknown("a dash that is none")
	}
	d.pen.dash, d.pen.phase = dash, phase
	return nil
}

// setSpace takes the plain colour spaces; others have colours of their own.
func (d *drawing) setSpace(op pdffile.Operation) error {
	if len(op.Operands) != 1 {
		return unknown("a colour space without its name")
	}
	name, _ := op.Operands[0].(pdffile.Name)
	c := colour{odd: "space " + string(name)}
	switch name {
	case "DeviceGray":
		c = colour{parts: 1}
	case "DeviceRGB":
		c = colour{parts: 3}
	case "DeviceCMYK":
		c = colour{inks: true, v: [4]float64{3: 1}, parts: 4} // black
	}
	if op.Name == "cs" {
		d.fill = c
	} else {
		d.stroke = c
	}
	return nil
}

// setColour sets a colour by its parts; in a space that no sheet has it stays
// odd.
func (d *drawing) setColour(op pdffile.Operation) error {
	of := &d.stroke
	if op.Name[0] == 's' {
		of = &d.fill
	}
	if of.odd != "" {
		return nil
	}
	n, err := numbers(op, len(op.Operands))
	if err != nil {
		return err
	}
	c, ok := colourOf(n)
	if !ok || len(n) != max(of.parts, 1) {
		return unknown("a colour of %d parts", len(n))
	}
	*of = c
	return nil
}

// setState notes a state that changes what is seen: no sheet has one.
func (d *drawing) setState(op pdffile.Operation) error {
	o, err := d.resource("ExtGState", op)
	if err != nil {
		return err
	}
	gs, err := d.file.Dict(o)
	if err != nil {
		return err
	}
	for name, o := range gs {
		v, err := d.file.Resolve(o)
		if err != nil {
			return err
		}
		ok := false
		switch name {
		case "Type", "SA", "OP", "op", "OPM", "SM", "AIS", "TK", "RI":
			ok = true // without transparency or several inks these change nothing
		case "FL":
			flat, isNumber := v.(float64)
			ok = isNumber && flat <= 1
		case "CA", "ca":
			ok = v == 1.0
		case "BM":
			ok = v == pdffile.Name("Normal") || v == pdffile.Name("Compatible")
		case "SMask":
			ok = v == pdffile.Name("None")
		}
		if !ok {
			d.odd = " in a state that no sheet has"
		}
	}
	return nil
}
