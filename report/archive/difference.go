package archive

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout/record"
	"gaugesheet/report/archive/pdffile"
)

// A change is a text of the page beside the text that its job file gives
// there; one of them is empty where only the other page has it.
type change struct {
	page, job string
	at        int // of the job's text among its runs, -1 where it has none
}

// runsApart names the first difference between two pages' texts: a reading
// before anything else, since the rest follows from the readings.
func runsApart(page, job []pdffile.Run, again *redrawn) string {
	changes := apart(texts(page), texts(job))
	if len(changes) == 0 {
		return ""
	}
	if len(page) <= widest {
		if said := readingApart(page, job, again); said != "" {
			return said
		}
	}
	for _, c := range changes {
		if cylinder := again.cylinderOf(c, job); cylinder != "" {
			return c.of(cylinder)
		}
	}
	return changes[0].String()
}

// readingApart names a reading that the page has and its job file does not give,
// wherever they stand: one reading that differs may move much of a page. Of the
// page's figures it is the one that stands nearest to the cylinder's name.
func readingApart(page, job []pdffile.Run, again *redrawn) string {
	isName := func(i int) bool { return slices.Contains(again.test.Engine.Names(), page[i].Text) }
	was := slices.DeleteFunc(more(page, job), isName)
	for _, at := range more(job, page) {
		c := change{page: job[at].Text, job: job[at].Text, at: at}
		name := again.cylinderOf(c, job)
		nearest := math.Inf(1)
		for _, i := range was {
			for _, r := range page {
				if d := math.Hypot(r.X-page[i].X, r.Y-page[i].Y); "cylinder "+r.Text == name && d < nearest {
					c.page, nearest = page[i].Text, d
				}
			}
		}
		if c.page != c.job {
			return c.of(name)
		}
	}
	return ""
}

// of says a change of a cylinder's reading.
func (c change) of(cylinder string) string {
	return fmt.Sprintf("the page says %s for %s, its job file gives %s", quoted(c.page), cylinder, quoted(c.job))
}

// more gives the places of the bare figures of which one page has more than
// another: all places of each.
func more(page, other []pdffile.Run) []int {
	left := map[string]int{}
	for _, r := range page {
		left[r.Text]++
	}
	for _, r := range other {
		left[r.Text]--
	}
	var at []int
	for i, r := range page {
		if left[r.Text] > 0 && strings.Trim(r.Text, "0123456789.") == "" && r.Text != "" {
			at = append(at, i)
		}
	}
	return at
}

func (c change) String() string {
	switch {
	case c.job == "":
		return fmt.Sprintf("the page says %s, which its job file does not give", quoted(c.page))
	case c.page == "":
		return fmt.Sprintf("the page does not say %s, which its job file gives", quoted(c.job))
	}
	return fmt.Sprintf("the page says %s, its job file gives %s", quoted(c.page), quoted(c.job))
}

// quoted is a text in a message: a number as it is, words in quotes, cut short
// where they are long.
func quoted(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	if isReading(s) {
		return s
	}
	const longest = 80
	if r := []rune(s); len(r) > longest {
		s = string(r[:longest]) + "…"
	}
	return "'" + s + "'"
}

// isReading tells whether a text begins with a figure and is short, as a
// reading with its unit is.
func isReading(s string) bool {
	return s != "" && len(s) < 20 && s[0] >= '0' && s[0] <= '9'
}

// texts are the visible texts of a page.
func texts(runs []pdffile.Run) []string {
	var out []string
	for _, r := range runs {
		out = append(out, r.Text)
	}
	return out
}

// widest is how many texts a hunk of differences may have to be compared text
// by text; larger ones are compared in order.
const widest = 2000

// apart lists the changes between two lists of texts: what is common at the
// ends is cut off, in the rest the longest common part is kept.
func apart(page, job []string) []change {
	head := 0
	for head < len(page) && head < len(job) && page[head] == job[head] {
		head++
	}
	page, job = page[head:], job[head:]
	for len(page) > 0 && len(job) > 0 && page[len(page)-1] == job[len(job)-1] {
		page, job = page[:len(page)-1], job[:len(job)-1]
	}
	if len(page) > widest || len(job) > widest {
		return paired(page[:min(len(page), widest)], job[:min(len(job), widest)], head)
	}
	var changes []change
	i, j := 0, 0
	for _, kept := range common(page, job) {
		changes = append(changes, paired(page[i:kept[0]], job[j:kept[1]], head+j)...)
		i, j = kept[0]+1, kept[1]+1
	}
	return append(changes, paired(page[i:], job[j:], head+j)...)
}

