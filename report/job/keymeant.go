package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"sync"

	"gaugesheet/diag/quantity"
	"gaugesheet/templates"
)

// otherKeys are what people call the keys of a job file.
var otherKeys = []Synonym{
	says("compression", "compression test; comp; comp test; compressions; cranking compression; compression readings; cyl; cylinder; cylinders; readings; psi"),
	says("dry", "dry test; after; after work; after repair; cold; hot; warm; cold compression; hot compression; warm compression; final; reading; readings; result; results; compression; values; numbers; pressure; pressures; psi; cyl; cylinders; last; peak"),
	says("wet", "wet test; with oil; oil test; after oil; wet compression"), says("first", "first stroke; first puff; first pulse; 1st; 1st stroke; initial"), says("again", "repeat; retest; re-test; second; 2nd; recheck"),
	says("unit", "units; in; gauge unit; uom"), says("order", "test order; tested in; order tested; sequence"),
	says("leakage", "leakdown; leak down; leak down test; leakdown test; cylinder leakage; leak; leaks; leak test; cylinder leak; leak-down"),
	says("loss", "lost; leak; leakage; leaks; percent; reading; readings; leakdown"), says("at", "where; place; places; from; heard; hears; heard at"), says("held", "holds; holding; pressure"), says("of", "supply; supplied; out of"),
	says("plugs", "spark plugs; sparkplugs; plug; sparks; spark plug"), says("looks", "look; plugs; condition; colour; color; colours; colors; appearance"), says("look", "looks; condition; colour; color"),
	says("fuel-pressure", "fuel; fuel pressure test; fuel press; fp; rail pressure"), says("key-on", "prime; koeo; ignition on; key on engine off; static; primed; pump on"), says("idle", "at idle; idling; running; koer; tickover; hot idle; warm idle; hot; warm; engine idle; engine running"),
	says("hose-off", "vacuum off; hose disconnected; vac off; regulator off; no vacuum; hose pulled"), says("hold", "leakdown; rest; residual; after; drop; holds; bleed down"), says("snap", "snap throttle; blip; wot; rev; full throttle"),
	says("volume", "fuel flow; fuel volume; fuel delivery; pump flow; pump volume; pump delivery"), says("ohms", "resistance; injector resistance; injector ohms; injector coils; coil resistance"), says("vacuum-line", "vac advance; vacuum advance; vac line; vacuum hose; vac hose"), says("starts", "opens; opens at; starts at; begins to open; begins at"), says("open", "fully open; fully open at; full open"), says("short", "stft; st; short term; short term trim; short trim"), says("long", "ltft; lt; long term; long term trim; long trim"), says("trims", "fuel trim; fuel trims; trim"), says("timing", "ignition timing; spark timing; timing check"),
	says("exhaust-gas", "emissions; emission; emission test; emissions test; gas analyser; gas analyzer; 4 gas; 5 gas; four gas; five gas; exhaust gases; exhaust analysis; smog"), says("balance", "power balance; cylinder balance; cylinder drop; drop test; cylinder balance test; power balance test; cylinder drop test; cylinder cut out; balance test"),
	says("injectors", "injector; injector test; injector flow; flow test; injector flow test; fuel injectors"), says("other-readings", "other; other reading; others; misc; miscellaneous"), says("starting", "starter; starter draw; starter test; cranking test"),
	says("oil-pressure", "oil press; oilpressure; oil; oil psi"), says("vacuum", "manifold vacuum; vac; intake vacuum"), says("magnetos", "mags; mag check; mag drop; mag drops; magneto check; magneto drop; magneto; run up"), says("heads", "cht; chts; head temps; head temperatures; cylinder head temps; cylinder head temperatures; cylinder head temperature"), says("crankcase", "crankcase pressure; blow by; blowby; blow-by"), says("return", "returns; return flow; leak off; leak-off; leakoff; injector leak off; injector leakoff; injector return; injector leak back; leak back; leak off test; injector returns; return test; back leakage"), says("cooling", "cooling system; coolant; radiator; pressure test"),
	says("borescope", "camera; scope; endoscope; boroscope; bore scope"), says("coolant-gas-test", "block test; block tester; gas test; combustion gas; combustion leak; combustion leak test; combustion gas test; head test; hydrocarbon test; co2 test; head gasket test; chemical test"),
	says("technician", "mechanic; tech; tested by; done by; tester; operator; engineer; fitter; name; who; by"), says("number", "no; nr; job number; job no; id; ref; reference; work order; ro; ticket; wo; num; order number; workorder"),
	says("date", "day; when; tested; tested on; test date"), says("reason", "why; purpose; notes; note; problem; request; for"), says("complaints", "customer says; customer states; customer complains of; owner says; complaint; symptoms; symptom; problem; problems; concern; concerns; fault; faults; issue; issues"),
	says("customer", "owner; client; cust; name; bill to"), says("phone", "tel; telephone; mobile; cell; phone number"), says("email", "e-mail; mail"), says("address", "addr; street"),
	says("vehicle", "pickup; aircraft; airplane; aeroplane; plane; tractor; lorry; combine; forklift; digger; excavator; mower; generator; genset; quad; atv; car; truck; van; bike; motorcycle; boat; machine; auto; veh; unit"), says("description", "marque; marke; marca; make; model; make and model; year; type; car; desc; what; name; vehicle"),
	says("vin", "chassis; hull number; hull; hin; airframe number; chassis number; frame; frame number; serial; serial number; vin number; vin no"), says("plate", "reg; tail number; tail no; tail; fleet number; fleet no; unit number; unit no; registration; rego; licence; license; license plate; licence plate; number plate; tag; tags; lic"),
	says("odometer", "mileage; miles; tach; tach time; hobbs; hobbs time; hour meter; hourmeter; total time; ttaf; smoh; odo; km; kms; kilometers; kilometres; clock; hours; milage; mi"), says("engine-number", "engine no; engine serial; engine id; motor number"), says("done", "work; repair; repairs; fixed; job; what"), says("work-done", "done; history; work; repairs; parts fitted; done already; already replaced; replaced; renewed; already done; previous work"),
	says("state-on-arrival", "arrived; arrival; came in; on arrival; towed in; as received"), says("cold-idle", "cold; cold start; when cold; on cold start; just started"), says("valves", "valve clearance; valve clearances; clearance; clearances; tappets; tappet clearance; lash"), says("points-gap", "points; point gap; contact gap; breaker gap"), says("base", "static; static timing; pump; pump timing; spill; injection timing; initial"), says("reading", "value; measured; result; was; reads; read"), says("glow", "glow plugs; glow plug; glowplugs; glowplug; heater plugs"), says("codes", "dtc; dtcs; fault codes; trouble codes; code; obd"),
	says("engine", "motor; eng; temp; temperature; engine temp; engine temperature; warm; state"), says("layout", "type; configuration; config; cylinders; engine; cyl; kind; style; arrangement"), says("fuel", "burns; gas; runs on; fuel type; petrol"),
	says("displacement", "size; capacity; cc; ci; cid; litres; liters; swept volume; engine size; volume; l"), says("compression-ratio", "ratio; cr; comp ratio; compression"), says("firing-order", "firing; order; fire order; firingorder; fo"),
	says("first-bank", "cylinder 1; number 1; no 1; bank 1; first cylinder; cyl 1"), says("charging", "turbo; aspiration; boost; induction; supercharged; turbocharged"), says("cycle", "stroke; strokes"),
	says("conditions", "test done; how tested; tested how; condition; test; testing; tested; setup; set up; set-up; test conditions; how; circumstances"), says("throttle", "wot; throttle position; pedal; gas pedal; butterfly"), says("plugs-out", "plugs; all plugs out; plugs removed; plug; spark plugs"),
	says("strokes", "coups; tours; hübe; giri; puffs; revolutions; revs; pulses; turns; compressions; cranks; hits; counts; kicks; pulls; kicks of the starter"), says("cranking", "crank; crank rpm; rpm; cranking speed; speed; crank speed; cranking rpm; starter speed"), says("battery", "batteries; volts; voltage; batt; charger; battery voltage"),
	says("coolant", "temp; temperature; water; water temp; coolant temp; coolant temperature"), says("altitude", "elevation; height; above sea level; alt"), says("barometer", "baro; air pressure; atmospheric; barometric pressure"),
	says("gauges", "gauge; tester; tools; equipment; instruments; gage; gages"), says("range", "scale; max; maximum; dial; full scale"), says("accuracy", "class; error; grade; tolerance"),
	says("limits", "limit; spec; specs; specification; specifications; manual; book; book figures; standard; min; minimum"), says("minimum", "min; least; lowest allowed; spec; at least"), says("difference", "max diff; max difference; maximum difference; diff; biggest difference"), says("spread", "variation; difference; max spread; max variation; tolerance"),
	says("source", "from; manual; book; reference; page; ref"), says("notes", "note; remarks; comments; comment; remark; memo"), says("findings", "found; observations; finding; observed; seen"), says("recommended", "recommend; recommendations; recommendation; to do; advise; advised; needed; needs; parts needed; work needed; needs done; to be done"),
	says("shop", "garage; workshop; company; business; firm"), says("sheet", "form; report; kind; output"), says("photos", "photo; pictures; pics; images; picture"), says("oil", "dose; ml; amount; oil dose; oil added"),
}

