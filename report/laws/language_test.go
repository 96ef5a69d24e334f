package laws_test

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"unicode"

	"gaugesheet/diag/rule"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
	"gaugesheet/templates"
)

// Every word on a page comes from the catalogue: said in another alphabet, it
// leaves no English word on a page that the job file does not have.

// cyrillic are letters that stand for those of the catalogue, as wide and as
// many, so that a word is broken where it was.
var cyrillic = func() map[rune]rune {
	small := []rune("абвгдежзийклмнопрстуфхцчшщ")
	m := map[rune]rune{}
	for i, r := range small {
		m['a'+rune(i)], m['A'+rune(i)] = r, unicode.ToUpper(r)
	}
	return m
}()

// inCyrillic is a text in those letters; units are no words.
func inCyrillic(text string) string {
	return unitWords.ReplaceAllStringFunc(text, func(word string) string {
		if isUnit[word] {
			return word
		}
		return strings.Map(func(r rune) rune {
			if other, ok := cyrillic[r]; ok {
				return other
			}
			return r
		}, word)
	})
}

var unitWords = regexp.MustCompile(`[A-Za-z]+`)

// isUnit are the letters of units and the signs of formulas.
var isUnit = map[string]bool{"inH": true, "mmH": true, "ppm": true, "ohm": true, "psi": true, "kPa": true, "hPa": true, "bar": true, "MPa": true, "kgf": true, "cm": true, "mm": true, "ml": true, "cc": true,
	"rpm": true, "inHg": true, "min": true, "km": true, "mi": true, "ft": true, "in": true, "cu": true, "deg": true, "TM": true, "OD": true, "gaugesheet": true}

// listWords are the words of the job file's lists, which a page says in its own
// language.
var listWords = sync.OnceValue(func() map[string]bool {
	words := map[string]bool{}
	for _, m := range regexp.MustCompile(`(?s)"enum":\s*\[(.*?)\]`).FindAllStringSubmatch(string(job.Schema()), -1) {
		for _, q := range regexp.MustCompile(`"([^"]*)"`).FindAllStringSubmatch(m[1], -1) {
			words[q[1]] = true
		}
	}
	return words
})

var aState = regexp.MustCompile(`^(not tested|could not test|declined|not applicable)(: | \(|$)`)

// ownWords are the words that the user of a job wrote: those of its free texts,
// its cylinders' names and its amounts, without what comes from a list. A reading
// in words ("no pressure") is printed as it was entered.
func ownWords(value any, words map[string]bool) {
	switch v := value.(type) {
	case *tree:
		for _, key := range v.keys {
			if text, free := v.values[key].(string); free && key == "choke" {
				for _, word := range unitWords.FindAllString(text, -1) {
					words[strings.ToLower(word)] = true
				}
			}
			ownWords(v.values[key], words)
			if strings.HasPrefix(key, "bank ") {
				ownWords(key, words)
			}
			if key == "circuits" || key == "not-tested" { // named by the user
				for _, name := range v.sub(key).keys {
					ownWords(name, words)
				}
			}
		}
	case []any:
		for _, one := range v {
			ownWords(one, words)
		}
	default:
		text := fmt.Sprint(v)
		if listWords()[text] && text != "no pressure" {
			return
		}
		for _, word := range unitWords.FindAllString(aState.ReplaceAllString(text, ""), -1) {
			words[strings.ToLower(word)] = true
		}
	}
}

// theNames are names that a page gives: of rules, and the fingerprint of a job
// file, which is hexadecimal.
var theNames = func() *regexp.Regexp {
	var names []string
	for _, r := range rule.All() {
		if strings.Contains(r.Name, "-") {
			names = append(names, r.Name)
		}
	}
	slices.SortFunc(names, func(a, b string) int { return len(b) - len(a) })
	return regexp.MustCompile(`\b(` + strings.Join(names, "|") + `|overheated|[0-9a-f]{4}[\s\x{a0}][0-9a-f]{4})\b`)
}()

// texts draws a job and gives the page's pieces of text by block.
func drawnTexts(s *subject, o sheet.Options) ([]record.Text, error) {
	o.Version = "test"
	drawn, err := sheet.New(s.job, s.d, o)
	if err != nil {
		return nil, err
	}
	rec := record.New(face.Metrics())
	drawn.Draw(rec)
	return rec.Texts(), nil
}

