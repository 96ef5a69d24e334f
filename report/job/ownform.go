package job

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag/quantity"
)

// Whatever has no answer of its own is answered with the form of its key: with the figure or the word that stands in what
// was typed where there is one, else with the key's example.

// ownForm answers a value under a label that is not understood and has no other answer; "" for a label that is no key.
func ownForm(label, text string) string {
	k, name := keyAt(label), label[strings.LastIndexByte(label, '.')+1:]
	if k.name == "" { // under a cylinder, a circuit or a speed
		if up := strings.TrimSuffix(label, "."+name); up != label {
			k = keyAt(up)
		}
	}
	if parts := strings.Split(label, "."); len(parts) > 1 && single[parts[len(parts)-2]] == name { // odometer: ...
		name = parts[len(parts)-2]
	}
	switch {
	case len(k.words) > 0 && k.form != asReadings || label == "plugs.looks" || strings.HasPrefix(label, "plugs.looks."):
		if strings.HasPrefix(label, "plugs.looks") && !strings.HasSuffix(label, ".look") {
			k = keyOf(plugKeys, "look")
		}
		return wordForm(k, name, text)
	case k.form == asWhole || k.form == asBare || k.form == asAmount || k.form == asReading || k.form == asMeasured || k.form == asReadings:
		return figureForm(k, name, text, strings.Contains(label, "limits"))
	case k.example != "" && !strings.ContainsAny(k.example, "{["):
		return "such as '" + k.name + ": " + k.example + "'"
	}
	return ""
}

// sayLittle are words that stand in any sentence, and those that praise or deny, which may be meant of something else.
var sayLittle = strings.Fields("good ok okay fine normal clean no none yes right correct same on off not nothing all some old wrong bad left")

// wordForm answers words for a key that takes one of a few.
func wordForm(k key, name, text string) string {
	if word := wordWithin(k, text); word != "" {
		return "write '" + name + ": " + inQuotes(word) + "', if that is what it is; other words go into 'findings' or 'notes'"
	}
	if k.name == "look" {
		return "write '" + name + ": {look: ..., note: " + inQuotes(short(text)) + "}', and in the place of '...' the nearest of these"
	}
	hint := "write '" + name + ": ...' with the nearest of these in the place of '...', or leave it out"
	if strings.Contains(text, " ") {
		hint += "; other words go into 'findings' or 'notes'"
	}
	return hint
}

// inQuotes puts a text into quotes that would end within braces.
func inQuotes(text string) string {
	if strings.ContainsAny(text, ",:{}[]#\"'") {
		return strconv.Quote(text)
	}
	return text
}

// fromTo is what something was before it became something else.
var fromTo = lazily(`(?i)\bfrom [a-z ]+? to `)

// wordWithin is the only word of a key that stands among others, by the longest of the words for it; "" where several do, and
// where something is denied.
func wordWithin(k key, text string) string {
	vocabulary := vocabularyOf(k.says)
	text = fromTo().ReplaceAllString(text, " ")
	fields := strings.Fields(plainWords(strings.NewReplacer(",", " ", ";", " ", "(", " ", ")", " ").Replace(text)))
	word, longest := "", 0
	for i := range fields {
		if slices.Contains(deniers, fields[i]) || strings.HasSuffix(fields[i], "nt") && len(fields[i]) < 8 || fields[i] == "used" || fields[i] == "less" { // isnt, used to be
			return ""
		}
		for size := min(4, len(fields)-i); size > 0; size-- {
			said := strings.Join(fields[i:i+size], " ")
			found, _ := vocabulary.find(said, k.words)
			if found == "" || slices.Contains(sayLittle, said) || len(said) < 3 {
				continue
			}
			if word != "" && found != word && (size == longest || size == longest+1 || size == longest-1) {
				return ""
			}
			if size > longest {
				word, longest = found, size
			}
			break
		}
	}
	return word
}

