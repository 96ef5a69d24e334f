package archive

import (
	"bytes"
	"context"
	"crypto/sha256"
	"flag"
	"fmt"
	"image"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"gaugesheet/report/sheet"
)

var (
	changed = flag.Int("changed", 40, "how many sheets are changed at random in TestTheSameLooksTheSame")
	seed    = flag.Int("changeseed", 1, "where the random changes of TestTheSameLooksTheSame begin")
)

// views are what general-purpose programs make of a sheet: pictures in shades of grey
// (IN, and OUT without its ending), its words, the files in it (in the folder OUT), and
// what is read aloud.
var views = []string{
	"mutool draw -q -r 72 -c gray -F pgm -o OUT.pgm IN 1",
	"pdftoppm -r 72 -gray -f 1 -l 1 -singlefile IN OUT",
	"gs -q -dSAFER -dBATCH -dNOPAUSE -dLastPage=1 -r72 -dTextAlphaBits=4 -dGraphicsAlphaBits=4 -sDEVICE=pgmraw -o OUT.pgm IN",
	"pdftotext -layout IN -",
	"mutool draw -q -F txt IN 1",
	"pdfdetach -saveall -o OUT IN",
	"pdfdetach -list IN",
	"qpdf --list-attachments IN",
	"pdfinfo -struct-text IN",
}

// A looker looks at files by the programs that are installed.
type looker struct {
	dir      string
	commands []string
}

func newLooker(t testing.TB) *looker {
	l := &looker{dir: t.TempDir()}
	for _, v := range views {
		if _, err := exec.LookPath(strings.Fields(v)[0]); err == nil {
			l.commands = append(l.commands, v)
		}
	}
	if l.commands == nil {
		t.Skip("no program that shows a PDF is installed")
	}
	return l
}

// A look is what one program makes of a file.
type look struct {
	picture *image.Gray // nil where it draws none
	text    string      // or what it says, or the files that it takes out
}

// looks are what each program makes of a file; nil for one that is passed over.
func (l *looker) looks(t testing.TB, data []byte, pass string) []*look {
	t.Helper()
	in, out := filepath.Join(l.dir, "in.pdf"), filepath.Join(l.dir, "out")
	if err := os.WriteFile(in, data, 0o666); err != nil {
		t.Fatal(err)
	}
	var all []*look
	for _, command := range l.commands {
		if pass != "" && strings.HasPrefix(command, pass) {
			all = append(all, nil)
			continue
		}
		words := strings.Fields(strings.NewReplacer("IN", in, "OUT", out).Replace(command))
		os.Remove(out + ".pgm")
		os.RemoveAll(out)
		os.Mkdir(out, 0o777)
		ctx, done := context.WithTimeout(t.Context(), time.Minute)
		said, _ := exec.CommandContext(ctx, words[0], words[1:]...).Output() // what it says of damage is not asked here
		done()
		picture, _ := os.ReadFile(out + ".pgm")
		all = append(all, &look{grey(picture), string(said) + filesIn(out)})
	}
	return all
}

// filesIn are the files in a folder, by their names.
func filesIn(dir string) string {
	var b strings.Builder
	fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			data, _ := os.ReadFile(filepath.Join(dir, name))
			fmt.Fprintf(&b, "%s %x\n", name, sha256.Sum256(data))
		}
		return nil
	})
	return b.String()
}

// grey reads a picture in the format PGM; nil where it is none.
func grey(data []byte) *image.Gray {
	var w, h, most int
	var kind string
	if end := bytes.Index(data, []byte("\n#")); end == 2 { // a remark
		data = append([]byte("P5"), data[3+bytes.IndexByte(data[3:], '\n'):]...)
	}
	if n, err := fmt.Fscanf(bytes.NewReader(data), "%s\n%d %d\n%d\n", &kind, &w, &h, &most); err != nil || n != 4 || kind != "P5" || w*h > len(data) {
		return nil
	}
	return &image.Gray{Pix: data[len(data)-w*h:], Stride: w, Rect: image.Rect(0, 0, w, h)}
}

