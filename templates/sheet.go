package templates

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"
	"sync"

	"gaugesheet/layout"
)

// A Sheet is a kind of sheet: its blocks in rows and columns, the order in
// which they give way on a full page, and its type.
type Sheet struct {
	Name       string
	Audience   Audience
	Title      string // key of the label
	Sizes      map[layout.Role]layout.Length
	Smallest   layout.Length
	LeastScale float64
	LeastSpace float64 // part of the spaces that a full page keeps
	Rows       []SheetRow
	GivesWay   []layout.Step

	Fields     []string // named of the vehicle and the job beside what every sheet names
	Signatures []string // who signs
	ByInvoice  bool     // filed by the invoice's number where the job has one
	Occasion   string   // what it is asked for, where that changes its words; "" nothing of the kind
	Suspects   int      // how many suspects a finding names; 0 for all
	Record     bool     // a record for others: all that was noted of how it was tested, not what an owner can use
	Terms      bool     // terms in neutral words where the shop gives none
}

// A SheetRow is columns side by side.
type SheetRow struct {
	Above   layout.Length // least space above
	Foot    bool          // at the page's foot
	Columns []SheetColumn
	Flows   []string // blocks that go under the column that ends highest
}

// Blocks are the names of all blocks of the row.
func (r SheetRow) Blocks() []string {
	var names []string
	for _, c := range r.Columns {
		names = append(names, c.Blocks...)
	}
	return append(names, r.Flows...)
}

// A SheetColumn is blocks under one another.
type SheetColumn struct {
	Share  float64
	Least  float64 // share down to which it gives width to a higher column; 0 gives none
	Most   float64 // share up to which it is wider for a table in it; 0 for no more than its share
	Blocks []string
}

var roleNames = map[string]layout.Role{
	"display": layout.Display, "title": layout.Title, "heading": layout.Heading, "strong": layout.Strong,
	"body": layout.Body, "label": layout.Label, "note": layout.Note,
}

// Bench is the kind of the sheet that is written on at the bench, before there
// are readings.
const Bench = "blank"

// JobKinds are the sheets that are drawn from readings: the usual one first, then
// those that are asked for most.
func JobKinds() []string {
	return slices.DeleteFunc(slices.Clone(kinds()), func(kind string) bool { return kind == Bench })
}

// Kinds are the sheets that are built in.
func Kinds() []string { return append(JobKinds(), Bench) }

// kinds are the files of the folder, those that are asked for most before others.
var kinds = sync.OnceValue(func() []string {
	first := []string{"customer", "invoice", "workshop", "pre-purchase"}
	entries, err := files.ReadDir("sheets")
	if err != nil {
		panic(err) // the folder is embedded
	}
	all := first
	for _, e := range entries {
		if kind, ok := strings.CutSuffix(e.Name(), ".yaml"); ok && !slices.Contains(first, kind) {
			all = append(all, kind)
		}
	}
	return all
})

var builtIn sync.Map // kind -> func() (*Sheet, error)

// BuiltIn gives one of the program's own sheets.
func BuiltIn(kind string) (*Sheet, error) {
	load, _ := builtIn.LoadOrStore(kind, sync.OnceValues(func() (*Sheet, error) {
		data, err := files.ReadFile(path.Join("sheets", kind+".yaml"))
		if err != nil {
			return nil, fmt.Errorf("no sheet %q; there are: %s", kind, strings.Join(Kinds(), ", "))
		}
		sheet, problems := ReadSheet(data, nil)
		if len(problems) > 0 {
			return nil, fmt.Errorf("sheets/%s.yaml:%s", kind, problems[0])
		}
		return sheet, nil
	}))
	return load.(func() (*Sheet, error))()
}

// A Problem is one thing wrong with a template, at its place.
type Problem struct {
	Line, Column  int
	Message, Hint string
}

// String is the problem as line:column: message.
func (p Problem) String() string { return fmt.Sprintf("%d:%d: %s", p.Line, p.Column, p.Message) }

// ReadSheet reads a template and reports everything that is wrong with it.
// Blocks are the names that its blocks may have; nil lets any name be, as the
// program's own templates have it, which tests check.
func ReadSheet(data []byte, blocks []string) (*Sheet, []Problem) {
	r := &sheetReader{
		sheet: &Sheet{Sizes: map[layout.Role]layout.Length{}, LeastScale: 1, LeastSpace: 1},
		known: blocks, placed: map[string]int{},
	}
	r.read(data)
	if len(r.problems) > 0 {
		slices.SortStableFunc(r.problems, func(a, b Problem) int {
			return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
		})
		return nil, r.problems
	}
	return r.sheet, nil
}
