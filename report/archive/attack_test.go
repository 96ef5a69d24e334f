package archive

import (
	"image"
	"slices"
	"strings"
	"testing"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/sheet"
)

// refused stands for a file of which nothing is said but why it is not read.
const refused Outcome = -1

// An alteration is something that was done to a sheet, and what verify has to
// say of it.
type alteration struct {
	name   string
	change func(*doc)
	want   Outcome
	says   string // an expression that one of the sentences fits
}

// altered checks what a sheet says of itself after each of some alterations.
func altered(t *testing.T, drawn []byte, pack func([]byte) ([]byte, pdffile.Object), tables ...[]alteration) {
	var rows tally
	defer rows.log(t)
	for _, a := range slices.Concat(tables...) {
		rows.run(t, a.name, func(t *testing.T) {
			d := newDoc(t, drawn)
			d.pack = pack
			a.change(d)
			check(t, d.bytes(), a.want, a.says)
		})
	}
}

// A tally counts the rows of a table that were tried, and those that are right.
type tally struct{ rows, tried, right int }

// run tries a row: every one, or one of four where the tests have to be quick.
func (c *tally) run(t *testing.T, name string, row func(*testing.T)) {
	c.rows++
	if testing.Short() && c.rows%4 != 1 {
		return
	}
	c.tried++
	if t.Run(name, row) {
		c.right++
	}
}

func (c *tally) log(t *testing.T) { t.Logf("%d of %d rows are right", c.right, c.tried) }

// Shorter names for what alterations are made of.
type (
	dict = pdffile.Dict
	pn   = pdffile.Name
	list = []pdffile.Object
)

func area(x0, y0, x1, y1 float64) list { return list{x0, y0, x1, y1} }

// blank is a place of the sheet where nothing stands, over is one on the
// reading of cylinder 4.
var blank = area(20, 5, 60, 15)

func (d *doc) over() list {
	_, run, _ := d.font("138")
	return area(run.X-1, run.Y-2, run.X+20, run.Y+10)
}

// characters are what the codes of the font of the reading 138 stand for, with
// the codes of the reading.
func (d *doc) characters() (characters pdffile.Font, reading string) {
	font, _, reading := d.font("138")
	f, err := pdffile.Open(d.bytes())
	if err != nil {
		d.t.Fatal(err)
	}
	if characters, err = f.Characters(font["ToUnicode"]); err != nil {
		d.t.Fatal(err)
	}
	return characters, reading
}

// to158 changes the reading 138 to 158 in the content, which its font can show.
func (d *doc) to158() {
	characters, before := d.characters()
	after, ok := codesOf(characters, "158")
	if !ok {
		d.t.Fatal("the font has no 5")
	}
	d.replace(before, after)
}

// code is the code of a character in the font of the reading 138.
func (d *doc) code(c string) int {
	characters, _ := d.characters()
	for code, s := range characters {
		if s == c {
			return int(code)
		}
	}
	d.t.Fatalf("the font has no %s", c)
	return 0
}

// annotate puts a note on the page.
func (d *doc) annotate(entries dict) {
	entries["Type"] = pn("Annot")
	d.page()["Annots"] = append(d.list(d.page()["Annots"]), d.add(entries))
}

// form is a part of a page that paints an area white.
func (d *doc) form() pdffile.Ref {
	return d.stream(dict{"Type": pn("XObject"), "Subtype": pn("Form"), "BBox": area(0, 0, 20, 12)}, "1 g 0 0 20 12 re f")
}

// named adds a resource of the page.
func (d *doc) named(category, name pn, o pdffile.Object) {
	r := d.resources()
	if r[category] == nil || len(d.dict(r[category])) == 0 {
		r[category] = dict{}
	}
	d.dict(r[category])[name] = o
}

// descendant is the part of the font of 138 that has its outlines.
func (d *doc) descendant() dict {
	font, _, _ := d.font("138")
	return d.dict(d.list(font["DescendantFonts"])[0])
}

// specs are the descriptions of the attached files.
func (d *doc) specs() list {
	return d.list(d.dict(d.dict(d.root()["Names"])["EmbeddedFiles"])["Names"])
}