// alikeTo tells whether two looks show the same; edges may be smoothed a little
// differently.
func (l *look) alikeTo(m *look) bool {
	a, b := l.picture, m.picture
	if a == nil || b == nil || a.Rect != b.Rect {
		return a == b && l.text == m.text
	}
	const smoothing = 60
	for i, v := range a.Pix {
		if d := int(v) - int(b.Pix[i]); d > smoothing || d < -smoothing {
			return false
		}
	}
	return true
}

// Whatever was done to a sheet: where verify says that it is the same, general
// programs draw the same picture of it, and find the same words, files and tags in it.
// Every row of the tables is asked, then every change at every kind of place, in an
// order at random, then several at once.
func TestTheSameLooksTheSame(t *testing.T) {
	if testing.Short() {
		t.Skip("renders hundreds of pages")
	}
	l := newLooker(t)
	page := draw(t, fourCylinders, sheet.Options{})
	if *seed%2 == 0 {
		page = withLogo(t, picture(t, image.NewRGBA(image.Rect(0, 0, 40, 30))))
	}
	again := newDoc(t, page) // its entries are in another order than the sheet's
	unpacked := again.bytes()
	again.pack = deflated
	packed := again.bytes()
	want := l.looks(t, packed, "")
	for i, w := range want {
		if w.picture == nil && w.text == "" {
			t.Fatalf("'%s' makes nothing of a sheet", l.commands[i])
		}
	}
	drawn, same, apart, rows, rowsSame := 0, 0, 0, 0, 0
	told := func() {
		t.Logf("%d rows, of which %d are the same; %d changes at random that change anything, of which %d are the same; %d views differ of %d programs", rows, rowsSame, drawn-rows, same-rowsSame, apart, len(want))
	}
	ask := func(name string, data []byte) {
		drawn++
		if got, _ := outcomeOf(t, data); got != Same {
			return
		}
		same++
		pass := "" // the slowest looks at all of the tables, and at every fourth change
		if rows > 0 && same%4 > 0 {
			pass = "gs "
		}
		for i, w := range l.looks(t, data, pass) {
			if w != nil && !w.alikeTo(want[i]) {
				apart++
				file := filepath.Join(os.TempDir(), fmt.Sprintf("gaugesheet-differs-%d.pdf", apart))
				os.WriteFile(file, data, 0o666)
				t.Errorf("%s: said to be the same, and '%s' makes something else of it (%s)", name, l.commands[i], file)
			}
		}
	}
	for _, table := range [][]alteration{shows, faces, beside, papers, apartRows, overs, carriers, listings, inOtherWords, beyond, otherSteps} {
		for _, a := range table {
			d := newDoc(t, page)
			if a.change(d); d.pack == nil {
				d.pack = deflated
			}
			ask(a.name, d.bytes())
		}
	}
	rows, rowsSame = drawn, same
	kinds := newMutation(0, newDoc(t, page)).kinds
	order := rand.New(rand.NewPCG(uint64(*seed), 13)).Perm(len(kinds) * len(mutators))
	for i := range *changed {
		m := newMutation(*seed+i, newDoc(t, page))
		if i%3 == 0 {
			m.d.pack = deflated
		}
		if i < len(order) {
			m.changeAt(kinds[order[i]/len(mutators)], mutators[order[i]%len(mutators)])
		} else {
			for range 1 + m.IntN(3) {
				m.change()
			}
		}
		if data := m.bytes(); !bytes.Equal(data, packed) && !bytes.Equal(data, unpacked) {
			ask(fmt.Sprint(m), data)
		}
		if i%1000 == 999 {
			told()
		}
	}
	told()
	t.Logf("%d changes at %d kinds of places are %d", len(mutators), len(kinds), len(order))
}
