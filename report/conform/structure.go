package conform

import (
	"fmt"
	"slices"
	"strings"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// within says for each standard structure type that a page of ours uses what it
// may be in, and whether it holds words (ISO 32000-1, 14.8.4).
var within = map[string]struct {
	parents []string
	words   bool
}{
	"Document": {[]string{"StructTreeRoot"}, false},
	"Div":      {[]string{"Document", "Div"}, false},
	"H1":       {[]string{"Document", "Div"}, true},
	"H2":       {[]string{"Document", "Div"}, true},
	"P":        {[]string{"Document", "Div", "LBody"}, true},
	"L":        {[]string{"Document", "Div"}, false},
	"LI":       {[]string{"L"}, false},
	"LBody":    {[]string{"LI"}, true},
	"Table":    {[]string{"Document", "Div"}, false},
	"TR":       {[]string{"Table"}, false},
	"TH":       {[]string{"TR"}, true},
	"TD":       {[]string{"TR"}, true},
	"Figure":   {[]string{"Document", "Div", "P", "H1", "H2", "LBody", "TH", "TD"}, true},
}

// A walk goes through the structure tree.
type walk struct {
	*document
	owner  map[int]int // stretches, to the element that owns them
	seen   map[int]bool
	level  int // of the last heading
	tables []tableShape
}

// A tableShape is how many columns the rows of a table have.
type tableShape struct {
	columns []int
	heads   int
}

// tree: the structure tree holds every tagged stretch once, in elements that
// stand where they may, and leads back from each stretch.
func (d *document) tree() {
	root := d.dict(d.root["StructTreeRoot"])
	d.want(root != nil, pdfA+"6.7.3.3", "no structure tree")
	d.want(root != nil, pdfUA+"7.1", "no structure tree")
	if root == nil {
		return
	}
	d.want(len(d.dict(root["RoleMap"])) == 0, pdfUA+"7.1", "types of elements are mapped anew")
	w := &walk{document: d, owner: map[int]int{}, seen: map[int]bool{}}
	ref, ok := d.root["StructTreeRoot"].(types.IndirectRef)
	d.want(ok, pdfA+"6.7.3.3", "the structure tree is no object of its own")
	for _, kid := range w.kids(root) {
		w.element(kid, "StructTreeRoot", ref.ObjectNumber.Value())
	}
	row := d.array(nil)
	nums := d.array(d.dict(root["ParentTree"])["Nums"])
	d.want(d.page["StructParents"] != nil, pdfUA+"7.1", "the page does not say where its stretches are owned")
	for i := 0; i+1 < len(nums); i += 2 {
		if d.number(nums[i]) == d.number(d.page["StructParents"]) {
			row = d.array(nums[i+1])
		}
	}
	d.want(len(row) == len(d.stretches), pdfA+"6.7.3.3", "%d stretches are owned, there are %d", len(row), len(d.stretches))
	for mark := range d.stretches {
		owner, owned := w.owner[mark]
		d.want(owned, pdfUA+"7.1", "the stretch %d, %q, belongs to no element", mark, d.stretches[mark])
		if mark < len(row) && owned {
			back, _ := row[mark].(types.IndirectRef)
			d.want(back.ObjectNumber.Value() == owner, pdfA+"6.7.3.3", "the stretch %d does not lead back to its element", mark)
		}
	}
}

func (w *walk) kids(e types.Dict) []types.Object {
	switch k := w.object(e["K"]).(type) {
	case nil:
		return nil
	case types.Array:
		return k
	}
	return []types.Object{e["K"]}
}

// attribute is what an element's attributes say of a key.
func (w *walk) attribute(e types.Dict, key string) types.Object {
	attributes := w.array(e["A"])
	if attributes == nil && e["A"] != nil {
		attributes = types.Array{e["A"]}
	}
	for _, a := range attributes {
		if v := w.dict(a)[key]; v != nil {
			return w.object(v)
		}
	}
	return nil
}

// element looks at an element and what is in it, and gives its words.
func (w *walk) element(o types.Object, up string, parent int) (kind, text string) {
	ref, ok := o.(types.IndirectRef)
	number := ref.ObjectNumber.Value()
	w.want(ok && !w.seen[number], pdfA+"6.7.3.3", "an element that is no object of its own, or in two places")
	if !ok || w.seen[number] {
		return "", ""
	}
	w.seen[number] = true
	e := w.dict(o)
	kind = w.name(e["S"])
	rule, known := within[kind]
	w.want(known, pdfA+"6.7.3.4", "an element of type %q", kind)
	w.want(slices.Contains(rule.parents, up), pdfUA+"7.2", "%s in %s", kind, up)
	back, _ := e["P"].(types.IndirectRef)
	w.want(back.ObjectNumber.Value() == parent, pdfA+"6.7.3.3", "%s does not lead back to what it is in", kind)
	place := len(w.Heard)
	w.before(kind, e)
	var below []string
	for _, kid := range w.kids(e) {
		if mark, is := w.object(kid).(types.Integer); is {
			text += w.stretch(int(mark), number, kind, rule.words, e)
			continue
		}
		sub, said := w.element(kid, kind, number)
		below = append(below, sub)
		if rule.words {
			text += said
		}
	}
	w.after(kind, e, below, text)
	if rule.words && kind != "Figure" && !(kind == "LBody" && slices.Contains(below, "P")) {
		w.Heard = append(w.Heard[:place], kind+": "+strings.Join(strings.Fields(text), " "))
	}
	if kind == "Figure" {
		text = " " + w.text(e["Alt"]) + " "
		w.Heard = append(w.Heard[:place], kind+": "+w.text(e["Alt"]))
	}
	return kind, text
}

// stretch takes a stretch over for an element and gives its words.
func (w *walk) stretch(mark, number int, kind string, words bool, e types.Dict) string {
	_, twice := w.owner[mark]
	w.want(!twice, pdfA+"6.7.3.3", "the stretch %d belongs to two elements", mark)
	w.owner[mark] = number
	said, there := w.stretches[mark]
	w.want(there, pdfA+"6.7.3.3", "the stretch %d of %s is not on the page", mark, kind)
	w.want(words, pdfUA+"7.1", "%s holds words: %q", kind, said)
	page, _ := e["Pg"].(types.IndirectRef)
	w.want(page.ObjectNumber.Value() == w.pageNo, pdfA+"6.7.3.3", "%s does not say on which page it is", kind)
	return said
}

// before notes what an element begins.
func (w *walk) before(kind string, e types.Dict) {
	switch kind {
	case "Table":
		w.tables = append(w.tables, tableShape{})
	case "TR":
		if n := len(w.tables); n > 0 {
			w.tables[n-1].columns = append(w.tables[n-1].columns, 0)
		}
	case "TH", "TD":
		span := 1
		if v, ok := w.attribute(e, "ColSpan").(types.Integer); ok {
			span = int(v)
		}
		if n := len(w.tables); n > 0 && len(w.tables[n-1].columns) > 0 {
			t := &w.tables[n-1]
			t.columns[len(t.columns)-1] += span
			if kind == "TH" {
				t.heads++
			}
		}
	}
}

// after looks at an element as a whole.
func (w *walk) after(kind string, e types.Dict, below []string, text string) {
	switch kind {
	case "H1", "H2":
		level := int(kind[1] - '0')
		w.want(level <= w.level+1, pdfUA+"7.4.2", "a heading %s after one of level %d", kind, w.level)
		w.level = level
		w.want(strings.TrimSpace(text) != "", pdfUA+"7.4.2", "a heading without words")
	case "Figure":
		w.want(strings.TrimSpace(w.text(e["Alt"])) != "", pdfUA+"7.3", "a figure without words for it")
		box, _ := w.attribute(e, "BBox").(types.Array)
		w.want(len(box) == 4 && w.number(box[2]) > w.number(box[0]) && w.number(box[3]) > w.number(box[1]), "ISO 32000-1, 14.8.5.4", "a figure without its place")
	case "TH":
		scope := fmt.Sprint(w.attribute(e, "Scope"))
		w.want(scope == "Row" || scope == "Column", pdfUA+"7.5", "a heading cell %q of nothing", text)
	case "Table":
		t := w.tables[len(w.tables)-1]
		w.want(len(t.columns) > 0 && slices.Min(t.columns) == slices.Max(t.columns), pdfUA+"7.2", "rows of a table with %v columns", t.columns)
		w.want(t.heads > 0, pdfUA+"7.5", "a table without headings")
	case "L":
		w.want(len(below) > 0, pdfUA+"7.2", "a list of nothing")
	case "LI":
		w.want(len(below) == 1, pdfUA+"7.2", "an item of %v", below)
	}
}