func (d *doc) attach(name, description, data string) {
	file := d.stream(dict{"Type": pn("EmbeddedFile")}, data)
	spec := d.add(dict{"Type": pn("Filespec"), "F": pdffile.String(name), "UF": pdffile.String(name), "Desc": pdffile.String(description), "EF": dict{"F": file, "UF": file}})
	d.dict(d.dict(d.root()["Names"])["EmbeddedFiles"])["Names"] = append(d.specs(), pdffile.String("x"+name), spec)
}

// secondPage adds a page, which other marks it as being other than the first.
func (d *doc) secondPage(content string) {
	page := dict{}
	for k, v := range d.page() {
		page[k] = v
	}
	delete(page, "StructParents")
	if content != "" {
		page["Contents"] = d.stream(dict{}, content)
	}
	page["Parent"] = d.root()["Pages"]
	d.pages()["Kids"] = append(d.list(d.pages()["Kids"]), d.add(page))
	d.pages()["Count"] = 2.0
}

func script() dict { return dict{"S": pn("JavaScript"), "JS": pdffile.String("app.alert(1)")} }

// glyphAt is where a font has a letter's outline.
func glyphAt(t testing.TB, font []byte, letter int) (from, to int) {
	number := func(at, size int) int {
		v := 0
		for _, c := range font[at : at+size] {
			v = v<<8 | int(c)
		}
		return v
	}
	var loca, glyf, head int
	for row := 12; row < 12+16*number(4, 2); row += 16 {
		switch string(font[row : row+4]) {
		case "loca":
			loca = number(row+8, 4)
		case "glyf":
			glyf = number(row+8, 4)
		case "head":
			head = number(row+8, 4)
		}
	}
	if loca == 0 || glyf == 0 || head == 0 {
		t.Fatal("no outlines")
	}
	size, unit := 2, 2
	if number(head+50, 2) == 1 {
		size, unit = 4, 1
	}
	return glyf + unit*number(loca+size*letter, size), glyf + unit*number(loca+size*(letter+1), size)
}

// outcome is what verify says of a file.
func outcomeOf(t testing.TB, data []byte) (Outcome, string) {
	t.Helper()
	sheets, err := OpenAll(data)
	worst, said := Same, ""
	for _, s := range sheets {
		var v Verdict
		if v, err = s.Verify(version); err != nil {
			break
		}
		worst = max(worst, v.Outcome())
		said += strings.Join(append(append(v.Differences, v.Reasons...), v.Notes...), "\n") + "\n"
	}
	if err != nil {
		return refused, err.Error()
	}
	return worst, said
}

// What was done to a sheet, and what verify has to say: of a sheet that this
// version drew, and of one that claims another version.
func TestAlterations(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	for _, claimed := range []string{version, "v0.1.0"} {
		t.Run(claimed, func(t *testing.T) {
			altered(t, draw(t, fourCylinders, sheet.Options{Version: claimed}), deflated, shows, faces, beside, papers)
		})
	}
}

// A picture is another where its data, its mask or the meaning of its data is.
func TestAlteredPictures(t *testing.T) {
	page := withLogo(t, picture(t, image.NewRGBA(image.Rect(0, 0, 40, 30))))
	logo := func(d *doc) *pdffile.Stream {
		for _, o := range d.dict(d.resources()["XObject"]) {
			return d.at(o).(*pdffile.Stream)
		}
		t.Fatal("no logo")
		return nil
	}
	for name, change := range map[string]func(*doc){
		"one byte":     func(d *doc) { logo(d).Raw[0] ^= 0x80 },
		"turned over":  func(d *doc) { logo(d).Dict["Decode"] = list{1.0, 0.0, 1.0, 0.0, 1.0, 0.0} },
		"a mask":       func(d *doc) { logo(d).Dict["SMask"] = d.form() },
		"another size": func(d *doc) { logo(d).Dict["Width"], logo(d).Dict["Height"] = 30.0, 40.0 },
	} {
		d := newDoc(t, page)
		d.pack = deflated
		if got, said := outcomeOf(t, d.bytes()); got != Same {
			t.Fatalf("unchanged: %d, %q", got, said)
		}
		change(d)
		if got, said := outcomeOf(t, d.bytes()); got != Different {
			t.Errorf("%s: the outcome is %d, want %d; said %q", name, got, Different, said)
		}
	}
}
