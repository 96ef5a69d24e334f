package figure

import (
	"slices"
	"strings"
	"unicode/utf8"

	"gaugesheet/layout"
)

// setWidths makes columns as wide as their words. Those with a share have what
// the others leave. Where all of it is too wide the columns stand closer, then
// words wrap, the widest column first, and long words are broken; numbers never
// give way.
func (s *tableSetting) setWidths() {
	n := len(s.d.Columns)
	s.widths = make([]layout.Length, n)
	s.left, s.right = make([]layout.Length, n), make([]layout.Length, n)
	least := make([]layout.Length, n)
	var shares float64
	for i, c := range s.d.Columns {
		s.widths[i], least[i] = s.need(i)
		if c.Share > 0 {
			shares += c.Share
		}
	}
	full := s.gap
	s.gap = full * closest
	s.widenForHeads()
	s.widenForRuns()
	if gaps := s.gaps() / s.gap; gaps > 0 {
		s.gap = min(full, max(s.gap, (s.width-sumOf(s.widths))/gaps))
	}
	room := s.width - s.gaps()
	if over := sumOf(s.widths) - room; over > 0 {
		broken := make([]layout.Length, n)
		for i, c := range s.d.Columns {
			broken[i] = min(least[i], leastWords)
			if s.beginsRun(i) {
				least[i], broken[i] = s.widths[i], s.widths[i]
			}
			if c.Numbers || c.Tab || c.Trend {
				least[i], broken[i] = s.widths[i], s.widths[i]
			}
		}
		over = s.narrow(broken, s.narrow(least, over))
		s.tooNarrow = over > 0
		return
	}
	left := room - sumOf(s.widths)
	for i, c := range s.d.Columns {
		if c.Share > 0 {
			s.widths[i] += left * layout.Length(c.Share/shares)
		}
	}
}

// closest is the part of the gaps between columns that stays where a table has
// too little width.
const closest = 0.55

// leastWords is the width down to which a long word may be broken.
const leastWords layout.Length = 36

// beginsRun reports a column in which a cell begins that runs over others.
func (s *tableSetting) beginsRun(i int) bool {
	return slices.ContainsFunc(s.d.Rows, func(r TableRow) bool { return i < len(r.Cells) && !r.Cells[i].empty() && s.runsOver(r, i) })
}

// gaps are the widths between columns.
func (s *tableSetting) gaps() (sum layout.Length) {
	for i := 1; i < len(s.d.Columns); i++ {
		sum += s.gapBefore(i)
	}
	return sum
}

// need is the width that a column's words ask for on one line, and the least
// at which no word of theirs is broken.
func (s *tableSetting) need(i int) (need, least layout.Length) {
	column := s.d.Columns[i]
	if !s.spans(i) {
		need = s.headWidth(column.Heading)
		least = s.longestWord(column.Heading, s.t.Face(layout.Note))
		if column.HeadTab {
			need = TabSize(s.t.Measurer, column.Heading, s.t.Face(s.role)).W
			least = need
		}
	}
	for _, r := range s.d.Rows {
		if i >= len(r.Cells) || r.Cells[i].empty() {
			continue
		}
		c := r.Cells[i]
		if s.runsOver(r, i) {
			continue
		}
		if column.Trend {
			need, least = trendWidth, trendWidth
			continue
		}
		if column.Tab {
			w := TabSize(s.t.Measurer, c.Text, s.t.Face(s.role)).W
			need, least = max(need, w), max(least, w)
			continue
		}
		face := s.face(column, c)
		if left, right, ok := s.split(column, c); ok {
			s.left[i], s.right[i] = max(s.left[i], left), max(s.right[i], right)
			least = max(least, s.left[i]+s.right[i])
		}
		need = max(need, s.cellWidth(column, c))
		least = max(least, s.longestWord(c.Text, face)+s.markRoom(c), s.longestWord(c.Note, s.t.Face(s.role)))
	}
	return max(need, s.left[i]+s.right[i]), least
}

// headWidth is the width of a heading in the lines that it is given in.
func (s *tableSetting) headWidth(head string) (widest layout.Length) {
	for _, line := range strings.Split(head, "\n") {
		widest = max(widest, s.t.Measurer.Width(line, s.t.Face(layout.Note)))
	}
	return widest
}