// figureForm answers a figure that stands among words, or words alone, for a key that takes a figure.
func figureForm(k key, name, text string, limit bool) string {
	if figure, rest := onlyFigure(text, k.example); figure != "" && !isFigures(text) && denials(wordsOf(text), nil) == 0 {
		hint := "write '" + name + ": " + figure + "', if that is what it is"
		if rest != "" {
			hint += "; '" + short(rest) + "' goes into 'findings' or 'notes'"
		}
		return hint
	}
	such := ""
	if isFigures(text) && k.example != "" {
		return "such as '" + name + ": " + k.example + "'"
	}
	if k.example != "" && !strings.ContainsAny(k.example, "{[") {
		such = ", such as '" + name + ": " + k.example + "'"
	}
	switch {
	case limit:
		return "write the figure" + such
	case !strings.Contains(text, " "):
		return "write the figure" + such + ", or 'not tested' where nothing was read"
	}
	return "write the figure" + such + "; words go into 'findings' or 'notes', and 'not tested' stands where nothing was read"
}

// onlyFigure is the one figure among the words of a text, with the unit of an example where it has none; "" where there is none,
// and where there are several.
func onlyFigure(text, example string) (figure, rest string) {
	words := strings.Fields(figuresFor(text))
	var left []string
	for i := 0; i < len(words); i++ {
		end := i
		for j := i + 1; j <= min(i+4, len(words)); j++ {
			if p, err := quantity.Scan(strings.Trim(strings.Join(words[i:j], " "), ",;.")); err == nil && len(p.Parts) == 1 {
				end = j
			}
		}
		if end == i {
			left = append(left, words[i])
			continue
		}
		if figure != "" || i > 0 && slices.Contains(comparing, strings.ToLower(words[i-1])) {
			return "", ""
		}
		figure = strings.Trim(strings.Join(words[i:end], " "), ",;.")
		if end < len(words) && len(words[end]) < 4 && !tellsWord(words[end]) && !slices.Contains([]string{"in", "on", "of"}, words[end]) { // a unit that is none
			return "", ""
		}
		i = end - 1
	}
	if p, err := quantity.Scan(figure); err == nil && len(p.Parts) == 1 && p.Bound == quantity.AtMost { // came up to 20
		figure = p.Parts[0].Text
	}
	figure = likeExample(figure, example)
	if slices.ContainsFunc(left, func(w string) bool { return slices.Contains(comparing, strings.ToLower(w)) }) {
		return "", ""
	}
	return figure, strings.Trim(strings.Join(left, " "), " ,;.")
}

// likeExample is a figure with the unit of an example where it has none; of a length that is many times the example's, and
// a whole one, it is thousandths of an inch.
func likeExample(figure, example string) string {
	bare, err := quantity.Scan(figure)
	like, known := quantity.Scan(example)
	if err != nil || known != nil || len(bare.Parts) != 1 || bare.Parts[0].Value.Unit != quantity.None || like.Parts[0].Value.Unit == quantity.None {
		return figure
	}
	const many = 8
	one := like.Parts[0].Value
	if quantity.DimensionOf(one.Unit) == quantity.Length && one.Number < many && bare.Parts[0].Value.Number > many*one.Number {
		return figure + " thou"
	}
	return figure + " " + string(one.Unit)
}

// comparing are words that make another figure of the one beside them.
var comparing = strings.Fields("of than by less more lower higher up down below above under over between per from short off")

var (
	halfOf     = lazily(`(?i)\bhalf (?:of )?an? `)
	quarterOf  = lazily(`(?i)\b(?:a )?quarter (?:of )?an? `)
	andHalf    = lazily(`(?i)\b(\d+) and a half\b`)
	oneOf      = lazily(`(?i)\b(?:an?|one) (pint|quart|liter|litre|gallon|cup|inch|mile|minute|min|second|hour|degree|day|week|month|year)\b`)
	ofThousand = lazily(`(?i)\b(\d[\d.]*) ?(?:thousand|grand|k)\b`)
	dozens     = strings.NewReplacer("half a dozen", "6", "a dozen", "12", "a couple of", "2", "couple of", "2", "a couple", "2")
)

