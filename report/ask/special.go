package ask

import (
	"fmt"
	"strings"
)

// Questions whose answers are written in a way of their own.

// gaugeQuestions ask for the compression gauge, by its name in the shop profile
// or by what stands on it, and for what else decides about its readings.
func gaugeQuestions(*Session) []*question {
	return []*question{
		{path: "gauges.compression", say: "Compression gauge", hint: "its name in the shop profile, or such as 0-300 psi, 2 % of span, 5 psi", take: takeGauge,
			help: "range, accuracy and smallest division, with commas between."},
		text("conditions.cranking", "Cranking speed"), text("conditions.battery.cranking", "Battery while cranking"), yes("conditions.battery.charger", "Charger connected"),
		text("conditions.altitude", "Altitude of the shop"), text("conditions.coolant", "Coolant"), text("conditions.method", "Anything unusual in how it was done"),
	}
}

func takeGauge(_ *Session, line string) ([]entry, error) {
	parts := strings.Split(line, ",")
	if len(parts) == 1 && !strings.ContainsAny(line, "0123456789") {
		return []entry{at("gauges.compression", line)}, nil
	}
	var out []entry
	for i, key := range []string{"range", "accuracy", "division"} {
		if i < len(parts) && strings.TrimSpace(parts[i]) != "" {
			out = append(out, at("gauges.compression."+key, parts[i]))
		}
	}
	return out, nil
}

// trimQuestions ask for the trims of each bank.
func trimQuestions(*Session) []*question {
	one := func(speed, say string) *question {
		return &question{path: "trims." + speed, say: say, hint: "short, long of bank 1, then of bank 2, such as 4 14 3 12", state: "trims", take: takeTrims(speed)}
	}
	return []*question{one("idle", "Trims at idle"), one("2500 rpm", "Trims at 2500 rpm")}
}

func takeTrims(speed string) taker {
	return func(_ *Session, line string) ([]entry, error) {
		values := list(strings.NewReplacer(",", " ", ";", " ", "%", " ").Replace(line))
		if len(values) != 2 && len(values) != 4 {
			return nil, fmt.Errorf("found %s, expected two for each bank: short and long", counted(len(values)))
		}
		var out []entry
		for i, v := range values {
			out = append(out, entry{under("trims", speed, fmt.Sprintf("bank %d", i/2+1), []string{"short", "long"}[i%2]), scalar(v)})
		}
		return out, nil
	}
}

// gasAt asks for the gases at a speed.
func gasAt(speed, say string) *question {
	gases := []struct{ key, unit string }{{"co", "%"}, {"hc", "ppm"}, {"co2", "%"}, {"o2", "%"}}
	return &question{path: "exhaust-gas." + speed, say: say, hint: "CO %, HC ppm, CO2 %, O2 %, such as 0.4 120 14.6 0.9", state: "exhaust-gas", take: func(_ *Session, line string) ([]entry, error) {
		values := list(strings.NewReplacer("%", " ", "ppm", " ", ",", " ").Replace(line))
		if len(values) > len(gases) {
			return nil, fmt.Errorf("found %s, expected at most %d", counted(len(values)), len(gases))
		}
		var out []entry
		for i, v := range values {
			if v != notRecorded {
				out = append(out, entry{under("exhaust-gas", speed, gases[i].key), scalar(v + " " + gases[i].unit)})
			}
		}
		return out, nil
	}}
}

func liquidCooled(s *Session) bool { return s.draft.value("engine.cooling") != "air" }

// plugQuestions ask for gaps beside how the plugs look.
func plugQuestions(*Session) []*question {
	return []*question{
		{path: "plugs.gap", say: "Gap by the book", hint: "such as 1.1 mm", take: asText("plugs.gap")},
		{path: "gaps", say: "Gap of each", hint: "in order, or such as 3=1.3", take: takeGaps, show: byCylinderShown},
	}
}

// takeGaps puts each gap beside the look of its plug.
func takeGaps(s *Session, line string) ([]entry, error) {
	values, err := byName(s.placed(line), s.engine.Names(), true)
	if err != nil {
		return nil, err
	}
	looks := map[string]string{}
	for _, name := range append([]string{"all", others}, s.engine.Names()...) {
		path := under("plugs.looks", name)
		if look := s.draft.value(strings.Join(path, ".")); look != "" {
			looks[name] = look
		}
	}
	s.draft = without(s.draft, "plugs.looks")
	var out []entry
	for _, v := range values {
		out = append(out, entry{under("plugs.looks", v.name, "gap"), scalar(v.text)})
	}
	for _, name := range append([]string{others}, s.engine.Names()...) {
		look, own := looks[name]
		if !own {
			look = looks["all"]
		}
		switch {
		case look == "":
		case given(values, name):
			out = append(out, entry{under("plugs.looks", name, "look"), look})
		case own || name == others:
			out = append(out, entry{under("plugs.looks", name), look})
		}
	}
	return out, nil
}

func given(values []value, name string) bool {
	for _, v := range values {
		if v.name == name {
			return true
		}
	}
	return false
}