// keysCalled gives the keys that people call by a word.
func keysCalled(word string) []string { return keysByWord()[plainWords(word)] }

var keysByWord = sync.OnceValue(func() map[string][]string {
	out := map[string][]string{}
	for _, s := range slices.Concat(otherKeys, keysElsewhere) {
		for _, w := range s.Words {
			out[plainWords(w)] = append(out[plainWords(w)], s.Means)
		}
	}
	return out
})

// A meantKey is what an unknown key was probably meant to be.
type meantKey struct {
	name    string // "" for none
	section string // that it stands under, where that is another one and only one
	hint    string // what to say of it
}

// keyMeant gives the key that an unknown one of a section was probably meant to be.
func keyMeant(e entry, section string, known []string) meantKey {
	meant := ""
	plain := strings.NewReplacer(" ", "-", "_", "-").Replace(fold(e.key))
	alone := section != "" && keyOf(fileKeys, plain).name != ""
	if section == "" {
		if place := placeTaking(fold(e.key), e.value); place != "" { // fuel: petrol
			return meantKey{fold(e.key), place, belongs(fold(e.key), e.value, []string{place})}
		}
	}
	if section == "" && slices.Contains(keysCalled(e.key), "date") && e.value != nil && e.value.kind == scalar && dateHint(e.value.text) != usualDate { // tested: 5 May 2026
		return meantKey{"date", "job", belongs("date", e.value, []string{"job"})}
	}
	for _, name := range keysCalled(e.key) {
		words := name == "dry" && e.value != nil && e.value.kind == scalar && !strings.ContainsAny(e.value.text, "0123456789") // cold: yes
		if slices.Contains(known, name) && meant == "" && !words && !(alone && e.value != nil && e.value.kind == mapping) {
			meant = name
		}
	}
	elsewhere := placesElsewhere(plain, section, e.value)
	if section == "" && len(elsewhere) > 3 { // unit
		return meantKey{hint: belongs(plain, e.value, elsewhere[:1]) + ", or under another test"}
	}
	if hint := below(e, section, plain); hint != "" && meant == "" {
		return meantKey{hint: hint}
	}
	if meant == "" && !alone && len(elsewhere) == 0 && !(section == "" && e.value != nil && e.value.kind == scalar && len(placesOf(plain)) > 0 && hasUnit(e.value.text)) && (section != "" || len(keysCalled(e.key)) == 0) {
		meant = nearest(e.key, known)
	}
	if meant == "" && section == "" && len(elsewhere) == 0 && len(keysCalled(e.key)) == 0 {
		meant = nearestCalled(e.key, known)
	}
	switch {
	case meant != "":
		return meantKey{name: meant, hint: fmt.Sprintf("did you mean '%s'?", meant)}
	case len(elsewhere) == 1:
		return meantKey{plain, elsewhere[0], belongs(plain, e.value, elsewhere)}
	case len(elsewhere) > 0 && len(elsewhere) <= 3:
		return meantKey{hint: belongs(plain, e.value, elsewhere)}
	case alone:
		return meantKey{hint: "it stands by itself, not indented: '" + plain + ": ...'"}
	}
	return calledElsewhere(e, section, plain, known)
}

