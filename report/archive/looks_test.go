package archive

import (
	"bytes"
	"flag"
	"fmt"
	"image"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/sheet"
)

var changed = flag.Int("changed", 40, "how many sheets are changed at random in TestTheSameLooksTheSame")

// renderers are general-purpose programs that draw a page as a picture in
// shades of grey: IN, and OUT without its ending.
var renderers = []string{
	"mutool draw -q -r 72 -c gray -F pgm -o OUT.pgm IN 1",
	"pdftoppm -r 72 -gray -f 1 -l 1 -singlefile IN OUT",
}

// A looker draws pages by the renderers that are installed.
type looker struct {
	dir      string
	commands []string
}

func newLooker(t testing.TB) *looker {
	l := &looker{dir: t.TempDir()}
	for _, r := range renderers {
		if _, err := exec.LookPath(strings.Fields(r)[0]); err == nil {
			l.commands = append(l.commands, r)
		}
	}
	if l.commands == nil {
		t.Skip("no renderer is installed")
	}
	return l
}

// looks are a page's pictures, one by each renderer; nil for one that draws
// nothing.
func (l *looker) looks(t testing.TB, data []byte) []*image.Gray {
	t.Helper()
	in, out := filepath.Join(l.dir, "in.pdf"), filepath.Join(l.dir, "out")
	if err := os.WriteFile(in, data, 0o666); err != nil {
		t.Fatal(err)
	}
	var pictures []*image.Gray
	for _, command := range l.commands {
		words := strings.Fields(strings.NewReplacer("IN", in, "OUT", out).Replace(command))
		os.Remove(out + ".pgm")
		exec.Command(words[0], words[1:]...).Run() // what it says of damage is not asked here
		picture, _ := os.ReadFile(out + ".pgm")
		pictures = append(pictures, grey(picture))
	}
	return pictures
}

// grey reads a picture in the format PGM; nil where it is none.
func grey(data []byte) *image.Gray {
	var w, h, most int
	var kind string
	if n, err := fmt.Fscanf(bytes.NewReader(data), "%s\n%d %d\n%d\n", &kind, &w, &h, &most); err != nil || n != 4 || kind != "P5" || w*h > len(data) {
		return nil
	}
	return &image.Gray{Pix: data[len(data)-w*h:], Stride: w, Rect: image.Rect(0, 0, w, h)}
}

// alikeTo tells whether two pictures show the same; edges may be smoothed a
// little differently.
func alikeTo(a, b *image.Gray) bool {
	if a == nil || b == nil || a.Rect != b.Rect {
		return a == b
	}
	const smoothing = 60
	for i, v := range a.Pix {
		if d := int(v) - int(b.Pix[i]); d > smoothing || d < -smoothing {
			return false
		}
	}
	return true
}

// A mutation changes a document at random.
type mutation struct {
	*rand.Rand
	d       *doc
	content *pdffile.Stream
	seen    []pdffile.Object // what a page is seen by
}

func newMutation(seed int, d *doc) mutation {
	return mutation{rand.New(rand.NewPCG(uint64(seed), 13)), d, d.content(),
		[]pdffile.Object{d.page(), d.pages(), d.root(), d.content(), d.resources(), d.descendant()}}
}

// words are names that mean something to readers of PDF.
var words = strings.Fields(`AA AcroForm Annots AP ActualText Alt BBox BaseFont BleedBox Border BM CA CS CIDToGIDMap Contents Count CropBox
	DA DP DW Decode DecodeParms Default DescendantFonts Encoding ExtGState F FT Fields Filter First Font FontFile FontFile2 FontFile3 FontMatrix Group Height
	ImageMask Intent Interpolate K Kids Lang Length Mask Matrix MediaBox Metadata Names OC OCProperties OpenAction Outlines OutputIntents Pages Parent Pattern
	Predictor Properties Rect Ref Resources Rotate S SMask Shading StructParents Subtype TR ToUnicode Type UserUnit V W Widths Width XObject XFA
	DeviceRGB DeviceGray DeviceCMYK Identity-H Identity-V FlateDecode ASCIIHexDecode DCTDecode Page Form Image Type3 Normal Multiply None`)

// operators are pieces of contents.
var operators = []string{"q", "Q", "1 g", "0 G", "1 1 1 rg", "W n", "BT", "ET", "5 Tc", "20 Tw", "50 Tz", "3 Ts", "3 Tr", "1 0 0 1 9 9 cm", "2 0 0 .5 0 0 cm",
	"0 0 600 700 re f", "9 w", "9 M", "h", "n", "S", "f", "[9 9] 0 d", "/OC /X BDC", "EMC", "BI", "% ", "() Tj", "1 0 0 1 5 5 Tm", "9 TL", "T*", "/X Do", "/X gs", "/X sh", "5 i", "/X cs", "BX", "EX"}

