package job

import (
	"cmp"
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// toldInSection writes what one text tells of cylinders in the place of a test's keys as the key for it; "" for any
// other text.
func (r *reader) toldInSection(section, text string, keys []key) string {
	name := cmp.Or(byCylinderIn[section], listKeyOf(keys))
	switch plain := fold(text); {
	case section == "leakage":
		name = "dry"
	case section == "balance" && (strings.Contains(plain, "drop") || strings.Contains(plain, "difference") || strings.Contains(plain, "no change")):
		name = "drop"
	}
	figures, unit := unitBehind(text, keys)
	all, loose := r.toldUnder(section+"."+name, figures)
	if name == "" || len(all) == 0 || len(loose) > 1 {
		return ""
	}
	asked := ""
	for i, c := range all {
		switch {
		case c.raw && len(wordsAt(section, name)) > 0:
			asked += ", and in the place of '...' what '" + short(c.value.text) + "' is: " + anyOf(wordsAt(section, name))
			all[i].value.text = ""
		case section == "leakage" && !c.raw:
			if all[i].value.text = leakWritten(c.value.text); all[i].value.text == "" {
				return ""
			}
		}
	}
	bare := func(c saying) bool { return isFigures(c.value.text) }
	if k := keyOf(keys, name); unit == "" && keyOf(keys, "unit").name != "" && len(k.units) == 0 && len(k.words) == 0 && slices.ContainsFunc(all, bare) {
		unit = "unit: " + cmp.Or(aloneUnits[section], "...") + ", "
	}
	hint := "write '" + section + ": {" + unit + name + ": " + writtenTold(all) + "}'" + asked
	if len(loose) > 0 {
		hint += "; '" + short(loose[0].text) + "' goes into 'findings' or 'notes'"
	}
	return hint
}

// wordsAt are the words that a test's values by cylinder may be.
func wordsAt(section, name string) []string {
	if section == "plugs" {
		return keyOf(plugKeys, "look").words
	}
	if k := keyOf(keysOf(fileKeys, section), name); k.form == asAllTexts {
		return k.words
	}
	return nil
}

// toldUnder takes apart what a text tells of cylinders under a label: wholly, or what can be made out of it with what
// is left over; nothing where that is too little.
func (r *reader) toldUnder(label, text string) (all []saying, loose []typed) {
	t := r.tellerOf(text, label)
	if t == nil {
		return nil, nil
	}
	if ways := t.wholly(); len(ways) == 1 {
		return ways[0], nil
	}
	all, loose = t.partly()
	all, _, sound := t.assigned(all)
	if !sound || len(all) < 2 || !t.stand(all) || !slices.ContainsFunc(all, func(c saying) bool { return !c.raw }) {
		return nil, nil
	}
	return all, loose
}

var (
	valveSide   = lazily(`(?i)\b(inlets?|intakes?|int|exhausts?|exh?|in)\b\.?`)
	bothInSlash = lazily(`(?i)^(\d[\d.]*) ?/ ?(\d[\d.]*) ?(thou|mm|in)?\b *(.*)$`)
)

// valvesTold writes what one sentence tells of both valves, 'inlet 8 thou all, exhaust 12 thou all except 3 at 4 thou' and '8/12
// thou all except 3 exhaust tight', as the keys of the valves; "" for any other text.
func (r *reader) valvesTold(text string) string {
	sides := valvesApart(text)
	var out []string
	for _, name := range []string{"inlet", "exhaust"} {
		said := strings.Trim(sides[name], " ,;:=")
		if said == "" {
			continue
		}
		all, loose := r.toldUnder("valves."+name, said)
		switch {
		case len(all) > 0 && len(loose) == 0:
			for i, c := range all {
				if v, err := quantity.Parse(c.value.text); err == nil && v.Unit == quantity.None && v.Number >= 2 { // 10, beside 8 thou
					all[i].value.text += " thou"
				} else if plain := fold(c.value.text); plain == "tight" || strings.HasPrefix(plain, "no ") || plain == "zero" || plain == "shut" {
					all[i].value.text = "none"
				}
			}
			out = append(out, name+": "+writtenTold(all))
		case isReading(said):
			out = append(out, name+": {"+others+": "+said+"}")
		default:
			return ""
		}
	}
	if len(out) == 0 {
		return ""
	}
	return "write 'valves: {" + strings.Join(out, ", ") + "}'"
}

// valvesApart takes what is told of both valves apart, by the key of each.
func valvesApart(text string) map[string]string {
	sides := map[string]string{}
	put := func(name, words string) { sides[name] = strings.TrimSpace(sides[name] + " " + words) }
	if m := bothInSlash().FindStringSubmatch(strings.TrimSpace(text)); m != nil {
		all := strings.TrimPrefix(strings.TrimPrefix(strings.TrimPrefix(fold(m[4]), "on "), "for "), "all")
		put("inlet", "all "+strings.TrimSpace(m[1]+" "+m[3]))
		put("exhaust", "all "+strings.TrimSpace(m[2]+" "+m[3]))
		if at := valveSide().FindStringIndex(all); at != nil { // except no 3 exhaust tight
			put(sideOfValve(all[at[0]:at[1]]), strings.TrimSpace(all[:at[0]]+all[at[1]:]))
		} else if strings.Trim(all, " ,.;") != "" {
			return nil
		}
		return sides
	}
	at := valveSide().FindStringIndex(text)
	if at == nil || strings.TrimSpace(text[:at[0]]) != "" {
		return nil
	}
	for at != nil {
		side := sideOfValve(text[at[0]:at[1]])
		text = text[at[1]:]
		if at = valveSide().FindStringIndex(text); at == nil {
			put(side, text)
			break
		}
		put(side, text[:at[0]])
		text, at = text[at[0]:], []int{0, at[1] - at[0]}
	}
	return sides
}

// sideOfValve is the key of the valve that a word names.
func sideOfValve(word string) string {
	if strings.HasPrefix(strings.ToLower(word), "ex") {
		return "exhaust"
	}
	return "inlet"
}
