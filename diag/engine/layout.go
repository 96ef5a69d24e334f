package engine

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// Kind is the arrangement of an engine's cylinders.
type Kind int

// The arrangements.
const (
	Single Kind = iota + 1
	Inline
	V
	Flat
	NarrowV
	W
	Radial
	Rotary
	Custom
)

var kindWords = map[Kind]string{Single: "single", Inline: "inline", V: "V", Flat: "flat", NarrowV: "narrow-V",
	W: "W", Radial: "radial", Rotary: "rotary", Custom: "custom"}

func (k Kind) String() string { return kindWords[k] }

// TwoBanks reports whether engines of this kind have two banks.
func (k Kind) TwoBanks() bool { return k == V || k == Flat || k == W }

// bankName is the name given to the only bank of a one-bank engine, "" for
// engines of two banks or none.
func (k Kind) bankName() string {
	switch k {
	case Single, Inline:
		return k.String()
	case NarrowV:
		return "narrow V"
	case Radial:
		return "ring"
	}
	return ""
}

// Layout is a kind with its number of cylinders, or of rotors. The count of a
// custom layout is 0: its cylinders are listed one by one.
type Layout struct {
	Kind  Kind
	Count int
}

// String gives the canonical spelling, such as "inline-4", "V8", "narrow-V6".
func (l Layout) String() string {
	switch l.Kind {
	case Single, Custom:
		return l.Kind.String()
	case V, W, NarrowV:
		return l.Kind.String() + strconv.Itoa(l.Count)
	}
	return l.Kind.String() + "-" + strconv.Itoa(l.Count)
}

// LayoutForms lists the layouts in the form in which they are offered.
const LayoutForms = "single, inline-2..12, V2..V16 (even), flat-2..12 (even), narrow-V4/5/6, W8/W12, " +
	"radial-3/5/7/9, rotary-1..4, custom"

var counts = map[Kind][]int{
	Inline:  {2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12},
	V:       {2, 4, 6, 8, 10, 12, 14, 16},
	Flat:    {2, 4, 6, 8, 10, 12},
	NarrowV: {4, 5, 6},
	W:       {8, 12},
	Radial:  {3, 5, 7, 9},
	Rotary:  {1, 2, 3, 4},
}

var kindsByWord = map[string]Kind{"inline": Inline, "v": V, "flat": Flat, "narrow-v": NarrowV, "w": W,
	"radial": Radial, "rotary": Rotary}

// otherWords are names in use that this package does not accept, because the
// job file has one word for each layout, with the word to use instead.
var otherWords = map[string]Kind{"i": Inline, "l": Inline, "r": Inline, "straight": Inline, "in-line": Inline,
	"row": Inline, "parallel": Inline, "boxer": Flat, "b": Flat, "f": Flat, "h": Flat, "opposed": Flat,
	"horizontally-opposed": Flat, "vr": NarrowV, "narrowv": NarrowV, "star": Radial, "rotor": Rotary}

var (
	separators   = regexp.MustCompile(`[\s_-]+`)
	wordAndCount = regexp.MustCompile(`^([a-z-]+?)-?([0-9]+)$`)
)

// ParseLayout reads a layout. Case, spaces, hyphens and underscores do not
// matter: "v8", "Inline 4" and "flat_6" are understood.
func ParseLayout(text string) (Layout, *Problem) {
	plain := separators.ReplaceAllString(strings.ToLower(strings.TrimSpace(text)), "-")
	refuse := func(message, hint string) (Layout, *Problem) {
		return Layout{}, &Problem{Field: "layout", Index: -1, Message: message, Hint: hint}
	}
	switch plain {
	case "":
		return refuse("the layout of the engine is not given", "one of "+LayoutForms)
	case "single", "single-1":
		return Layout{Single, 1}, nil
	case "custom":
		return Layout{Custom, 0}, nil
	}
	parts := wordAndCount.FindStringSubmatch(plain)
	if parts == nil {
		return refuse(fmt.Sprintf("unknown layout '%s'", text), "one of "+LayoutForms)
	}
	count, err := strconv.Atoi(parts[2])
	if err != nil {
		return refuse(fmt.Sprintf("unknown layout '%s'", text), "one of "+LayoutForms)
	}
	kind, known := kindsByWord[parts[1]]
	if !known {
		hint := "one of " + LayoutForms
		if meant := (Layout{otherWords[parts[1]], count}); meant.valid() {
			hint = "did you mean " + meant.String() + "?"
		}
		return refuse(fmt.Sprintf("unknown layout '%s'", text), hint)
	}
	l := Layout{kind, count}
	if !l.valid() {
		return refuse(fmt.Sprintf("there is no layout '%s': %s goes with %s", text, kind, listCounts(kind)), countHint(l))
	}
	return l, nil
}

func (l Layout) valid() bool {
	for _, n := range counts[l.Kind] {
		if n == l.Count {
			return true
		}
	}
	return false
}

func listCounts(kind Kind) string {
	words := make([]string, len(counts[kind]))
	for i, n := range counts[kind] {
		words[i] = strconv.Itoa(n)
	}
	unit := " cylinders"
	if kind == Rotary {
		unit = " rotors"
	}
	return joinWords(words, "or") + unit
}

func countHint(l Layout) string {
	switch {
	case l.Count == 1 && l.Kind != Rotary:
		return "did you mean single?"
	case l.Kind == V && l.Count == 5:
		return "did you mean narrow-V5?"
	}
	return "for any other arrangement use 'layout: custom', which takes the place of each cylinder"
}

// joinWords joins words as in a sentence: "1, 2 and 3".
func joinWords(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " " + last + " " + words[n]
}
