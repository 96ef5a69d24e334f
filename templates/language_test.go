package templates

import (
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// texts calls a function with every piece of text of English, as it stands
// between the places for facts.
func texts(t *testing.T, each func(file string, line int, text string)) {
	t.Helper()
	names, err := fs.Glob(files, "words/en/*.yaml")
	if err != nil || len(names) == 0 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		data, err := files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var root yaml.Node
		if err := yaml.Unmarshal(data, &root); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		walk(&root, func(n *yaml.Node) {
			c := &Catalogue{reword: func(s string) string { each(name, n.Line, s); return s }}
			c.funcs = c.wordFuncs()
			one := &compiled{}
			if one.compile(&source{name: name, body: n.Value}, c); one.err != nil {
				t.Errorf("%s:%d: %v", name, n.Line, one.err)
			}
		})
	}
}

// walk calls a function with every scalar that is a value.
func walk(n *yaml.Node, each func(*yaml.Node)) {
	switch n.Kind {
	case yaml.ScalarNode:
		each(n)
	case yaml.MappingNode:
		for i := 1; i < len(n.Content); i += 2 {
			walk(n.Content[i], each)
		}
	default:
		for _, below := range n.Content {
			walk(below, each)
		}
	}
}

func british(t *testing.T) *terms {
	t.Helper()
	data, err := files.ReadFile("words/en-GB.yaml")
	if err != nil {
		t.Fatal(err)
	}
	over, err := readTerms(data)
	if err != nil {
		t.Fatal(err)
	}
	return over
}

// both are British terms that American English has too, of other things.
var both = []string{"clearance", "the clearance", "clearance too small", "cap", "caps", "earth", "fit", "fitted", "an inlet", "bare ground"}

// The sentences are American: none has a British term, and no British text
// keeps an American one.
func TestOneEnglish(t *testing.T) {
	over := british(t)
	var american, britons []string
	for term, instead := range over.Terms {
		if term != instead {
			american = append(american, regexp.QuoteMeta(term))
		}
		if !slices.Contains(both, instead) {
			britons = append(britons, regexp.QuoteMeta(instead))
		}
	}
	ours := regexp.MustCompile(`(?i)\b(` + strings.Join(american, "|") + `)\b`)
	theirs := regexp.MustCompile(`(?i)\b(` + strings.Join(britons, "|") + `)\b`)
	texts(t, func(file string, line int, text string) {
		if m := theirs.FindString(text); m != "" {
			t.Errorf("%s:%d: %q is British; English sentences are written in American: %q", file, line, m, text)
		}
		said := over.reword(text)
		if m := ours.FindString(strings.ReplaceAll(said, "bare ground", "")); m != "" {
			t.Errorf("%s:%d: %q stays American in %q", file, line, m, said)
		}
	})
}

// spelling are further words that only one English has: -ise for -ize, -our
// for -or, and the like.
var spelling = regexp.MustCompile(`(?i)\b(\w+(?:ising|isation|yse[ds]?)|colou?r\w+|labour|behaviour|odour|favour\w*|harbour|tyres?|metres?|litres?|fibres?|aluminium|kerb|mould\w*|catalogue|programme|cheque|plough|sceptic\w*|travelled|labelled|levelled|cancelled|modelled|defence|offence|practise\w*|whilst|amongst|towards|spanners?|tappets?|bonnet|windscreen|petrol)\b`)

func TestAmericanSpelling(t *testing.T) {
	texts(t, func(file string, line int, text string) {
		if m := spelling.FindString(text); m != "" {
			t.Errorf("%s:%d: %q is British: %q", file, line, m, text)
		}
	})
}

// Every term is one that a sentence has.
func TestEveryTermIsSaid(t *testing.T) {
	over := british(t)
	said := map[string]bool{}
	texts(t, func(_ string, _ int, text string) {
		for rest := text; rest != ""; {
			word := firstWord(rest)
			for _, term := range over.termsAt(word) {
				if word != "" && begins(rest, term) > 0 {
					said[term] = true
				}
			}
			rest = rest[max(1, len(word)):]
		}
	})
	for term := range over.Terms {
		if !said[term] {
			t.Errorf("no sentence says %q", term)
		}
	}
}

// A term keeps the article before it right.
func TestArticles(t *testing.T) {
	wrong := regexp.MustCompile(`(\ba|^A|[.] A) [aeio]\w+|\b[Aa]n [bcdfgjklmnpqrstvwxyz]\w+`)
	over := british(t)
	for _, reword := range []func(string) string{func(s string) string { return s }, over.reword} {
		texts(t, func(file string, line int, text string) {
			said := reword(text)
			if m := wrong.FindString(said); m != "" && m != "a one" {
				t.Errorf("%s:%d: %q in %q", file, line, m, said)
			}
		})
	}
}

func TestReword(t *testing.T) {
	over := british(t)
	for text, want := range map[string]string{
		"Intake valve":                     "Inlet valve",
		"the INTAKE":                       "the INTAKE",
		"intake-side, an intake":           "inlet-side, an inlet",
		"Outdoors, on bare ground":         "Outdoors, on bare ground",
		"wiring, relay or ground":          "wiring, relay or earth",
		"groundwork and uninstalled boots": "groundwork and uninstalled caps",
		"Check\u00a0valve leaks":           "Non-return valve leaks",
		"set valve lash; lash too tight":   "set valve clearance; clearance too small",
		"°C · ± lifter":                    "°C · ± tappet",
		"oil, through the PCV valve":       "oil, through the breather valve",
		"PCV valve. PCV valve and":         "Breather valve. Breather valve and",
	} {
		if got := over.reword(text); got != want {
			t.Errorf("%q becomes %q, want %q", text, got, want)
		}
	}
}

// What is put into a sentence is left as it was written.
func TestFactsAreNotReworded(t *testing.T) {
	c, err := Words("en-GB")
	if err != nil {
		t.Fatal(err)
	}
	said, err := c.Label("state.because", map[string]any{"state": "declined", "reason": "no wrench for the intake"})
	if want := "declined (no wrench for the intake)"; err != nil || said != want {
		t.Errorf("%q, %v, want %q", said, err, want)
	}
}

// Every language has every entry.
func TestLanguagesAreWhole(t *testing.T) {
	english, err := Words("en")
	if err != nil {
		t.Fatal(err)
	}
	if got := Languages(); !slices.Contains(got, "en") || !slices.Contains(got, "en-GB") {
		t.Fatal(got)
	}
	for _, language := range Languages() {
		c, err := Words(language)
		if err != nil {
			t.Fatal(err)
		}
		for _, section := range sections {
			if !slices.Equal(c.Keys(section), english.Keys(section)) {
				t.Errorf("%s: %s differ from those of English", language, section)
			}
		}
		if c.Language != language {
			t.Errorf("%s calls itself %q", language, c.Language)
		}
	}
	if _, err := Words("fr"); err == nil || !strings.Contains(err.Error(), "en, en-GB") {
		t.Errorf("an unknown language: %v", err)
	}
}