// figuresFor writes numbers that are said in words as figures: half a pint, fifty, 98 thousand.
func figuresFor(text string) string {
	text = halfOf().ReplaceAllString(dozens.Replace(text), "0.5 ")
	text = quarterOf().ReplaceAllString(text, "0.25 ")
	text = oneOf().ReplaceAllString(text, "1 $1")
	fields := strings.Fields(text)
	var out []string
	for i := 0; i < len(fields); i++ {
		end := i
		for j := i + 1; j <= len(fields) && (j > i+1 && strings.EqualFold(fields[j-1], "and") || numberWords[strings.ToLower(strings.Trim(fields[j-1], ",.-"))] > 0 || strings.EqualFold(fields[j-1], "hundred") || strings.Contains(fields[j-1], "-") && figureInWords(fields[j-1]) > 0); j++ {
			if figureInWords(strings.Join(fields[i:j], " ")) > 0 {
				end = j
			}
		}
		if end > i {
			out = append(out, strconv.Itoa(figureInWords(strings.Join(fields[i:end], " "))))
			i = end - 1
			continue
		}
		out = append(out, fields[i])
	}
	text = andHalf().ReplaceAllString(strings.Join(out, " "), "$1.5")
	return timesThousand(ofThousand(), text)
}

func timesThousand(form *regexp.Regexp, text string) string {
	return form.ReplaceAllStringFunc(text, func(found string) string {
		v, err := strconv.ParseFloat(form.FindStringSubmatch(found)[1], 64)
		if err != nil {
			return found
		}
		return plainNumber(v * 1000)
	})
}

// groupForm answers a text in the place of a group of keys: with the words in it that one of these takes, and '...' for the
// first of them where it has none, else with the examples of its keys.
func groupForm(name, text string, keys []key) string {
	parts, loose := wordsOfGroup(text, keys)
	first := keys[0]
	asked := ""
	if len(first.words) > 0 && first.name != "unit" && len(parts) > 0 && !slices.ContainsFunc(parts, func(p string) bool { return strings.HasPrefix(p, first.name+": ") }) {
		parts, asked = append([]string{first.name + ": ..."}, parts...), ", and in the place of '...' "+anyOf(first.words)
	}
	if len(loose) > 0 {
		asked += "; " + allOf(loose) + " goes under its own key, or into 'findings' or 'notes'"
	}
	switch {
	case len(parts) > 0:
		return "write '" + name + ": {" + strings.Join(parts, ", ") + "}'" + asked
	case !slices.ContainsFunc(keys, takesFigure) && len(first.words) > 0:
		return "write '" + name + ": {" + first.name + ": ...}', and in the place of '...' " + anyOf(first.words)
	}
	if figure, rest := onlyFigure(text, ""); figure != "" && rest == "" {
		var ways []string
		for _, k := range keys {
			if takesFigure(k) && len(ways) < 2 {
				ways = append(ways, "'"+name+": {"+k.name+": "+figure+"}'")
			}
		}
		if len(ways) > 1 {
			return "write " + anyOf(ways) + ", whichever it was"
		}
	}
	for _, k := range keys {
		if k.example != "" && !strings.Contains(k.example, "{") && k.name != "unit" && k.name != "limits" && len(parts) < 3 {
			parts = append(parts, k.name+": "+k.example)
		}
	}
	if len(parts) == 0 {
		return fmt.Sprintf("such as '%s: ...' on a line of its own, indented", first.name)
	}
	return "write what it was by its keys, such as '" + name + ": {" + strings.Join(parts, ", ") + "}'; other words go into 'findings' or 'notes'"
}

// wordsOfGroup are the keys of a group with the words for them that stand in a text, and what is left over of it.
func wordsOfGroup(text string, keys []key) (parts, loose []string) {
	given := map[string]bool{}
	for _, t := range separate(strings.ReplaceAll(text, " and ", ", "), ",;") {
		known := false
		for _, k := range keys {
			word := ""
			if (k.form == asWord || k.form == asWordList) && !given[k.name] && k.name != "unit" {
				word = wordWithin(k, t.text)
			}
			if word != "" {
				known, given[k.name] = true, true
				parts = append(parts, k.name+": "+inQuotes(word))
			}
		}
		if !known {
			loose = append(loose, "'"+short(t.text)+"'")
			continue
		}
		for _, f := range strings.Fields(t.text) {
			if strings.ContainsAny(f, "0123456789") {
				loose = append(loose, "'"+short(f)+"'")
			}
		}
	}
	return parts, loose
}