// nearestCalled is the known key that people call by a name which a slip is close to: valve
// clerances; "" for none, and for what is too short to tell.
func nearestCalled(name string, known []string) string {
	const enough = 8 // letters that one slip leaves alone
	if len(name) < enough {
		return ""
	}
	var words []string
	for _, s := range otherKeys {
		if slices.Contains(known, s.Means) {
			for _, w := range s.Words {
				if len(w) >= enough && len(w) <= len(name)+2 && len(name) <= len(w)+2 {
					words = append(words, w)
				}
			}
		}
	}
	near := templates.Nearest(plainWords(name), words)
	if shared(plainWords(name), near) < len(near)-1 { // fuel flow is no fuel trim
		return ""
	}
	for _, means := range keysCalled(near) {
		if slices.Contains(known, means) {
			return means
		}
	}
	return ""
}

// calledElsewhere gives what a key that is none of its section was probably meant to be by
// what people call keys of others, or by the words that it begins with.
func calledElsewhere(e entry, section, plain string, known []string) meantKey {
	for _, name := range keysCalled(e.key) {
		if places := placesOf(name); len(places) > 0 && fits(name, e.value) {
			return meantKey{name, places[0], belongs(name, e.value, places[:1])}
		}
		if keyOf(fileKeys, name).name != "" && section != "" {
			return meantKey{hint: "it stands by itself, not indented: '" + name + ": ...'"}
		}
	}
	if hint := ofGauge(e, section, plain); hint != "" {
		return meantKey{hint: hint}
	}
	if name := beginsAsKey(e.key, known); name != "" {
		return meantKey{name: name, hint: "did you mean '" + name + ":'? what else is said of it goes into keys of its own"}
	}
	return meantKey{hint: cmp.Or(otherReading(e, section), "expected here: "+strings.Join(known, ", "))}
}

