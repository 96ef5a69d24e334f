package job

import (
	"cmp"
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// A keyAnswer is what is answered to keys that people write in a section which has
// none of that kind: $ stands for the value, and the section "" for the file.
type keyAnswer struct {
	section string
	words   []string
	answer  string
}

func toKey(section, words, answer string) keyAnswer {
	return keyAnswer{section, strings.Split(words, "; "), answer}
}

var keyAnswers = []keyAnswer{
	toKey("engine", "injection; efi; fuel injection; injected; carburetor; carburettor; carb; carbs; carburetors; carburettors; carburation; carburetion; induction system; fuel system; fuelling; fueling; injectors",
		"the kind of fuel system stands with its pressure: 'fuel-pressure: {system: carburettor, ...}'; where that was not read it goes into 'notes'"),
	toKey("engine", "serial; serial number; serial no; number; engine number; id; stamp; block number; casting", "it stands under 'vehicle': write 'vehicle: {engine-number: $}'"),
	toKey("engine", "valves; valve count; number of valves; valves per cylinder; ignition; points; distributor; coil; coils; magneto; magnetos; spark; condition; rebuilt; overhaul; modified; mods; exhaust; oil; oil type; weight; power; hp; horsepower; kw; torque; rotation",
		"no key of the engine has that: write it into 'notes'"),
	toKey("exhaust-gas", "lambda; afr", "lambda is worked out from co, hc, co2 and o2: leave it out"),
	toKey("plugs", "brand; make; maker; type; part; part number; model; plug type; code; number", "no key has that: write it into 'notes'"),
	toKey("compression", "gauge; tester; tool", "the gauge stands by itself: write 'gauges: {compression: {range: $}}'"),
	toKey("compression", "average; mean; avg; median; percent; percentage; sum; total; verdict; result in words", "that is worked out from the readings: leave it out"),
	toKey("compression", "before; before work; before repair; as found", "what was read before the work has a section of its own: 'before: {compression: {unit: psi, dry: $}}'"),
	toKey("fuel-pressure", "off; engine off; key off; switched off; after shut off; shut off; shutoff; after shutdown; engine stopped", "with the time since switching off, write 'hold: {5 min: $}'"),
	toKey("fuel-pressure", "rail; rail pressure; schrader; port; test port; at the rail; high side; high pressure; common rail", "with the pump running and the engine off it is 'key-on: $', at idle 'idle: $'; of a high-pressure rail write 'other-readings: {rail pressure: $}'"),
	toKey("fuel-pressure", "cranking; crank; while cranking", "while cranking it has no key: write 'other-readings: {fuel pressure cranking: $}'"),
	toKey("fuel-pressure", "held; holds; residual; residual pressure; rest pressure; drops to; falls to", "with the time since switching off, write 'hold: $', such as 'hold: 30 psi after 5 min'"),
	toKey("fuel-pressure.limits", "held; holds; residual; residual pressure", "with the time since switching off, write 'hold: $', such as 'hold: at least 30 psi after 5 min'"),
	toKey("fuel-pressure", "pinched; pinch; pinch return; return pinch; return pinched off; pinched return; return clamped; clamped; deadhead; dead head; deadheaded", "with the return pinched shut it is 'return-pinched: $'"),
	toKey("vacuum", "at 2000; at 2000 rpm; 2000 rpm; at 2500; at 2500 rpm; 2500 rpm; 2500; at 3000; at 3000 rpm; 3000 rpm; high idle; fast idle; at speed; with speed", "with the speed at which it was held, write 'held: {at: 2500 rpm, reading: $}'"),
	toKey("trims", "bank 1; bank 2; bank1; bank2; b1; b2; left; right; long; short; long term; short term; ltft; stft", "the speed comes first, then the bank: 'idle: {bank 1: {short: 4, long: 14}}'"),
	toKey("rotors", "front; rear; rotor 1; rotor 2; middle", "the faces of each rotor stand together: 'faces: {front: [7.4, 7.2, 7.3], rear: [7.0, 6.9, 5.1]}'"),
	toKey("leakage", "held; holds; second gauge; cylinder gauge; regulated", "what was held of what was supplied is written for each cylinder, such as 'dry: [78/80, 76/80]'"),
	toKey("cooling", "bubbles; bubbling; gas bubbles; bubbles in the coolant", "write 'coolant: bubbles'"),
	toKey("oil-pressure.limits", "at-speed; at speed; speed; running", "of a speed, write '2000 rpm: $'"),
	toKey("", "fuel pump; fuel pump pressure; pump pressure; carb fuel pump; carb fuel pressure; carburetor fuel pressure; carburettor fuel pressure; mechanical pump; mechanical fuel pump", "the pump's pressure is that of the fuel: write 'fuel-pressure: {idle: $}' with the engine running, 'fuel-pressure: {key-on: $}' with it off"),
	toKey("", "carb; carbs; carburetor; carburettor; carburetors; carburettors; injection; efi", "write it into 'notes'; where the fuel pressure was read, the kind stands with it: 'fuel-pressure: {system: carburettor, ...}'"),
	toKey("", "after; after work; after repair; after the work; after the repair; now; today", "what was read after the work stands in the job by itself; what was read before it under 'before: {done: ..., compression: {...}}'"),
	toKey("", "mix; oil mix; fuel mix; premix; oil ratio; fuel oil ratio", "write 'engine: {fuel: two-stroke mix}', and the ratio into 'notes'"),
	toKey("", "lift pump; lift pump pressure; feed pump; supply pump; transfer pump; transfer pump pressure; low pressure pump", "write 'fuel-pressure: {system: \"diesel, lift pump\", idle: $}'"),
	toKey("", "mods; modifications; history; story; background; info; information; details; ignition; spark", "write it under 'notes', or under 'findings' where you saw it"),
}

// answered is the answer to a key that a section does not have, by what it is called,
// by its value or by what stands beside it; "" for none.
func (r *reader) answered(n *node, e entry, section string, keys []key) string {
	value := "..."
	if e.value.kind == scalar && !isEmpty(e.value) {
		value = short(e.value.text)
	} else if e.value.kind == list {
		value = short(entered(e.value))
	}
	if figure, words := leadingFigure(value, ""); figure != "" && slices.Contains([]string{"idle", "at idle", "idling", "at tickover"}, fold(words)) {
		value = figure
	}
	for _, before := range []string{"goes to ", "went to ", "goes up to ", "up to ", "rises to ", "jumps to "} { // goes to 80
		if len(value) > len(before) && strings.EqualFold(value[:len(before)], before) && startsWithFigure(value[len(before):]) {
			value = value[len(before):]
		}
	}
	plain := plainWords(e.key)
	if hint := limitBeside(section, plain, e.value, keys); hint != "" {
		return hint
	}
	if hint := r.bankAsKey(n, e, section, keys); hint != "" {
		return hint
	}
	if hint := wordUnder(n, e, keys); hint != "" {
		return hint
	}
	if hint := describedHint(n, section); hint != "" && slices.Contains(keysCalled(e.key), "description") && n.get("description") == nil {
		return hint
	}
	if hint := ofFile(e, section, plain, value); hint != "" {
		return hint
	}
	if hint := r.cylinderInKey(e, section); hint != "" {
		return hint
	}
	for _, a := range keyAnswers {
		if a.section == section && slices.Contains(a.words, plain) {
			return strings.ReplaceAll(a.answer, "$", value)
		}
	}
	if name := takesAlone(n, e, section, keys); name != "" {
		return "write '" + name + ": " + value + "'"
	}
	return ""
}

// otherReading answers what was measured under a name of its own; "" for what is no
// figure with its unit.
func otherReading(e entry, section string) string {
	if section != "" || e.value == nil || e.value.kind != scalar || !hasUnit(e.value.text) {
		return ""
	}
	return "what has no key of its own stands under 'other-readings': write 'other-readings: {" + short(e.key) + ": " + short(e.value.text) + "}'"
}

// ofFile answers a key of the file by what its value tells: limits, oil that is used, work
// that was done, and the name of a test with that of its key behind it.
func ofFile(e entry, section, plain, value string) string {
	if section != "" {
		return ""
	}
	if limits := keysOf(keysOf(fileKeys, "compression"), "limits"); strings.Contains(value, ",") && e.value.kind == scalar {
		hint := limitsHint(plain+" "+e.value.text, limits)
		if slices.Contains(keysCalled(e.key), "limits") || plain == "limits" {
			hint = cmp.Or(hint, limitsHint(e.value.text, limits))
		}
		if hint != "" { // min: 24 bar, max difference 4 bar
			return "write 'compression: {" + strings.Trim(strings.TrimPrefix(hint, "write "), "'") + "}'"
		}
	}
	if p, err := quantity.Scan(strings.Join(strings.Fields(value)[:min(2, len(strings.Fields(value)))], " ")); plain == "oil" && err == nil && len(p.Parts) > 0 && quantity.DimensionOf(p.Parts[0].Value.Unit) == quantity.Volume { // oil: 1 pint a day
		return "what it uses stands under 'job': write 'job: {oil-use: " + value + "}'"
	}
	if isEmpty(e.value) && strings.HasPrefix(plain, "after ") { // after valve job:
		return "what was read after the work stands in the job by itself; what was read before it under 'before: {done: " + strings.TrimPrefix(plain, "after ") + ", compression: {...}}'"
	}
	if test, name, ok := strings.Cut(plain, " "); ok { // comp dry
		for _, called := range append([]string{test}, keysCalled(test)...) {
			if k := keyOf(fileKeys, called); k.form == asTestSection && keyOf(k.keys, name).name == name {
				return "write '" + k.name + ": {" + name + ": " + value + "}'"
			}
		}
	}
	return ""
}

// describedHint puts into one text what is said of a vehicle under keys of its own, its
// make, model and year; "" where there is only one of them.
func describedHint(n *node, section string) string {
	if section != "vehicle" {
		return ""
	}
	var parts []string
	for _, e := range n.entries {
		if slices.Contains(keysCalled(e.key), "description") && e.value.kind == scalar && !isEmpty(e.value) {
			if fold(e.key) == "year" {
				parts = append([]string{e.value.text}, parts...)
				continue
			}
			parts = append(parts, e.value.text)
		}
	}
	if len(parts) < 2 {
		return ""
	}
	return "all of it is one text: 'description: " + short(strings.Join(parts, " ")) + "'"
}

// hasUnit reports a figure with its unit.
func hasUnit(text string) bool {
	v, err := quantity.Parse(text)
	return err == nil && v.Unit != quantity.None
}

// cylinderInKey answers a test with its cylinder for a key: 'leakdown cyl 2: 70% exhaust';
// "" for any other.
func (r *reader) cylinderInKey(e entry, section string) string {
	fields := strings.Fields(e.key)
	if section != "" || len(fields) < 2 || e.value.kind != scalar || isEmpty(e.value) {
		return ""
	}
	for size := 1; size <= min(2, len(fields)-1); size++ {
		cylinder := cylinderWord(strings.Join(fields[len(fields)-size:], " "))
		test := strings.Join(fields[:len(fields)-size], " ")
		names := append([]string{strings.ReplaceAll(fold(test), " ", "-")}, keysCalled(test)...)
		if !isWhole(cylinder) || r.cylinderNames != nil && !slices.Contains(r.cylinderNames, cylinder) {
			continue
		}
		for _, name := range names {
			k := keyOf(fileKeys, name)
			value := cylinder + ": " + short(e.value.text)
			switch under := byCylinderIn[name]; {
			case k.name == "leakage" && leakWritten(e.value.text) != "":
				return "write 'leakage: {dry: {" + cylinder + ": " + leakWritten(e.value.text) + "}}'"
			case k.name == "borescope":
				return "write 'borescope: {" + value + "}'"
			case k.name != "" && under != "":
				return "write '" + k.name + ": {" + under + ": {" + value + "}}'"
			}
		}
	}
	return ""
}

// takesAlone gives the one key of a section that takes a value, whatever the key is
// called before it: {timing: belt}, and {engine: cold, 45 F}, where it is not called
// anything.
func takesAlone(n *node, e entry, section string, keys []key) string {
	if section == "" || e.value.kind != scalar || len(e.value.text) > longestShown {
		return ""
	}
	name := ""
	switch {
	case nearest(e.key, keyNames(keys)) != "" && keyOf(fileKeys, fold(e.key)).name == "": // a slip of its name
	case !isEmpty(e.value) && below(e, section, fold(e.key)) == "" && !strings.ContainsAny(e.value.text, "0123456789"):
		for _, called := range keysCalled(e.key) {
			if keyOf(keys, called).name != "" {
				return ""
			}
		}
		name = keyTaking(key{keys: keys}, e.value.text)
	}
	if name == "" || n.get(name) != nil {
		return ""
	}
	return name
}

// valueAlone answers a value that stands in the place of a key, {engine: cold, 45 F},
// where one key of the section takes it.
func (r *reader) valueAlone(n *node, i int, where string, keys []key) bool {
	e := n.entries[i]
	if !r.isCut(e) {
		return false
	}
	name := keyTaking(key{keys: keys}, e.key)
	if v, err := quantity.Parse(e.key); name == "" && err == nil && v.Unit != quantity.None {
		for _, k := range keys {
			if k.form == asAmount && slices.Contains(amountsIn[k.name], quantity.DimensionOf(v.Unit)) && n.get(k.name) == nil {
				if name != "" {
					return false
				}
				name = k.name
			}
		}
	}
	if name == "" || n.get(name) != nil {
		return false
	}
	r.report(e.pos, "write '"+name+": "+short(e.key)+"'", "'%s'%s has no key", short(e.key), where)
	n.entries[i] = entry{name, e.pos, &node{pos: e.pos, text: e.key, plain: true, tag: "!!str"}}
	return true
}

// wordUnder answers a word for what stands under another key, in the place of a key:
// {idle: 18, steady: yes}.
func wordUnder(n *node, e entry, keys []key) string {
	if !saysYes(e.value) && !isEmpty(e.value) {
		return ""
	}
	for _, k := range keys {
		v := n.get(k.name)
		if k.form != asMeasured || v == nil || v.kind != scalar {
			continue
		}
		if name := keyTaking(key{keys: k.keys}, e.key); name != "" {
			return "write '" + k.name + ": {reading: " + short(v.text) + ", " + name + ": " + fold(e.key) + "}'"
		}
	}
	return ""
}

// limitBeside answers a limit that stands with the readings, in a group of them or
// beside it, where limits have a place of their own in the section.
func limitBeside(section, plain string, value *node, keys []key) string {
	if !slices.Contains([]string{"limit", "limits", "spec", "specs", "max", "maximum", "min", "minimum", "most", "allowed", "no more than", "at most", "at least"}, plain) || value.kind != scalar {
		return ""
	}
	root, of, below := strings.Cut(section, ".")
	limits := keyOf(keysOf(fileKeys, root), "limits")
	if limits.name == "" || root == "compression" || root == "fuel-pressure" || keyOf(limits.keys, "minimum").name != "" || !below && keyOf(keys, plain).name != "" {
		return ""
	}
	bound := ""
	if hasUnit(value.text) || isFigures(value.text) {
		switch plain {
		case "min", "minimum", "at least":
			bound = "at least "
		case "max", "maximum", "most", "no more than", "at most":
			bound = "at most "
		}
	}
	name := "..."
	if keyOf(limits.keys, of).name != "" {
		name = of
	}
	hint := "limits stand by themselves in the section: write '" + root + ": {limits: {" + name + ": " + bound + cmp.Or(short(value.text), "...") + "}}'"
	if name == "..." {
		hint += ", with the name of what it limits: " + anyOf(quoted(slices.DeleteFunc(keyNames(limits.keys), func(n string) bool { return n == "source" || n == "from" })))
	}
	return hint
}

// bankAsKey answers a bank in the place of a key of the engine: {front: [1, 3, 5], rear:
// [2, 4, 6]}.
func (r *reader) bankAsKey(n *node, e entry, section string, keys []key) string {
	if section != "engine" || keyOf(keys, "banks").name == "" || n.get("banks") != nil {
		return ""
	}
	var banks []string
	for _, one := range n.entries {
		if side := bankSide(one.key); side != "" && one.value.kind == list {
			banks = append(banks, side+": "+short(entered(one.value)))
		}
	}
	if bankSide(e.key) == "" || len(banks) < 2 {
		return ""
	}
	return "the banks stand together: write 'banks: {" + strings.Join(banks, ", ") + "}'"
}

// bankSide is the side that a word names a bank by, "" for none.
func bankSide(word string) string {
	sides := vocabularyOf("first bank")
	side, _ := sides.find(strings.TrimSuffix(fold(word), " bank"), sides.Words)
	return side
}
