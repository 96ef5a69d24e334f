package job

import (
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// What one sentence tells of a test, '18 at idle, drops to 2 on snap and up to 24', is written with its keys: each figure
// belongs to the key whose words stand beside it, by the longest of them, else to the one that its unit is of.

// A toldKey is a key of a figure, by its way from the section, with the words that are said beside it.
type toldKey struct {
	path  []string
	of    key
	words []string
	units []quantity.Unit
}

// A toldFigure is a figure of a sentence with what stands beside it.
type toldFigure struct {
	text   string
	unit   quantity.Unit
	number float64
	begin  int // the words that it takes
	end    int
	stop   int    // behind what belongs to it, 'at 2500'
	speed  string // 'at 2500', as the file has it
	time   string // 'in 5 min'
	beside []toldWord
	ahead  int // how many of these stand before it
}

// toldKeys are the keys of a section that take a figure.
func toldKeys(section string, path []string, keys []key, units []quantity.Unit) (out []toldKey) {
	for _, k := range keys {
		way := append(slices.Clone(path), k.name)
		own := units
		if len(k.units) > 0 {
			own = k.units
		}
		switch {
		case k.name == "limits" || k.name == "unit" || k.speeds:
		case k.form == asGroup && !k.speeds:
			out = append(out, toldKeys(section, way, k.keys, own)...)
		case k.form == asMeasured || k.form == asAmount || k.form == asReading || k.form == asAtSpeeds || k.form == asAtTimes || k.form == asWhole || k.name == "hold":
			if k.form == asAmount && len(k.units) == 0 {
				own = nil
			}
			words := append(keyWords(k.name), toldBeside[section+"."+strings.Join(way, ".")]...)
			out = append(out, toldKey{way, k, words, own})
		}
	}
	return out
}

// keyWords are a key's name and what people call it, without the words that are said of any figure,
// nor a name that is none but a joining word: "40 at idel" is not how hot it was.
func keyWords(name string) []string {
	var out []string
	if !tellsWord(name) {
		out = append(out, strings.ReplaceAll(name, "-", " "))
	}
	for _, s := range otherKeys {
		if s.Means != name {
			continue
		}
		for _, w := range s.Words {
			if v, err := quantity.Parse("1 " + w); !(err == nil && v.Unit != quantity.None) && !slices.Contains(saidOfAny, w) {
				out = append(out, w)
			}
		}
	}
	return out
}

// saidOfAny are words that are said of any figure, and mustBe those of one that was not read.
var (
	saidOfAny = strings.Fields("temp temperature water pressure pressures reading readings result results values drop after rest speed from in last final where place min max least most cold hot warm at")
	mustBe    = strings.Split("should;should be;spec;book;limit;supposed;spec is;min;max;normal", ";")
)

// unitsOfSection are those in which a section's bare figures may be.
func unitsOfSection(section string) []quantity.Unit {
	for _, s := range measuredSections {
		if s.name == section {
			return s.units
		}
	}
	if section == "fuel-pressure" {
		return pressuresRead
	}
	return nil
}

// figuresTold finds the figures of a sentence, each with the words from the last thing told to the next.
func figuresTold(words []toldWord, whole []rune) []toldFigure {
	var out []toldFigure
	speedOf, timeOf := -1, -1
	for i := 0; i < len(words); i++ {
		f, ok := figureAt(words, whole, i)
		if !ok {
			continue
		}
		before := ""
		if i > 0 {
			before = words[i-1].low
		}
		isTime := quantity.DimensionOf(f.unit) == quantity.Time
		switch {
		case (before == "at" || before == "@") && (f.unit == quantity.None && f.number >= leastSpeed || f.unit == quantity.RPM) && len(out) > 0:
			if speedOf != len(out)-1 {
				out[len(out)-1].speed, speedOf = plainNumber(f.number)+" rpm", len(out)-1
				out[len(out)-1].stop = f.end
				i = f.end - 1
				continue
			}
		case isTime && len(out) > 0 && timeOf != len(out)-1 && slices.Contains([]string{"in", "after", "within", "for", "over"}, before):
			out[len(out)-1].time, timeOf = f.text, len(out)-1
			out[len(out)-1].stop = f.end
			i = f.end - 1
			continue
		}
		out = append(out, f)
		i = f.end - 1
	}
	return out
}

// leastSpeed is the least figure behind 'at' that is a speed without its unit.
const leastSpeed = 400

// figureAt reads the longest figure with its unit at a word.
func figureAt(words []toldWord, whole []rune, at int) (f toldFigure, ok bool) {
	if first := strings.TrimLeft(words[at].low, "+-~.<>"); !startsWithFigure(first) && !slices.Contains([]string{"about", "around", "over", "under", "nearly"}, first) {
		return f, false
	}
	for end := at + 1; end <= min(at+4, len(words)); end++ {
		if words[end-1].breaks || words[end-1].low == "=" || words[end-1].low == ":" {
			break
		}
		if words[end-1].low == "to" { // from 12.6 to 9.9
			break
		}
		if words[end-1].low == "in" && end < len(words) && startsWithFigure(words[end].low) {
			break
		}
		text := string(whole[words[at].at:words[end-1].end])
		p, err := quantity.ScanAs(text, quantity.Pressure)
		if err != nil || len(p.Parts) != 1 && !(len(p.Parts) == 2 && p.Only(quantity.To)) || twoFigures().MatchString(text) {
			continue
		}
		last := p.Parts[len(p.Parts)-1].Value
		f, ok = toldFigure{text: text, unit: last.Unit, number: p.Parts[0].Value.Number, begin: at, end: end, stop: end}, true
	}
	return f, ok
}

// besideFigures gives each figure the words that are said of it: those before it where its part of the sentence begins with
// words, else those behind it.
func besideFigures(words []toldWord, all []toldFigure) (left []typed) {
	part := 0
	for part < len(words) {
		end := part
		for end < len(words) && !(words[end].breaks || end > part && slices.Contains([]string{"and", "then", "&", "n", "but"}, words[end].low)) {
			end++
		}
		var in []int
		for i := range all {
			if all[i].begin >= part && all[i].begin < end {
				in = append(in, i)
			}
		}
		for n, i := range in {
			from, to := part, end
			if ahead := all[in[0]].begin > part; ahead {
				if n > 0 {
					from = all[in[n-1]].stop
				}
				if n+1 < len(in) {
					to = all[i].stop
				}
			} else {
				from = all[i].begin
				if n+1 < len(in) {
					to = leadsTo(words, all[in[n+1]].begin, all[i].stop)
				}
				if n > 0 {
					from = leadsTo(words, all[i].begin, all[in[n-1]].stop)
				}
			}
			all[i].ahead = all[i].begin - from
			all[i].beside = append(slices.Clone(words[from:all[i].begin]), words[all[i].end:max(to, all[i].end)]...)
		}
		if len(in) == 0 && end > part {
			var texts []string
			for _, w := range words[part:end] {
				texts = append(texts, w.text)
			}
			left = append(left, typed{strings.Join(texts, " "), part})
		}
		part = max(end, part+1)
		if end < len(words) {
			part = end + 1
		}
	}
	return left
}

// leadsTo is where the words begin that lead to a figure, as 'dropping to' does.
func leadsTo(words []toldWord, figure, from int) int {
	at := figure
	if at > from && words[at-1].low == "to" {
		at--
		for at > from && at > figure-4 && !startsWithFigure(words[at-1].low) && (at == figure-1 || tellsWord(words[at-1].low) || words[at-1].low == "down" || words[at-1].low == "up") {
			at--
		}
	}
	return at
}

// keyOfFigure is the key that a figure belongs to, by the longest words beside it and its unit; -1 for none.
func keyOfFigure(f toldFigure, keys []toldKey, used map[int]bool, last quantity.Unit) (best int, said string) {
	best = -1
	if toBe(f) {
		return best, ""
	}
	alike := func(k toldKey) bool {
		return last != quantity.None && len(k.units) > 0 && quantity.DimensionOf(k.units[0]) == quantity.DimensionOf(last)
	}
	for i, k := range keys {
		if used[i] && k.of.form != asAtSpeeds && k.of.form != asAtTimes || !k.takes(f) {
			continue
		}
		for _, w := range k.words {
			if (len(w) > len(said) || len(w) == len(said) && alike(k) && !alike(keys[best])) && saidIn(f.beside, w) {
				best, said = i, w
			}
		}
	}
	if best >= 0 || f.unit == quantity.None || byHowMuch(f) {
		return best, said
	}
	for i, k := range keys { // by the unit, where one takes it
		if k.takes(f) && !used[i] && len(k.units) > 0 {
			if best >= 0 {
				return -1, ""
			}
			best = i
		}
	}
	return best, ""
}

// takes reports a key that a figure may belong to by its unit.
func (k toldKey) takes(f toldFigure) bool {
	if k.of.name == "hold" && f.time == "" {
		return false
	}
	if f.unit == quantity.None {
		return len(k.units) == 0 || quantity.DimensionOf(k.units[0]) != quantity.Time
	}
	is := quantity.DimensionOf(f.unit)
	if f.unit == quantity.Inch && slices.Contains(k.units, quantity.InHg) {
		return true
	}
	if len(k.units) == 0 {
		return slices.Contains(amountsIn[k.of.name], is)
	}
	return is == quantity.DimensionOf(k.units[0])
}

// saidIn reports words that stand among others, one behind the other.
func saidIn(words []toldWord, phrase string) bool {
	fields := strings.Fields(phrase)
	for i := 0; i+len(fields) <= len(words); i++ {
		same := true
		for j, f := range fields {
			same = same && strings.TrimRight(words[i+j].low, "'") == f
		}
		if same {
			return true
		}
	}
	return false
}

// toBe reports a figure that was not read: one that should have been, or is denied.
func toBe(f toldFigure) bool {
	return slices.ContainsFunc(mustBe, func(w string) bool { return saidIn(f.beside, w) }) || saidIn(f.beside, "never") || saidIn(f.beside, "not")
}

// byHowMuch reports a figure by which something changed.
func byHowMuch(f toldFigure) bool {
	changed := slices.ContainsFunc([]string{"lost", "loses", "dropped", "drops", "fell", "falls", "by", "down", "up"}, func(s string) bool { return saidIn(f.beside, s) })
	return changed && !saidIn(f.beside, "to")
}