// beginsAsKey is the key that one with more said behind it begins as, 'comp test hot, plugs
// out'; "" for any other.
func beginsAsKey(text string, known []string) string {
	fields := strings.Fields(text)
	if len(fields) < 3 {
		return ""
	}
	for _, first := range []string{strings.Join(fields[:2], " "), fields[0]} {
		for _, name := range keysCalled(strings.TrimRight(first, ",")) {
			if slices.Contains(known, name) {
				return name
			}
		}
	}
	return ""
}

// ofGauge answers a key of the gauge that a test is made with, written in the section
// of the test; "" for any other.
func ofGauge(e entry, section, name string) string {
	test := cmp.Or(GaugeOf(section), section)
	if section == "fuel-pressure" {
		test = "fuel"
	}
	k := keyOf(gaugesKeys, test)
	if k.name == "" || keyOf(k.keys, name).name != name {
		return ""
	}
	text := "..."
	if e.value != nil && e.value.kind == scalar && !isEmpty(e.value) && len(e.value.text) <= longestShown {
		text = e.value.text
	}
	return "it is the gauge's: write 'gauges: {" + test + ": {" + name + ": " + text + "}}'"
}

// placesElsewhere are the sections under which a key of this name, with this value, stands;
// where none takes the value, the only one in which it is a word, unless keys stand below it.
func placesElsewhere(name, section string, value *node) []string {
	places := slices.DeleteFunc(placesOf(name), func(string) bool { return !fits(name, value) })
	word := wordElsewhere(name, section)
	switch {
	case len(word) > 0 && value != nil && value.kind == mapping:
		return nil
	case len(places) > 0:
		return places
	case value != nil && value.kind == scalar && hasUnit(value.text): // charging: 14.2 V
		return nil
	}
	return word
}

