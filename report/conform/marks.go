package conform

import (
	"regexp"
	"strconv"
	"strings"
)

// painting are the operators that show something.
var painting = map[string]bool{"b": true, "B": true, "b*": true, "B*": true, "f": true, "F": true, "f*": true, "s": true, "S": true, "sh": true, "Do": true, "Tj": true, "TJ": true}

var numberOfMark = regexp.MustCompile(`/MCID (\d+)`)

// marks: everything that is drawn belongs to one stretch, which is tagged or is
// an artifact; stretches are not within one another, nor across what saves a
// state or begins a text.
func (d *document) marks() {
	fonts, now := d.pageFonts(), (*font)(nil)
	d.stretches, d.Unheard = map[int]string{}, nil
	open, mark, depth, states := "", -1, 0, 0
	for _, op := range d.content {
		switch op.name {
		case "BMC", "BDC":
			d.want(open == "", pdfUA+"7.1", "%s within %s", op.args[0], open)
			open, mark, depth = op.args[0].(string), -1, states
			if len(op.args) > 1 {
				if m := numberOfMark.FindStringSubmatch(op.args[1].(string)); m != nil {
					mark, _ = strconv.Atoi(m[1])
					_, again := d.stretches[mark]
					d.want(!again, pdfUA+"7.1", "the stretch %d is there twice", mark)
					d.stretches[mark] = ""
				}
			}
			d.want(open == "/Artifact" || mark >= 0, pdfUA+"7.1", "%s is neither an artifact nor tagged", open)
		case "EMC":
			d.want(open != "" && states == depth, pdfUA+"7.1", "a stretch ends where none began, or in another state")
			open, mark = "", -1
		case "q":
			states++
		case "Q":
			states--
			d.want(open == "" || states >= depth, pdfUA+"7.1", "a stretch reaches out of the state that it began in")
		case "Tf":
			now = fonts[op.args[0].(string)]
		case "Tj", "TJ":
			text := ""
			for _, code := range codes(op) {
				if now != nil {
					text += now.unicode[code]
				}
			}
			if mark >= 0 {
				d.stretches[mark] += text
			} else if strings.TrimSpace(text) != "" {
				d.Unheard = append(d.Unheard, text)
			}
		}
		if painting[op.name] {
			d.want(open != "", pdfUA+"7.1", "%s outside of every stretch", op.name)
		}
	}
	d.want(open == "", pdfA+"6.2.2", "a stretch without end")
}
