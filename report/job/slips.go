package job

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"gaugesheet/diag/quantity"
)

// figureFor are letters that are typed, or read from paper, for figures.
var figureFor = strings.NewReplacer("O", "0", "o", "0", "Q", "0", "l", "1", "I", "1", "i", "1", "|", "1", "S", "5", "s", "5", "B", "8", "Z", "2", "z", "2")

// figureMeant gives the number that a text with letters among its figures was
// probably meant to be, 14O or l40, with what stands behind it; "" for none.
func figureMeant(text string) string {
	number, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	meant := figureFor.Replace(number)
	if meant == number || !isFigures(strings.Replace(meant, ",", ".", 1)) || !strings.ContainsAny(number, "0123456789") && fold(number) != "o" {
		return ""
	}
	return strings.TrimSpace(meant + " " + rest)
}

// joinedFigures gives the number that figures with spaces between them, 1 40 or
// 9 5, were meant to be among the readings of a scale; "" for none.
func (s *scale) joinedFigures(text string) string {
	if strings.Trim(text, "0123456789 ") != "" {
		return ""
	}
	fields := strings.Fields(text)
	candidates := []string{strings.Join(fields, "")}
	if len(fields) == 2 && len(fields[1]) <= 2 {
		candidates = append(candidates, fields[0]+"."+fields[1])
	}
	for _, joined := range candidates {
		v, err := strconv.ParseFloat(joined, 64)
		if err == nil && s.isUsual(v) {
			return joined
		}
	}
	return ""
}

// joinedHint answers figures that a space has taken apart.
func (s *scale) joinedHint(text string) string {
	if joined := s.joinedFigures(text); joined != "" {
		return "did you mean " + joined + "?"
	}
	return ""
}

// isUsual reports a number that is a usual reading in the section's unit, and
// about as the others are where there are others.
func (s *scale) isUsual(v float64) bool {
	if rest := s.middleRead(); rest > 0 {
		return math.Abs(v-rest) <= 2*alike*rest
	}
	return slices.Contains(s.usual.UnitsLike(v), s.unit)
}

// isUsualText reports figures that are a usual reading.
func (s *scale) isUsualText(text string) bool {
	v, err := strconv.ParseFloat(text, 64)
	return err == nil && s.isUsual(v)
}

// runTogether says of a list that is too long or too short which of its figures
// were taken apart by a space, or run together; "" where that is not told.
func runTogether(texts []string, cylinders int) string {
	var numbers []float64
	for _, t := range texts {
		v, err := strconv.ParseFloat(strings.Replace(t, ",", ".", 1), 64)
		if err != nil {
			return ""
		}
		numbers = append(numbers, v)
	}
	sorted := slices.Sorted(slices.Values(numbers))
	if len(sorted) < 2 {
		return ""
	}
	middle := sorted[len(sorted)/2]
	near := func(text string) bool {
		v, err := strconv.ParseFloat(text, 64)
		return err == nil && math.Abs(v-middle) <= alike*middle
	}
	for i, t := range texts {
		if len(texts) == cylinders+1 && i+1 < len(texts) && near(t+texts[i+1]) && !(near(t) && near(texts[i+1])) {
			return "did you mean " + t + texts[i+1] + " by '" + t + " " + texts[i+1] + "'?"
		}
		for cut := 1; len(texts) == cylinders-1 && cut < len(t); cut++ {
			if near(t[:cut]) && near(t[cut:]) {
				return "did you mean " + t[:cut] + " " + t[cut:] + " by '" + t + "'?"
			}
		}
	}
	return ""
}

// bookHint answers a limit that is no figure.
func (s *scale) bookHint(err error) string {
	if _, hint := parseProblem(err); hint != "" {
		return hint
	}
	return "write the book's figure, such as '" + s.bookFigure() + "', or leave it out"
}

// bookFigure is an example of a limit of the scale's readings.
func (s *scale) bookFigure() string {
	if s.name == "compression" {
		return "128 psi"
	}
	return "35 psi"
}