func TestEveryWordIsOfTheCatalogue(t *testing.T) {
	other, err := templates.Reworded("en", inCyrillic)
	if err != nil {
		t.Fatal(err)
	}
	b := newBench(nil)
	found := map[string]string{}
	seen := map[string]int{}
	papers := []string{"letter", "a4", "legal"}
	for seed := uint64(1); seed <= uint64(jobs(300)); seed++ {
		s := b.subject(seed)
		if s == nil {
			continue
		}
		own := map[string]bool{"front": true, "rear": true} // rotors by their usual names
		ownWords(s.tree, own)
		for _, name := range s.names() {
			own[strings.ToLower(name)] = true
		}
		for i, kind := range append(kinds, "blank") {
			texts, err := drawnTexts(s, sheet.Options{Kind: kind, Paper: papers[(seed+uint64(i))%3], Words: other})
			if err != nil {
				t.Fatalf("seed %d: the %s sheet: %v\n%s", seed, kind, err, s.tree)
			}
			for _, text := range texts {
				for _, word := range unitWords.FindAllString(theNames.ReplaceAllString(text.String, ""), -1) {
					if len(word) == 1 || isUnit[word] || own[strings.ToLower(word)] {
						continue
					}
					seen[word]++
					if found[word] == "" {
						found[word] = fmt.Sprintf("%s sheet, seed %d, %s: %q", kind, seed, text.Block, text.String)
					}
				}
			}
		}
	}
	for _, word := range slices.Sorted(maps.Keys(found)) {
		t.Errorf("%q is not of the catalogue (%d times): %s", word, seen[word], found[word])
	}
}

// twoEnglishes are words of the trade and spellings that only one of the two
// has: American first. From memory, and common practice.
var twoEnglishes = [][2]string{
	{"intake", "inlet"}, {"lash", ""}, {"lifter", "tappet"}, {"lifters", "tappets"}, {"transmission", "gearbox"}, {"muffler", "silencer"},
	{"neighbor", "neighbour"}, {"neighbors", "neighbours"}, {"neighboring", "neighbouring"}, {"gasoline", "petrol"}, {"carburetor", "carburettor"},
	{"vapor", "vapour"}, {"wrench", "spanner"}, {"grounded", "earthed"}, {"burned", "burnt"}, {"color", "colour"}, {"gray", "grey"}, {"center", "centre"},
	{"authorized", "authorised"}, {"PCV", ""}, {"", "sump"}, {"", "breather"}, {"replace", "renew"}, {"replaced", "renewed"}, {"reinstalled", "refitted"},
}

// A page speaks one English, whatever the job file is written in.
func TestOneEnglishOnAPage(t *testing.T) {
	b := newBench(nil)
	saw := map[string]int{}
	for seed := uint64(1); seed <= uint64(jobs(200)); seed++ {
		s := b.subject(seed)
		if s == nil {
			continue
		}
		own := map[string]bool{}
		ownWords(s.tree, own)
		for side, language := range []string{"en", "en-GB"} {
			texts, err := drawnTexts(s, sheet.Options{Kind: kinds[seed%uint64(len(kinds))], Language: language})
			if err != nil {
				t.Fatalf("seed %d: %v\n%s", seed, err, s.tree)
			}
			for _, text := range texts {
				for _, word := range unitWords.FindAllString(theNames.ReplaceAllString(text.String, ""), -1) {
					for _, pair := range twoEnglishes {
						switch {
						case own[strings.ToLower(word)]:
						case pair[side] != "" && strings.EqualFold(word, pair[side]):
							saw[pair[side]]++
						case pair[1-side] != "" && strings.EqualFold(word, pair[1-side]):
							t.Errorf("seed %d: %q on a page in %s: %s: %q", seed, word, language, text.Block, text.String)
						}
					}
				}
			}
		}
	}
	for _, pair := range twoEnglishes[:2] {
		for _, word := range pair {
			if word != "" && saw[word] == 0 {
				t.Errorf("no page says %q", word)
			}
		}
	}
}
