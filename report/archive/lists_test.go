package archive

import (
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/sheet"
)

var store = flag.Bool("store", false, "write the stored files of TestStored anew")

// A hurry is a file that says at its start how long it is and which its first
// page is, with a list of objects behind that: readers that show a page before
// they have all of the file begin there, the others at its end
// (ISO 32000-2, annex F).
type hurry struct {
	first  func(h *hurried) string // the list at the start
	later  string                  // what the object of the content is in the rest, where it is there again
	backed bool                    // the list at the end leads on to the one at the start
	named  bool                    // the end names the list at the start
}

// A hurried file while it is written: where its objects stand.
type hurried struct {
	d      *doc
	places map[int]int
	start  int // of the list at the start
	end    int // of the list at the end
	size   int
}

// table is a list of objects, as long wherever they stand, with what its trailer
// has beside the root.
func (h *hurried) table(root pdffile.Object, more string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", h.size)
	for n := 1; n < h.size; n++ {
		if _, there := h.d.objects[n]; there || h.places[n] > 0 {
			fmt.Fprintf(&b, "%010d 00000 n \n", h.places[n])
		} else {
			b.WriteString("0000000000 65535 f \n")
		}
	}
	fmt.Fprintf(&b, "trailer\n<</Size %d /Root %s /Info %s %s>>\nstartxref\n0\n%%%%EOF\n", h.size, written(root), written(h.d.trailer["Info"]), more)
	return b.String()
}

// stream is a list of objects that is an object.
func (h *hurried) stream() string {
	number := h.size - 1
	h.places[number] = h.start
	var rows strings.Builder
	for n := range h.size {
		at, kind := h.places[n], byte(1)
		if n == 0 || h.places[n] == 0 {
			kind = 0
		}
		rows.Write([]byte{kind, byte(at >> 24), byte(at >> 16), byte(at >> 8), byte(at)})
	}
	return fmt.Sprintf("%d 0 obj\n<</Type /XRef /Size %d /W [1 4 0] /Root %s /Info %s /Length %d>>\nstream\n%s\nendstream\nendobj\nstartxref\n0\n%%%%EOF\n",
		number, h.size, written(h.d.trailer["Root"]), written(h.d.trailer["Info"]), rows.Len(), rows.String())
}

// hurried writes the file.
func (d *doc) hurried(with hurry) []byte {
	number := slices.Max(slices.Collect(maps.Keys(d.objects))) + 1
	h := &hurried{d: d, places: map[int]int{}, size: number + 2} // with a list that is an object
	head := "%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"
	h.places[number] = len(head)
	head += fmt.Sprintf("%d 0 obj\n<</Linearized 1 /L 0000000000 /H [1 1] /O %d /E 1 /N 1 /T 0000000000>>\nendobj\n", number, d.list(d.pages()["Kids"])[0].(pdffile.Ref).Number)
	h.start = len(head)
	var objects string
	at := h.start + len(with.first(h))
	for _, n := range slices.Sorted(maps.Keys(d.objects)) {
		h.places[n] = at + len(objects)
		objects += fmt.Sprintf("%d 0 obj\n%s\nendobj\n", n, written(d.packed(d.objects[n])))
	}
	h.end = at + len(objects)
	out := head + with.first(h) + objects
	list := "xref\n0 1\n0000000000 65535 f \n"
	if with.later != "" {
		content := d.page()["Contents"].(pdffile.Ref).Number
		list = fmt.Sprintf("xref\n%d 1\n%010d 00000 n \n", content, len(out))
		out += fmt.Sprintf("%d 0 obj\n%s\nendobj\n", content, written(d.packed(&pdffile.Stream{Dict: dict{}, Raw: []byte(with.later)})))
	} else if !with.named {
		h.places[h.size-1] = 0
		list, _, _ = strings.Cut(h.table(d.trailer["Root"], ""), "trailer")
	}
	names, leads := len(out), ""
	if with.backed {
		leads = fmt.Sprintf("/Prev %d", h.start)
	}
	if with.named {
		names = h.start
	}
	out += fmt.Sprintf("%strailer\n<</Size %d /Root %s /Info %s %s>>\nstartxref\n%d\n%%%%EOF\n", list, h.size, written(d.trailer["Root"]), written(d.trailer["Info"]), leads, names)
	out = strings.Replace(out, "/T 0000000000", fmt.Sprintf("/T %010d", h.end), 1)
	return []byte(strings.Replace(out, "/L 0000000000", fmt.Sprintf("/L %010d", len(out)), 1))
}

// plainly is a list with nothing but the root, leading one that leads on to the end.
func plainly(h *hurried) string { return h.table(h.d.trailer["Root"], "") }
func leading(h *hurried) string {
	return h.table(h.d.trailer["Root"], fmt.Sprintf("/Prev %010d", h.end))
}