// severalIn offers what a phrase of more than one number means under a key: a
// limit is one figure.
func (s *scale) severalIn(label, text string, p quantity.Phrase) string {
	if strings.Contains(label, "limits.") && len(p.Parts) > 1 {
		return "a limit is one figure, such as '" + s.bookFigure() + "'"
	}
	return s.several(text, p)
}

// commaHint offers what two numbers with a comma between them may be, 80,90: a
// range, or two readings.
func commaHint(text string) string {
	low, high, ok := strings.Cut(text, ",")
	a, errA := strconv.Atoi(low)
	b, errB := strconv.Atoi(high)
	if !ok || errA != nil || errB != nil || len(low) < 2 || len(high) < 2 {
		return ""
	}
	hint := "two readings are [" + low + ", " + high + "]"
	if a < b {
		hint = "a range is " + low + "-" + high + "; " + hint
	}
	return hint
}

// unfit reports a number with a decimal comma that may be two numbers: 80,90
// where the unit is read in whole numbers and the others are.
func (s *scale) unfit(text string) bool {
	whole := s.unit == quantity.PSI || s.unit == quantity.KPa
	return whole && s.given && commaHint(text) != "" && !slices.ContainsFunc(s.samples, func(x sample) bool { return decimals(x.text) > 0 })
}

// spreadsheetDate answers a date that a spreadsheet has made of a range, 10-Dec of
// 10-12; "" for any other text.
func spreadsheetDate(text string) string {
	d, err := time.Parse("2-Jan", text)
	if err != nil {
		return ""
	}
	return fmt.Sprintf("a spreadsheet has made a date of what was typed: write it as it was, such as %d-%d", d.Day(), int(d.Month()))
}

// nearly are words before a figure by which it was not quite read.
var nearly = []string{"just under", "just over", "just about", "just below", "just above", "a bit under", "a bit over", "bit under", "bit over", "barely", "hardly", "nearly", "almost", "close to", "near", "a little over",
	"a little under", "slightly under", "slightly over", "not quite", "bang on", "exactly", "only", "dead on", "spot on"}

// wordsAnswer says what to type in place of a text of words, or of a number and
// words; "" where it is neither.
func (s *scale) wordsAnswer(text string) string {
	if meant := figureMeant(text); meant != "" {
		return "did you mean " + meant + "?"
	}
	if v, err := strconv.ParseFloat(text, 64); err == nil && strings.ContainsAny(text, "eE") && strings.ContainsAny(text, "0123456789") { // 1.50E+02
		return "write " + plainNumber(v)
	}
	if said := figuresFor(text); said != text && quantityText(said, s.dimension()) && figureInWords(text) == 0 { // half a minute
		return "write '" + said + "'"
	}
	if v := figureInWords(text); v > 0 { // one fifty
		return "write " + strconv.Itoa(v)
	}
	if hint := cmp.Or(s.movedHint(text), signAnswer(text)); hint != "" {
		return hint
	}
	if strings.HasPrefix(text, ",") { // {2: ", 3: "}
		return "a quote opens a text up to the next one: write the reading itself, what the gauge showed"
	}
	if fields := strings.Fields(text); len(fields) > 1 && len(fields) < 5 && isFigures(fields[len(fields)-1]) && slices.Contains(nearly, fold(strings.Join(fields[:len(fields)-1], " "))) {
		return "write what the gauge showed, or 'about " + fields[len(fields)-1] + "'"
	}
	word, figure, _ := strings.Cut(fold(text), " ")
	if changed, _ := vocabularyOf("change").find(word, []string{"up"}); changed != "" && isFigures(figure) {
		return "write the reading itself, not by how much it changed"
	}
	number, words, _ := strings.Cut(strings.TrimSpace(text), " ")
	if times := strings.Trim(fold(words), "x* times"); isFigures(number) && (times == "2" || times == "3" || fold(words) == "twice") { // 150 x2
		return "readings of one " + s.r.cylinderWord + " that are the same again are each written: '[" + number + ", " + number + "]'"
	}
	words = strings.TrimLeft(words, "-–—:; ")
	_, known := vocabularyOf("pressure").find(words, nil)
	switch {
	case len(s.units) > 0 && !strings.ContainsAny(text, "0123456789") && strings.Contains(text, " "): // light flickers
		return "write what the gauge showed; words go into 'findings', and 'not tested' stands where nothing was read"
	case len(s.units) > 0 || s.unit == quantity.Percent:
		return ""
	case !strings.ContainsAny(text, "0123456789") && strings.ContainsFunc(text, unicode.IsLetter):
		return "where there is no reading write 'could not test (" + short(text) + ")'"
	case isFigures(number) && known == "" && nearest(words, pressureUnits) != "":
		return "did you mean " + number + " " + nearest(words, pressureUnits) + "?"
	case isFigures(number) && strings.ContainsFunc(words, unicode.IsLetter):
		return "write " + number + "; words go into 'findings' or 'notes'"
	}
	return ""
}

