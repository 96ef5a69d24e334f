package known

import (
	"slices"
	"strings"

	"gaugesheet/diag"
)

// SeenIn is all that the job says of a look into one cylinder, in lower case:
// the camera's words, its notes, and the technician's findings that name the
// cylinder.
func (c *Case) SeenIn(name string) string {
	texts := []string{c.Borescope[name]}
	if b, ok := c.Bores[name]; ok {
		for _, part := range []struct{ what, look string }{{"wall", b.Wall}, {"crown", b.Crown}, {"valves", b.Valves}, {"seat", b.Seat}} {
			if part.look != "" {
				texts = append(texts, part.what+" "+part.look)
			}
		}
		texts = append(texts, b.Note)
	}
	for _, w := range c.Works() {
		if slices.Contains(w.Cylinders, name) {
			texts = append(texts, w.Text)
		}
	}
	return strings.ToLower(strings.Join(texts, "; "))
}

// Looked reports a cylinder that a camera was put into.
func (c *Case) Looked(name string) bool {
	b, ok := c.Bores[name]
	return c.Borescope[name] != "" || ok && b != diag.Bore{}
}

// Seen reports that what was seen in a cylinder speaks of one of these.
func (c *Case) Seen(name string, words ...string) bool { return SpeaksOf(c.SeenIn(name), words...) }

// Words of what is seen in a cylinder.
var (
	ScoredWords = []string{"scor", "scratch", "groove"}
	HoledWords  = []string{"hole in", "holed", "broken piston", "piston broken", "melted piston"}
	BurntValve  = []string{"valve burn", "valves burn", "valve is burn", "burnt valve", "burned valve", "valve crack", "valve chip", "valve is chip", "valve is crack", "valve gone"}
	BentValve   = []string{"bent valve", "valve bent", "valves bent", "valve strike", "struck", "crown marked"}
	WashedCrown = []string{"steam clean", "washed", "clean crown", "crown clean"}
	LiquidWords = []string{"liquid", "water", "coolant", "full of fuel", "full of oil", "pool", "wet with fuel"}
)

// SpeaksOf reports whether a text has one of these words, not denied by a
// "no" or "not" just before it.
func SpeaksOf(text string, words ...string) bool {
	return slices.ContainsFunc(words, func(word string) bool {
		for from := 0; ; {
			at := strings.Index(text[from:], word)
			if at < 0 {
				return false
			}
			before := strings.TrimRight(text[:from+at], " ")
			if !strings.HasSuffix(before, " no") && !strings.HasSuffix(before, " not") && before != "no" && before != "not" && !strings.HasSuffix(before, "without") {
				return true
			}
			from += at + len(word)
		}
	})
}