// otherRoot is a root that leads to a page with another reading, which is no page
// for who goes by its type.
func otherRoot(d *doc) pdffile.Object {
	good := d.content().Raw
	d.to158()
	page := maps.Clone(d.page())
	page["Contents"] = d.stream(dict{}, string(d.content().Raw))
	d.content().Raw = good
	delete(page, "Type")
	pages := d.add(nil).Number
	d.objects[pages] = dict{"Type": pn("Pages"), "Kids": list{d.add(page)}, "Count": 1.0, "MediaBox": d.at(page["MediaBox"])}
	delete(page, "MediaBox")
	page["Parent"] = pdffile.Ref{Number: pages}
	root := maps.Clone(d.root())
	root["Pages"] = pdffile.Ref{Number: pages}
	return d.add(root)
}

// older has the other reading in the content, and gives the sheet's own, which
// stands further on in the file.
func older(d *doc) string {
	good := string(d.content().Raw)
	d.to158()
	return good
}

// A writing is a way to write a sheet anew, and what verify has to say of it.
type writing struct {
	name string
	make func(*doc) []byte
	want Outcome
	says string
}

func (w writing) made(t testing.TB, drawn []byte) []byte {
	d := newDoc(t, drawn)
	d.pack = deflated
	return w.make(d)
}

// Of two lists of objects in a file, readers in a hurry take the first.
var hurries = []writing{
	{"a list at the start with another root", func(d *doc) []byte {
		root := otherRoot(d)
		return d.hurried(hurry{first: func(h *hurried) string { return h.table(root, "") }})
	}, refused, `a list of objects to which its end does not lead`},
	{"a list at the start for which it is encrypted", func(d *doc) []byte {
		return d.hurried(hurry{first: func(h *hurried) string {
			return h.table(d.trailer["Root"], "/Encrypt <</Filter /Standard /V 1 /R 2 /O (x) /U (y) /P -1>>")
		}})
	}, refused, `a list of objects to which its end does not lead`},
	{"a list at the start that is older", func(d *doc) []byte {
		later := older(d)
		return d.hurried(hurry{first: plainly, later: later, backed: true})
	}, refused, `stands first is not the one`},
	{"a list at the start that is older, as an object", func(d *doc) []byte {
		later := older(d)
		return d.hurried(hurry{first: (*hurried).stream, later: later, backed: true})
	}, refused, `stands first is not the one`},
	{"a list at the start that its end names", func(d *doc) []byte {
		return d.hurried(hurry{first: leading, named: true})
	}, Same, ``},
	{"a list at the start that its end names, and an update", func(d *doc) []byte {
		data := d.hurried(hurry{first: leading, named: true})
		n := d.page()["Contents"].(pdffile.Ref).Number
		d.draws("q Q")
		return update(data, fmt.Sprintf("%d 0 obj\n%s\nendobj\n", n, written(d.content())), map[int]int{n: 0},
			fmt.Sprintf("/Size 999 /Root %s /Info %s", written(d.trailer["Root"]), written(d.trailer["Info"])))
	}, Same, ``},
	{"a list at the start that its end names, and another reading as an update", func(d *doc) []byte {
		data := d.hurried(hurry{first: leading, named: true})
		n := d.page()["Contents"].(pdffile.Ref).Number
		d.to158()
		return update(data, fmt.Sprintf("%d 0 obj\n%s\nendobj\n", n, written(d.content())), map[int]int{n: 0},
			fmt.Sprintf("/Size 999 /Root %s /Info %s", written(d.trailer["Root"]), written(d.trailer["Info"])))
	}, Different, `158 for cylinder 4`},
}

func TestListsAtTheStart(t *testing.T) {
	drawn := draw(t, fourCylinders, sheet.Options{})
	var rows tally
	defer rows.log(t)
	for _, row := range hurries {
		rows.run(t, row.name, func(t *testing.T) { check(t, row.made(t, drawn), row.want, row.says) })
	}
}

// Files in which readers saw another number, or nothing, while verify said 'the
// same', as they were then: what is refused for how it is written stays refused,
// whatever a sheet looks like.
func TestStored(t *testing.T) {
	drawn := draw(t, fourCylinders, sheet.Options{})
	rows := slices.Clone(hurries)
	for _, a := range slices.Concat(apartRows, listings) {
		rows = append(rows, writing{a.name, func(d *doc) []byte { a.change(d); return d.bytes() }, a.want, a.says})
	}
	for _, name := range []string{
		"a list at the start with another root", "a list at the start that is older", "a list at the start that is older, as an object",
		"content beside nothing", "content packed as something says that is not there", "characters in what says how codes are drawn", "characters of codes of three bytes",
		"content with the word that ends it", "first codes of widths with a point",
		"a file in the list that is nothing", "a node of the list with names and parts",
	} {
		row := rows[slices.IndexFunc(rows, func(w writing) bool { return w.name == name })]
		file := filepath.Join("testdata", "refused", strings.NewReplacer(" ", "-", ",", "").Replace(name)+".pdf")
		if *store {
			if err := os.WriteFile(file, row.made(t, drawn), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			check(t, data, refused, row.says)
		})
	}
}