// value is something that an entry may have.
func (m mutation) value() pdffile.Object {
	numbers := slices.Sorted(func(yield func(int) bool) {
		for n := range m.d.objects {
			if !yield(n) {
				return
			}
		}
	})
	switch m.IntN(8) {
	case 0, 1, 2:
		return pdffile.Ref{Number: numbers[m.IntN(len(numbers))]}
	case 3:
		return pn(words[m.IntN(len(words))])
	case 4:
		return float64(m.IntN(800) - 50)
	case 5:
		return list{0.0, 0.0, float64(m.IntN(700)), float64(m.IntN(800))}
	case 6:
		return pdffile.String(words[m.IntN(len(words))])
	}
	return dict{pn(words[m.IntN(len(words))]): 1.0}
}

// change changes one thing.
func (m mutation) change() {
	var all []int
	for n := range m.d.objects {
		all = append(all, n)
	}
	slices.Sort(all)
	o := m.d.objects[all[m.IntN(len(all))]]
	if m.IntN(3) == 0 {
		o = m.seen[m.IntN(len(m.seen))]
	}
	switch o := o.(type) {
	case dict:
		m.entry(o)
	case list:
		if len(o) > 0 {
			o[m.IntN(len(o))] = m.value()
		}
	case *pdffile.Stream:
		switch {
		case m.IntN(4) == 0 || len(o.Raw) == 0:
			m.entry(o.Dict)
		case o == m.content:
			m.operations(o)
		default:
			o.Raw = bytes.Clone(o.Raw)
			o.Raw[m.IntN(len(o.Raw))] = byte(m.IntN(256))
		}
	}
}

// entry changes an entry of a dictionary, or puts one in.
func (m mutation) entry(o dict) {
	var keys []pn
	for key := range o {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	switch {
	case len(keys) == 0 || m.IntN(2) == 0:
		o[pn(words[m.IntN(len(words))])] = m.value()
	case m.IntN(3) == 0:
		delete(o, keys[m.IntN(len(keys))])
	default:
		key := keys[m.IntN(len(keys))]
		if inner, ok := m.d.at(o[key]).(dict); ok && m.IntN(2) == 0 {
			m.entry(inner)
			return
		}
		o[key] = m.value()
	}
}

// operations changes a content: a line is put in, taken out, or done twice.
func (m mutation) operations(s *pdffile.Stream) {
	lines := bytes.Split(s.Raw, []byte("\n"))
	at := m.IntN(len(lines))
	switch m.IntN(4) {
	case 0:
		lines = slices.Delete(lines, at, at+1)
	case 1:
		lines = slices.Insert(lines, at, lines[m.IntN(len(lines))])
	default:
		lines = slices.Insert(lines, at, []byte(operators[m.IntN(len(operators))]))
	}
	s.Raw = bytes.Join(lines, []byte("\n"))
}

// Whatever was done to a sheet: where verify says that it is the same, general
// programs draw the same picture of it. Every row of the tables is asked, and
// sheets that are changed at random.
func TestTheSameLooksTheSame(t *testing.T) {
	if testing.Short() {
		t.Skip("renders hundreds of pages")
	}
	l := newLooker(t)
	page := draw(t, fourCylinders, sheet.Options{})
	want := l.looks(t, page)
	if slices.Contains(want, nil) {
		t.Fatal("a renderer draws nothing of a sheet")
	}
	drawn, same := 0, 0
	ask := func(name string, data []byte) {
		drawn++
		if got, _ := outcomeOf(t, data); got != Same {
			return
		}
		same++
		for i, picture := range l.looks(t, data) {
			if !alikeTo(picture, want[i]) {
				os.WriteFile(filepath.Join(os.TempDir(), "gaugesheet-differs.pdf"), data, 0o666)
				t.Errorf("%s: said to be the same, and '%s' draws another page", name, l.commands[i])
			}
		}
	}
	for _, table := range [][]alteration{shows, faces, beside, papers, apartRows, overs, carriers} {
		for _, a := range table {
			d := newDoc(t, page)
			d.pack = deflated
			a.change(d)
			ask(a.name, d.bytes())
		}
	}
	for i := range *changed {
		m := newMutation(i, newDoc(t, page))
		for range 1 + m.IntN(3) {
			m.change()
		}
		ask(fmt.Sprint("random change ", i), m.d.bytes())
	}
	t.Logf("%d sheets, of which %d are the same for verify and for %d renderers", drawn, same, len(want))
}