// wordElsewhere is the only section with a key of words of some name, another one.
func wordElsewhere(name, section string) []string {
	if places := placesOf(name); len(places) == 1 && section != places[0] && keyOf(keysOf(fileKeys, places[0]), name).form == asWord {
		return places
	}
	return nil
}

// below answers a key that stands under another one of its section, and a speed
// under which readings stand; "" for none.
func below(e entry, section, name string) string {
	value := "..."
	if e.value != nil && e.value.kind == scalar && !isEmpty(e.value) {
		value = short(e.value.text)
	}
	keys := fileKeys
	for _, part := range strings.Split(section, ".") {
		keys = keysOf(keys, part)
	}
	for _, k := range keys {
		if k.form == asAtSpeeds && (isSpeed(e.key) || isWhole(name)) {
			speed := e.key
			if isWhole(name) {
				speed += " rpm"
			}
			return "write '" + k.name + ": {" + speed + ": " + value + "}'"
		}
		inner := keyOf(k.keys, name)
		if inner.name == "" || k.name == "limits" || k.form != asGroup && k.form != asMeasured && !k.speeds {
			continue
		}
		under := k.name
		if k.speeds {
			under = "idle"
		}
		if k.form == asMeasured {
			return "write '" + under + ": {reading: ..., " + name + ": " + value + "}'"
		}
		return "write '" + under + ": {" + name + ": " + value + "}'"
	}
	return ""
}

// placeTaking gives the section with a key of a name that takes a word; "" for
// none.
func placeTaking(name string, value *node) string {
	for _, section := range placesOf(name) {
		k := keyOf(keysOf(fileKeys, section), name)
		if value == nil || value.kind != scalar || len(k.words) == 0 {
			continue
		}
		if word, answer := vocabularyOf(k.says).find(value.text, k.words); word != "" || answer != "" && name == "fuel" { // fuel: 50:1
			return section
		}
	}
	return ""
}

// fits reports that a value may be one of a key, as far as its unit tells.
func fits(name string, value *node) bool {
	for _, section := range fileKeys { // a word is none of figures
		k := keyOf(section.keys, name)
		if k.form == asWord && value != nil && value.kind == scalar && strings.ContainsAny(value.text, "0123456789") {
			word, _ := vocabularyOf(k.says).find(value.text, k.words)
			return word != ""
		}
	}
	if value == nil || value.kind != scalar || amountsIn[name] == nil {
		return true
	}
	v, err := quantity.Parse(value.text)
	return err != nil || v.Unit == quantity.None || slices.Contains(amountsIn[name], quantity.DimensionOf(v.Unit))
}

// belongs says under which section a key stands, with what to type.
func belongs(name string, value *node, sections []string) string {
	text := "..."
	if value != nil && value.kind == scalar && !isEmpty(value) && len(value.text) <= longestShown {
		text = value.text
	}
	lines := make([]string, len(sections))
	for i, s := range sections {
		inner := text
		if under := aloneUnder[s+"."+name]; under != "" && text != "..." && startsWithFigure(text) {
			inner = "{" + under + ": " + text + "}"
		}
		lines[i] = "'" + s + ": {" + name + ": " + inner + "}'"
	}
	return "it stands under " + anyOf(quoted(sections)) + ": write " + strings.Join(lines, " or ")
}