func (s *tableSetting) longestWord(text string, f layout.Face) (widest layout.Length) {
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\n' }) {
		widest = max(widest, s.t.Measurer.Width(word, f)+0.1)
	}
	return widest
}

// spans reports a column whose heading runs on over the next, which joins it.
func (s *tableSetting) spans(i int) bool {
	return i+1 < len(s.d.Columns) && s.d.Columns[i+1].Joins
}

// widenForHeads gives the last column under a common heading what that lacks
// where columns stand closest.
func (s *tableSetting) widenForHeads() {
	for i := range s.d.Columns {
		if s.d.Columns[i].Joins || !s.spans(i) {
			continue
		}
		last := s.lastJoined(i)
		if lack := s.headWidth(s.d.Columns[i].Heading) + 0.1 - (s.x(last) + s.widths[last] - s.x(i)); lack > 0 {
			s.widths[last] += lack
		}
	}
}

// widenForRuns gives the column of a cell that runs over others what these
// lack for its words.
func (s *tableSetting) widenForRuns() {
	for _, r := range s.d.Rows {
		for i := range min(len(r.Cells), len(s.d.Columns)) {
			if r.Cells[i].empty() || !s.runsOver(r, i) {
				continue
			}
			c := r.Cells[i]
			words := s.longestWord(c.Text+" "+c.Note, s.face(s.d.Columns[i], c)) + s.markRoom(c)
			if room := s.cellRoom(r, i); room < words {
				s.widths[i] += words - room
			}
		}
	}
}

// lastJoined is the last column under the heading of a column.
func (s *tableSetting) lastJoined(i int) int {
	for s.spans(i) {
		i++
	}
	return i
}

// narrow takes up to a length off the columns that are wider than they must
// be, the widest first, and returns what is still too much.
func (s *tableSetting) narrow(down []layout.Length, over layout.Length) layout.Length {
	for over > 0.01 {
		widest := -1
		for i, w := range s.widths {
			if w > down[i]+0.01 && (widest < 0 || w > s.widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			return over
		}
		next := layout.Length(0)
		for i, w := range s.widths {
			if i != widest && w < s.widths[widest] && w > down[i] {
				next = max(next, w)
			}
		}
		step := min(over, s.widths[widest]-max(down[widest], min(next, s.widths[widest]-1)))
		s.widths[widest] -= step
		over -= step
	}
	return 0
}

func sumOf(widths []layout.Length) (sum layout.Length) {
	for _, w := range widths {
		sum += w
	}
	return sum
}

// split measures a number to its decimal and from there on; the last is false
// for words.
func (s *tableSetting) split(column Column, c TableCell) (left, right layout.Length, ok bool) {
	at := decimalAt(c.Text)
	if !column.Numbers || c.Mark != NoMark || at < 0 {
		return 0, 0, false
	}
	face := s.face(column, c)
	left = s.t.Measurer.Width(c.Text[:at], face)
	right = s.t.Measurer.Width(c.Text[at:], face)
	if c.Note != "" {
		right += s.t.Measurer.Width(" "+c.Note, s.t.Face(s.role))
	}
	return left, right, true
}

// decimalAt is where the whole part of the number that a text begins with
// ends; less than 0 where it begins with none.
func decimalAt(text string) int {
	digits := false
	for i, r := range text {
		switch {
		case r >= '0' && r <= '9':
			digits = true
		case digits:
			return i
		case !strings.ContainsRune("+-\u2212~<>≤≥±", r):
			return -1
		}
	}
	if !digits {
		return -1
	}
	return len(text)
}

// cellWidth is what a cell's words take on one line.
func (s *tableSetting) cellWidth(column Column, c TableCell) layout.Length {
	w := s.markRoom(c) + s.t.Measurer.Width(c.Text, s.face(column, c))
	if c.Note != "" {
		gap := ""
		if utf8.RuneCountInString(c.Text) > 0 {
			gap = " "
		}
		w += s.t.Measurer.Width(gap+c.Note, s.t.Face(s.role))
	}
	return w + 0.1
}

// markRoom is what a mark before the words takes.
func (s *tableSetting) markRoom(c TableCell) layout.Length {
	if c.Mark == NoMark {
		return 0
	}
	return markSize(s.t, s.t.Face(s.role)) + 3
}

func (s *tableSetting) face(column Column, c TableCell) layout.Face {
	f := s.t.Face(s.role)
	if column.Strong || c.Bold {
		f.Weight = layout.Bold
	}
	return f
}