// without is a draft without what stands below a path.
func without(d draft, path string) draft {
	var out draft
	for _, e := range d {
		if !strings.HasPrefix(strings.Join(e.path, "."), path+".") {
			out = append(out, e)
		}
	}
	return out
}

// orderQuestion asks in which order the cylinders were tested.
func orderQuestion() *question {
	return &question{path: "compression.order", say: "Tested in the order", hint: "such as 1 3 5 7 2 4 6 8", take: func(_ *Session, line string) ([]entry, error) {
		return []entry{{strings.Split("compression.order", "."), flow(strings.FieldsFunc(strings.Trim(line, "[]"), func(r rune) bool { return r == ' ' || r == ',' || r == '-' }))}}, nil
	}}
}

const leakHelp = `percent of the supply that is lost, or held of supplied as in 72/80, and where the air is heard:
  exhaust, inlet, crankcase, coolant, neighbour, outside. Two places with + between: 3=34 exhaust+crankcase.`

// takeLeaks takes what each cylinder loses and where the air comes out.
func takeLeaks(s *Session, line string) ([]entry, error) {
	line = s.placed(line)
	values := pairs(line)
	if values == nil {
		var texts []string
		for _, w := range list(strings.NewReplacer(",", " ", ";", " ").Replace(line)) {
			if last := len(texts) - 1; last >= 0 && strings.Trim(w[:1], "0123456789-") != "" && !isState(w) {
				texts[last] += " " + w
				continue
			}
			texts = append(texts, w)
		}
		names := s.engine.Names()
		if len(texts) != len(names) {
			return nil, fmt.Errorf("found %s, expected %d in the order %s; or name those that were tested: 3=34 exhaust", counted(len(texts)), len(names), strings.Join(names, " "))
		}
		for i, t := range texts {
			if t != notRecorded {
				values = append(values, value{names[i], t})
			}
		}
	}
	var out []entry
	for _, v := range values {
		entries, err := leakOf(v)
		if err != nil {
			return nil, err
		}
		out = append(out, entries...)
	}
	return out, nil
}

// leakOf takes one cylinder: '34 exhaust', '72/80', 'not tested'.
func leakOf(v value) ([]entry, error) {
	loss, where, _ := strings.Cut(v.text, " ")
	if isState(v.text) || strings.HasPrefix(fold(v.text), "could") {
		return []entry{{under("leakage.dry", v.name), scalar(v.text)}}, nil
	}
	where = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(where), "%"))
	var out []entry
	held, of, isHeld := strings.Cut(loss, "/")
	switch {
	case isHeld && where == "":
		return []entry{{under("leakage.dry", v.name), scalar(loss)}}, nil
	case isHeld:
		out = append(out, entry{under("leakage.dry", v.name, "held"), scalar(held)}, entry{under("leakage.dry", v.name, "of"), scalar(of)})
	default:
		out = append(out, entry{under("leakage.dry", v.name, "loss"), scalar(strings.TrimSuffix(loss, "%") + " %")})
	}
	if where == "" {
		return out, nil
	}
	k := keyAt("leakage.dry.at")
	var places []string
	for _, typed := range manyWords(k, strings.NewReplacer("+", ",", " and ", ",").Replace(where)) {
		place, err := oneWord(k, typed)
		if err != nil {
			return nil, err
		}
		places = append(places, place)
	}
	return append(out, entry{under("leakage.dry", v.name, "at"), flow(places)}), nil
}

// leaksShown shows each cylinder with what it loses and where.
func leaksShown(s *Session, entries []entry) {
	for _, name := range append(s.engine.Names(), others) {
		var parts []string
		for _, e := range entries {
			if e.path[2] == name {
				parts = append(parts, shownValue(e.value))
			}
		}
		if len(parts) > 0 {
			s.say("= " + name + ": " + strings.Join(parts, " "))
		}
	}
}

// takeOther takes a reading of another kind: what, what it read, the limit.
func takeOther(_ *Session, line string) ([]entry, error) {
	parts := strings.Split(line, ",")
	if len(parts) < 2 {
		return nil, fmt.Errorf("found '%s', expected what was measured, a comma and what it read", line)
	}
	fields := make([]string, 0, 3)
	for i, key := range []string{"name", "reading", "limit"} {
		if i < len(parts) && strings.TrimSpace(parts[i]) != "" {
			fields = append(fields, key+": "+scalar(parts[i]))
		}
	}
	return []entry{{[]string{"other-readings"}, "[{" + strings.Join(fields, ", ") + "}]"}}, nil
}

// takeUntested takes tests that were not made, each with its reason.
func takeUntested(_ *Session, line string) ([]entry, error) {
	var out []entry
	for part := range strings.SplitSeq(line, ";") {
		test, reason, found := strings.Cut(part, ",")
		if strings.TrimSpace(test) == "" {
			continue
		}
		if !found {
			reason = "not tested"
		}
		out = append(out, entry{under("not-tested", strings.TrimSpace(test)), scalar(reason)})
	}
	return out, nil
}