// longestShown is how long a value may be to be shown in what to type.
const longestShown = 30

func quoted(words []string) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = "'" + w + "'"
	}
	return out
}

// byCylinderIn are the keys under which cylinders stand that were written in
// their section without one.
var byCylinderIn = map[string]string{"compression": "dry", "leakage": "loss", "plugs": "looks", "valves": "exhaust", "injectors": "before", "balance": "speed"}

// heldOf is what a section of leakage names as the supply, or the usual 100.
func heldOf(n *node) string {
	for _, name := range []string{"of", "supply", "supplied"} {
		if v := n.get(name); v != nil && v.kind == scalar && leadingNumber(v.text) != "" {
			return leadingNumber(v.text)
		}
	}
	return "100"
}

func leadingNumber(text string) string {
	end := 0
	for end < len(text) && strings.ContainsRune("0123456789.", rune(text[end])) {
		end++
	}
	return text[:end]
}

// keysUnder are the keys of a section by its path in the file.
func keysUnder(section string) []key {
	keys := fileKeys
	for _, part := range strings.Split(section, ".") {
		keys = keysOf(keys, part)
	}
	return keys
}

// cylinderAsKey answers a cylinder that stands in the place of a key, once for
// the cylinders of a section.
func (r *reader) cylinderAsKey(n *node, i int, section string) bool {
	isOne := func(name string) bool {
		word := cylinderWord(name)
		_, isBank := r.bankNamed(name)
		return isBank || r.isCylinder(word) && (startsWithFigure(word) || slices.Contains(r.cylinderNames, word))
	}
	if !isOne(n.entries[i].key) {
		return false
	}
	var texts []string
	bare := false // a number has no unit
	for j, e := range n.entries {
		if !isOne(e.key) {
			continue
		}
		if j < i {
			return true // said with the first
		}
		if e.value.kind == scalar {
			texts = append(texts, cylinderWord(e.key)+": "+short(e.value.text))
			bare = bare || isFigures(e.value.text)
		}
	}
	rows := rowsOf(slices.DeleteFunc(slices.Clone(n.entries), func(e entry) bool { return !isOne(e.key) }), cylinderWord)
	last := section[strings.LastIndexByte(section, '.')+1:]
	to, hint := cmp.Or(r.byUnit(n, section, isOne), byCylinderIn[last], listKeyOf(keysUnder(section))), "put it under the key that it is a reading of"
	line := "{" + strings.Join(texts, ", ") + "}"
	switch {
	case rows != "" && section == "":
		hint = "write each key once, for all of them: 'compression: {unit: psi, " + rows + "}', with the gauge's unit"
	case rows != "":
		hint = "write each key once, for all of them: '" + rows + "'"
	case section == "" || section == "compression" && n.get("unit") == nil && bare:
		hint = "write 'compression: {unit: " + cmp.Or(string(firstUnit(n)), "psi") + ", dry: " + line + "}', with the gauge's unit"
	case last == "balance" && dropsSaid(n, isOne) != "":
		hint = "write '" + dropsSaid(n, isOne) + "'"
	case last == "valves" && turnedPair(n) != "":
		hint = turnedPair(n)
	case last == "leakage" && leaksAsKeys(n, line, n.entries[i], bare, isOne) != "":
		hint = leaksAsKeys(n, line, n.entries[i], bare, isOne)
	case strings.Contains(to, "."):
		hint = "they are of another test: write '" + strings.Replace(to, ".", ": {", 1) + ": " + line + "}'"
	case to != "":
		hint = "write '" + to + ": " + line + "'"
	}
	r.report(n.entries[i].pos, hint, "%s has %s %s in the place of a key", orFile(section), r.cylinderWord, short(cylinderWord(n.entries[i].key)))
	return true
}
