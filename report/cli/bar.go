package cli

import (
	"fmt"
	"io"
	"strings"
)

// A bar shows on one line of a terminal how many of a run's sheets are done.
// The libraries for this that were tried link a web client or tables of
// character widths, which costs every start of the program 4 to 25 ms, a
// single sheet's too.
type bar struct {
	w           io.Writer
	total, done int
}

// barWidth is how many characters the bar is long.
const barWidth = 40

func (b *bar) draw() {
	full := barWidth * b.done / b.total
	fmt.Fprintf(b.w, "\r[%s%s] %d of %d sheets", strings.Repeat("#", full), strings.Repeat(".", barWidth-full), b.done, b.total)
}

// clear makes the line free for a message.
func (b *bar) clear() {
	fmt.Fprintf(b.w, "\r%s\r", strings.Repeat(" ", barWidth+2*len(fmt.Sprint(b.total))+len("[] of  sheets ")+1))
}

// add counts one more; the bar is drawn anew where it shows.
func (b *bar) add() {
	before := barWidth * b.done / b.total
	b.done++
	if b.done == 1 || b.done%10 == 0 || barWidth*b.done/b.total != before {
		b.draw()
	}
}
