package job

import (
	"cmp"
	"strings"

	"gaugesheet/diag/quantity"
)

// What is said of plugs in one line.

// plugsSaid answers what is said of plugs that is no look: new ones, and a gap for all; "" for
// any other text.
func plugsSaid(section, text string) string {
	plain := figuresFor(fold(text))
	if section != "plugs" {
		return ""
	}
	if newPlugs().MatchString(plain) {
		return "plugs that were put in are work done: 'vehicle: {work-done: [new plugs]}'; how the old ones looked stands under 'plugs: {looks: ...}'"
	}
	if looks := cmp.Or(gapsSaid(text), looksFirst(text)); looks != "" {
		return looks
	}
	m := gapSaid().FindStringSubmatch(plain)
	if m == nil {
		return ""
	}
	gap := m[1]
	if v, err := quantity.Parse(gap); err == nil && v.Unit == quantity.None {
		gap += " " + string(gapUnit(v.Number))
	}
	hint := "write 'plugs: {gap: " + gap + "}' for the gap by the book; a gap that was found stands with its plug: 'looks: {1: {look: normal, gap: " + gap + "}, ...}'"
	if rest := strings.Trim(m[2], " ,;"); rest != "" {
		hint += "; '" + short(rest) + "' is a look: 'looks: {...}'"
	}
	return hint
}

var (
	newPlugs = lazily(`^(?:(?:just )?(?:put|fitted|installed|changed|replaced)\b.*|(?:brand )?new(?: ones| plugs| set)?(?: in| fitted| installed| put in)?|(?:just )?(?:replaced|changed))$`)
	gapSaid  = lazily(`^gap(?:ped|s)?(?: at| to| is)? ?[:=]? ?(\d*[.,]?\d+ ?(?:mm|in|thou|")?)(?: all(?: round| around)?| each| on all)?(?:$|[ ,;]+(.*)$)`)
)

// gapUnit is the unit in which a bare gap of such a size is.
func gapUnit(number float64) quantity.Unit { return bareUnit(number, 0.15) }

// lookAndGap is a plug with its look and its gap: 1 tan .044.
var lookAndGap = lazily(`^(?:no\.? ?|cyl\.? ?|#)?(\d{1,2})[ :=]+([a-z][a-z -]*?),? (?:gap ?(?:of )?)?(\d*[.,]\d+) ?(mm|in|")?$`)

// gapsSaid writes plugs with their looks and gaps behind each; "" for any other text.
func gapsSaid(text string) string {
	look := keyOf(plugKeys, "look")
	var all []string
	for _, t := range separate(text, ",;") {
		m := lookAndGap().FindStringSubmatch(fold(t.text))
		if m == nil || !vocabularyOf(look.says).answers(m[2], look.words) {
			return ""
		}
		unit := m[4]
		if v, err := quantity.Parse(m[3]); unit == "" && err == nil {
			unit = string(gapUnit(v.Number))
		}
		all = append(all, m[1]+": {look: "+m[2]+", gap: "+m[3]+" "+strings.ReplaceAll(unit, `"`, "in")+"}")
	}
	if len(all) < 2 {
		return ""
	}
	return "write 'plugs: {looks: {" + strings.Join(all, ", ") + "}}'"
}

// lookFirst is a look with the cylinders of which it is behind it: tan 1 2 4.
var lookFirst = lazily(`([a-z][a-z -]*?)(?: on| for|:)? ((?:#?\d{1,2}(?: ?, ?| ?& ?| and | |;|$))+)`)

// looksFirst writes looks that stand before their cylinders, 'tan 1 2 4, oily 3'; "" for any
// other text.
func looksFirst(text string) string {
	look := keyOf(plugKeys, "look")
	plain := strings.TrimSpace(fold(text))
	var all []string
	behind := 0
	for _, m := range lookFirst().FindAllStringSubmatchIndex(plain, -1) {
		if m[0] != behind || !vocabularyOf(look.says).answers(plain[m[2]:m[3]], look.words) {
			return ""
		}
		for _, name := range strings.FieldsFunc(plain[m[4]:m[5]], func(c rune) bool { return c < '0' || c > '9' }) {
			all = append(all, name+": "+plain[m[2]:m[3]])
		}
		behind = m[1]
	}
	if behind != len(plain) || len(all) < 2 {
		return ""
	}
	return "write 'plugs: {looks: {" + strings.Join(all, ", ") + "}}'"
}