// paired puts texts side by side that stand in each other's place.
func paired(page, job []string, at int) []change {
	var changes []change
	for k := range max(len(page), len(job)) {
		c := change{at: -1}
		if k < len(page) {
			c.page = page[k]
		}
		if k < len(job) {
			c.job, c.at = job[k], at+k
		}
		if c.page != c.job {
			changes = append(changes, c)
		}
	}
	return changes
}

// common gives the pairs of places of the longest list of texts that both
// have in the same order.
func common(a, b []string) [][2]int {
	width := len(b) + 1
	length := make([]uint16, (len(a)+1)*width) // of what is common from there on
	for i := len(a) - 1; i >= 0; i-- {
		for j := len(b) - 1; j >= 0; j-- {
			if a[i] == b[j] {
				length[i*width+j] = length[(i+1)*width+j+1] + 1
			} else {
				length[i*width+j] = max(length[(i+1)*width+j], length[i*width+j+1])
			}
		}
	}
	var kept [][2]int
	for i, j := 0, 0; i < len(a) && j < len(b); {
		switch {
		case a[i] == b[j]:
			kept = append(kept, [2]int{i, j})
			i, j = i+1, j+1
		case length[(i+1)*width+j] >= length[i*width+j+1]:
			i++
		default:
			j++
		}
	}
	return kept
}

// cylinderOf names the cylinder that a changed reading belongs to, "" where
// it is none of a cylinder: the one whose reading is printed so, and of
// several the one whose name stands nearest.
func (r *redrawn) cylinderOf(c change, runs []pdffile.Run) string {
	if !isReading(c.page) || !isReading(c.job) || c.at < 0 {
		return ""
	}
	here, ok := r.record(c.at, runs)
	if !ok {
		return ""
	}
	var best string
	nearest := math.Inf(1)
	for _, name := range r.withReading(c.job) {
		for _, t := range r.recorded {
			if t.Block != here.Block || strings.TrimSpace(t.String) != name {
				continue
			}
			if d := distance(t, here); d < nearest {
				best, nearest = name, d
			}
		}
	}
	if best == "" {
		return ""
	}
	return "cylinder " + best
}

// record gives the recorded text of a run: both have the same texts in the
// same order but for those without a letter.
func (r *redrawn) record(at int, runs []pdffile.Run) (record.Text, bool) {
	blanks := 0
	for _, run := range runs[:at] {
		if strings.TrimSpace(run.Text) == "" {
			blanks++
		}
	}
	i := at - blanks
	if i < 0 || i >= len(r.recorded) || r.recorded[i].String != runs[at].Text {
		return record.Text{}, false
	}
	return r.recorded[i], true
}

func distance(a, b record.Text) float64 {
	dx := float64(a.Rect.X + a.Rect.W/2 - b.Rect.X - b.Rect.W/2)
	dy := float64(a.Rect.Y + a.Rect.H/2 - b.Rect.Y - b.Rect.H/2)
	return math.Hypot(dx, dy)
}

// withReading names the cylinders that have a reading which is printed as the
// text.
func (r *redrawn) withReading(text string) []string {
	figures, _, _ := strings.Cut(strings.ReplaceAll(text, "\u00a0", " "), " ")
	var names []string
	for _, name := range r.test.Engine.Names() {
		if slices.ContainsFunc(readings(r.test, name), func(v float64) bool { return prints(v, figures) }) {
			names = append(names, name)
		}
	}
	return names
}

// readings are a cylinder's numbers of all tests.
func readings(t *diag.Test, cylinder string) []float64 {
	var values []float64
	add := func(r diag.Reading) {
		values = append(values, r.Values...)
		if v, ok := r.Value(); ok {
			values = append(values, v)
		}
	}
	if c := t.Compression; c != nil {
		for _, m := range []map[string]diag.Reading{c.Dry, c.Wet, c.First, c.Again} {
			add(m[cylinder])
		}
	}
	if l := t.Leakage; l != nil {
		add(l.Dry[cylinder].Reading)
		add(l.Wet[cylinder].Reading)
	}
	return values
}

func prints(v float64, figures string) bool {
	figures = strings.TrimSuffix(figures, "%")
	_, after, _ := strings.Cut(figures, ".")
	return quantity.Format(v, len(after)) == figures
}

// drawingApart names the first difference in what is drawn beside words, by
// the text that was shown before it.
func drawingApart(page, job drawn) string {
	shown := 0
	for i, op := range page.ops {
		if i >= len(job.ops) || op.Name != job.ops[i].Name || !reflect.DeepEqual(op.Operands, job.ops[i].Operands) {
			break
		}
		if op.Name == "Tj" || op.Name == "TJ" {
			shown++
		}
	}
	where := "before its first words"
	if shown > 0 && shown <= len(page.runs) {
		where = "after " + quoted(page.runs[shown-1].Text)
	}
	return "the words are the same, but the page draws something that its job file does not give, " + where
}