// signAnswer says what to type in place of figures with a sign that does not belong there;
// "" for any other text.
func signAnswer(text string) string {
	if bare := strings.TrimRight(text, "!*^ ])}"); bare != text && isFigures(bare) { // 62!!
		return "write " + bare
	}
	if whole, part, ok := strings.Cut(text, ":"); ok && isFigures(whole+"."+part) {
		return "did you mean " + whole + "." + part + "?"
	}
	if whole, part, ok := strings.Cut(strings.ReplaceAll(text, "’", "'"), "'"); ok && isWhole(whole) && isWhole(part) && len(part) < 3 { // 11'2
		return "did you mean " + whole + "." + part + "?"
	}
	if plain := strings.NewReplacer("'", "", "’", "").Replace(text); plain != text && isThousands(strings.ReplaceAll(text, "’", "'"), "'") { // 1'030
		return "write " + plain
	}
	return ""
}

// movedTo is a reading told by where the needle went: 'went up to 95', 'drops to 30'.
var movedTo = lazily(`^(?:it )?(?:(?:went|goes|gone|came|comes|rose|rises|climbs|climbed|jumps|jumped|up|drops|dropped|falls|fell|sags|sagged|dips|dipped|down|back|pulls|reads|now) ?)+ (?:to|at) (?:about )?(\d[\d.]*(?: ?[a-z%/0-9]+)?)$`)

// summed is a figure and what came on top of it: 60+40.
var summed = lazily(`^(\d+) ?\+ ?(\d+)$`)

// fallsFrom is a reading and what the needle does from it: 18 drops to 14 every so often.
var fallsFrom = lazily(`^(\d[\d.]*)(?: ?[a-z]+)? (?:drop|drops|dropping|dips|dipping|flicks|flicking|falls|falling|swings|kicks|jumps)(?: (?:down|back))?(?: to (\d[\d.]*))?\b`)

// movedHint answers a reading that is told by how the needle moved; "" for any other.
func (s *scale) movedHint(text string) string {
	plain := fold(text)
	if m := movedTo().FindStringSubmatch(plain); m != nil {
		return "write " + m[1]
	}
	if m := summed().FindStringSubmatch(plain); m != nil {
		a, _ := strconv.Atoi(m[1])
		b, _ := strconv.Atoi(m[2])
		return "write the reading itself: " + strconv.Itoa(a+b) + ", if it rose by " + m[2] + " to that"
	}
	if m := fallsFrom().FindStringSubmatch(plain); m != nil && s.takes(quantity.InHg) && len(s.units) > 0 {
		by := ""
		from, _ := strconv.ParseFloat(m[1], 64)
		if to, err := strconv.ParseFloat(m[2], 64); err == nil && to < from {
			by = ", by: " + plainNumber(from-to)
		}
		return "what the needle did has its key: {reading: " + m[1] + ", needle: drops regularly" + by + "}, or 'drops now and then'"
	}
	if number, rest, ok := strings.Cut(plain, " "); ok && isFigures(number) && s.label == "compression" && strings.ContainsAny(rest, "0123456789") && strings.Contains(rest, "first") {
		return "each stroke has its key: the first one's reading goes under 'first: {" + cmp.Or(s.cylinder, "1") + ": ...}', the last one's here"
	}
	return ""
}
