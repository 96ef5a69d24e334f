package job

import (
	"slices"
	"strings"
	"sync"
)

// A Vocabulary is what people write for the words of one kind. The reader, its
// hints, the schema and the help are made from it.
type Vocabulary struct {
	Name  string     // what the words are of, such as "fuel"
	Words []string   // as the job file has them
	Also  []Synonym  // understood in their place
	Asks  []Question // answered with what to type, since they may mean several things
	Else  string     // what to do with anything else
	heard func() heard
}

// heard are the words of a vocabulary in plain form: the synonyms that have each, by
// their places, and the answer to it.
type heard struct {
	also map[string][]int
	asks map[string]string
}

func (v Vocabulary) hear() heard {
	h := heard{map[string][]int{}, map[string]string{}}
	for i, s := range v.Also {
		for _, w := range s.Words {
			h.also[plainWords(w)] = append(h.also[plainWords(w)], i)
		}
	}
	for _, q := range v.Asks {
		for _, w := range q.Words {
			if _, answered := h.asks[plainWords(w)]; !answered {
				h.asks[plainWords(w)] = q.Answer
			}
		}
	}
	return h
}

// A Synonym is a word of the job file, and the other words that stand for it,
// in lower case.
type Synonym struct {
	Means string
	Words []string
}

// A Question is some words that may mean several things, in lower case, and
// what to type instead.
type Question struct {
	Words  []string
	Answer string
}

// says lists words that mean the same.
func says(means, words string) Synonym { return Synonym{means, strings.Split(words, "; ")} }

// asks lists words that are answered.
func asks(words, answer string) Question { return Question{strings.Split(words, "; "), answer} }

// vocabularyOf gives the vocabulary of a name; the zero one for none.
func vocabularyOf(name string) Vocabulary { return vocabulariesByName()[name] }

// vocabulariesByName has all of them; what a vocabulary hears is put together when it
// is first looked into.
var vocabulariesByName = sync.OnceValue(func() map[string]Vocabulary {
	index := make(map[string]Vocabulary, len(vocabularies))
	for _, v := range vocabularies {
		if _, twice := index[v.Name]; !twice {
			v.Asks = slices.Concat(v.Asks, wordsElsewhere[v.Name])
			v.heard = sync.OnceValue(v.hear)
			index[v.Name] = v
		}
	}
	return index
})

// find gives the word that a text stands for, among those that are taken where
// it stands, or the answer to it.
func (v Vocabulary) find(text string, taken []string) (word, answer string) {
	text = plainWords(text)
	if text == "" {
		return "", ""
	}
	for _, w := range taken {
		if plainOwn(w) == text {
			return w, ""
		}
	}
	if v.heard == nil { // the zero one
		return "", ""
	}
	heard := v.heard()
	for _, i := range heard.also[text] {
		if means := v.Also[i].Means; slices.Contains(taken, means) {
			return means, ""
		}
	}
	return "", heard.asks[text]
}

// answers tells whether a text is a word, a synonym or one that is answered.
func (v Vocabulary) answers(text string, taken []string) bool {
	word, answer := v.find(text, taken)
	return word != "" || answer != ""
}

// askedWithin gives the answer to words of several that stand in a sentence, the longest
// first; "" where there are none.
func (v Vocabulary) askedWithin(text string) string {
	text, best, answer := " "+plainWords(text)+" ", "", ""
	for _, q := range v.Asks {
		for _, w := range q.Words {
			if len(w) > len(best) && len(w) >= shortestWithin && strings.Contains(text, " "+plainWords(w)+" ") {
				best, answer = w, q.Answer
			}
		}
	}
	return answer
}

// shortestWithin is how long words are that say enough within a sentence.
const shortestWithin = 5

// plainOf remembers the plain form of the words that a job file may hold: they are few
// and compared with whatever stands in one.
var plainOf sync.Map

func plainOwn(word string) string {
	if plain, known := plainOf.Load(word); known {
		return plain.(string)
	}
	plain := plainWords(word)
	plainOf.Store(word, plain)
	return plain
}

// others are the synonyms of the words that are taken somewhere.
func (v Vocabulary) others(taken []string) []string {
	var out []string
	for _, s := range v.Also {
		if slices.Contains(taken, s.Means) {
			out = append(out, s.Words...)
		}
	}
	return out
}

// nearTo gives the word that a slip was probably meant to be, "" for none: one
// of those taken, or one that a synonym so close stands for.
func (v Vocabulary) nearTo(text string, taken []string) string {
	if near := nearest(text, taken); near != "" {
		return near
	}
	if near := nearest(text, v.others(taken)); len(near) > 3 {
		word, _ := v.find(near, taken)
		return word
	}
	return ""
}

// plainWords reduces ways of writing a phrase to one: case, hyphens, quotes and
// points do not matter.
func plainWords(s string) string {
	words := strings.Map(func(c rune) rune {
		switch c {
		case '-', '_':
			return ' '
		case '\'', '’', '.', '!', '…':
			return -1
		}
		return c
	}, strings.ToLower(s))
	if words = fold(words); words == "" { // a sign alone
		return strings.TrimSpace(s)
	}
	return words
}

// notSure are words for what nobody knows.
const notSure = "not sure; unsure; unknown; dont know; do not know; dunno; not known; no idea; forgot; not noted; ?; ??"

var vocabularies = []Vocabulary{
	{Name: "engine", Words: []string{"inline", "flat", "V", "rotary", "radial", "single"}, Also: []Synonym{says("inline", "straight; str8; slant; parallel; in line; i; l; reihe; reihen; en ligne; en linea; en línea; in linea; em linha"), says("flat", "boxer; opposed; horizontally opposed"), says("V", "vee"), says("rotary", "wankel; rotor; rotors"), says("radial", "star"),
		says("single", "thumper; single cylinder; one cylinder; one lunger; 1 cyl; 1 cylinder; mono; one pot; inline-1; i1; 1")},
		Asks: []Question{asks("big block; small block; bigblock; smallblock; flathead; sidevalve; overhead valve; ohv; sohc; dohc; twin cam", "write how the cylinders stand and how many there are, such as V8 or inline-4")}},
	{Name: "number of cylinders", Words: []string{"1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "12", "14", "16"}, Also: []Synonym{says("1", "one; ein"), says("2", "two; twin; zwei; deux"), says("3", "three; triple; drei; trois"), says("4", "four; vier; quatre; cuatro; quattro"), says("5", "five; fünf; fuenf; cinq; cinco; cinque"),
		says("6", "six; sechs; seis; sei"), says("7", "seven; sieben"), says("8", "eight; acht; huit; ocho; otto"), says("9", "nine; neun"), says("10", "ten; zehn"), says("12", "twelve; zwölf; zwoelf; douze"), says("14", "fourteen"), says("16", "sixteen")}},
	{Name: "sheet", Words: sheetWords, Also: []Synonym{
		says("customer", "owner; client; the customer; normal"), says("invoice", "bill; with invoice; insurance"),
		says("workshop", "shop; tech; technician; internal; mechanic; bench"),
		says("pre-purchase", "prepurchase; ppi; purchase; buyer; inspection; before purchase; pre purchase inspection")}},
	{Name: "paper", Words: paperWords, Also: []Synonym{says("letter", "us letter; letter paper; us letter paper; us; 8.5x11; 8.5 x 11; 8 1/2 x 11; letter size"), says("a4", "din a4; a4 paper; a4 size; a 4; iso a4"), says("legal", "us legal; 8.5x14")}},
	{Name: "language", Words: languageWords, Also: []Synonym{says("en", "en-us; american; us english; american english; english (us)"),
		says("en-GB", "en-uk; british; uk english; british english; english (uk)")}},
	{Name: "complaint", Words: complaints, Also: complaintSynonyms(),
		Else: "write the nearest of these, or say in a few words what it does",
		Asks: []Question{asks("oil light; oil lamp; oil pressure light; oil warning light; low oil pressure; oil pressure; no oil pressure",
			"the pressure goes under 'oil-pressure', and of the light say what it does: 'oil light comes on at idle'"),
			asks("smoke; smokes; smoking; blue smoke", "smoke goes under 'smoke: {colour: blue, when: [start]}'"),
			asks("white smoke; steam; steams", "smoke goes under 'smoke: {colour: white, when: [start]}'"),
			asks("black smoke; soot; smokes black", "smoke goes under 'smoke: {colour: black, when: [load]}'"),
			asks("check engine light; cel; mil; engine light; warning light", "write the codes under 'vehicle: codes', and what it does here: misfire, low power ...")}},
	{Name: "temperature", Words: temperatures, Also: []Synonym{says("cold", "stone cold; ambient; room temperature; from cold; overnight cold; not run"),
		says("warm", "warmed up; warmed; luke warm; lukewarm; half warm"), says("hot", "fully warm; operating temperature; at operating temperature; operating temp; normal operating temperature; up to temperature; up to temp; full temp; fully warmed up")},
		Asks: []Question{asks("yes; no; "+notSure, "write cold, warm or hot, or leave the line out")}},
	{Name: "throttle", Words: []string{"open", "closed", "not sure"}, Also: []Synonym{
		says("open", "wot; wide; wide open; full; fully open; held open; wide open throttle; full throttle; floored; pedal down; pedal to the floor; blocked open; propped open; 100 %; 100%; all the way open; opened; wedged open; tied open; jammed open; held open with a screwdriver; held open with screwdriver; wedged wide open; propped wide open; held wide open; pegged open; pegged wide open; carb off; carb removed; carburetor off; carburettor off; carburetor removed; carburettor removed; throttle body off; throttle body removed; intake off"),
		says("closed", "shut; not open; idle; released; foot off; not touched; 0 %"), says("not sure", notSure)},
		Asks: []Question{asks("yes; no; half; half open; partly; partly open; 50 %", "write open where it was held wide open, else closed, or not sure")}},
	{Name: "plugs out", Words: []string{"all", "one at a time"}, Also: []Synonym{says("all", "all out; all of them; all removed; every one; all plugs; all plugs out; everything; all 4; all 6; all 8; all four; all six; all eight"),
		says("one at a time", "one; one by one; each in turn; singly; 1 at a time; only the one tested; one out; one only; just the one")},
		Asks: []Question{asks("yes; no; true; false; out; removed; in; none; 1; 2; 3; 4; 5; 6; 8; 10; 12", "write all where all were out at once, or one at a time")}},
	{Name: "needle", Words: []string{"holds", "falls back", "flutters"}, Also: []Synonym{says("holds", "steady; holding; held; stays; stays up; hold; stays put; ok; good; no drop"),
		says("falls back", "drops; falls; bleeds down; leaks down; drops back; does not hold; doesnt hold; wont hold; fell back; dropping"), says("flutters", "jumps; bounces; shakes; vibrates; fluttering; unsteady")}},
	{Name: "fuel", Words: fuels, Also: []Synonym{says("petrol", "gasoline; gas"), says("ethanol", "e85; ethanol (e85)"), says("lpg", "l.p.g."), says("cng", "c.n.g."),
		says("two-stroke mix", "2 stroke mix; 2-stroke mix; two stroke mix"), says("diesel", "turbo diesel")},
		Asks: []Question{asks("benzin; benzine; essence; sans plomb; gasolina; nafta; unleaded; avgas; 100ll; 100 ll; avgas 100ll; mogas; auto gas (car); 87; 89; 92; 94; super; premium; regular; pump gas; race fuel; e10; e5; 91; 93; 95; 98", "write petrol"),
			asks("derv; red diesel; gazole; gas oil; gasoil; heavy oil; biodiesel; td; tdi", "write diesel"), asks("autogas; propane; butane; lp gas; gpl", "write lpg"),
			asks("natural gas; methane; biogas", "write cng"), asks("methanol; alcohol; meth", "write ethanol, the nearest of these, and name it in 'notes'"),
			asks("premix; pre mix; mix; oil mix; 50:1 mix; 32:1 mix; 40:1 mix; 25:1 mix; 16:1 mix; 20:1 mix; 100:1 mix; petroil; 50:1; 32:1; 40:1; 25:1", "write two-stroke mix"), asks("kerosene; paraffin; jet a; jp8; tvo; multifuel", "write petrol or diesel, by how it is lit, and name it in 'notes'"),
			asks("octane; 87 octane; 91 octane; 93 octane; 95 octane; 98 octane", "write petrol"), asks("flex e85; e85 flex; e85 (flex)", "write ethanol, where it ran on that for this test"), asks("hybrid; electric", "write what it burns, and 'hybrid: yes' beside it"), asks("flex; flex fuel; flexfuel; bi fuel; dual fuel", "write what it ran on for this test: petrol, ethanol, lpg or cng")}},
	{Name: "cycle", Words: []string{"four-stroke", "two-stroke"}, Also: []Synonym{says("four-stroke", "4 stroke; four stroke; 4-stroke; 4t; 4s; four cycle; 4 cycle; 4; four; otto"),
		says("two-stroke", "2 stroke; two stroke; 2-stroke; 2t; 2s; two cycle; 2 cycle; 2; two; smoker")}},
	{Name: "charging", Words: []string{"natural", "turbo", "supercharged"}, Also: []Synonym{
		says("natural", "na; n/a; none; no; naturally aspirated; natural aspiration; normally aspirated; atmospheric; atmo; non turbo; no turbo; not turbo; unboosted; aspirated"),
		says("turbo", "turbocharged; turbo charged; turbo intercooled; intercooled turbo; intercooled; turbo with intercooler; turbo and intercooler; turbocharger; twin turbo; bi turbo; biturbo; turbos; single turbo; boosted by turbo"),
		says("supercharged", "supercharger; super charged; super charger; blower; blown; kompressor; compressor; roots")},
		Asks: []Question{asks("yes; boosted; boost; forced; forced induction", "write turbo or supercharged")}},
	{Name: "numbering", Words: []string{"across banks", "bank by bank"}, Also: []Synonym{
		says("across banks", "across; odd even; odd/even; odds and evens; alternating; alternate; side to side; zig zag; zigzag; odd left even right; odds left evens right; odd one side even the other; odds one side; "+inFigures("across banks")),
		says("bank by bank", "one bank then the other; bank after bank; down one bank; straight; sequential; "+inFigures("bank by bank"))}},
	{Name: "first bank", Words: []string{"left", "right", "front", "rear"}, Also: []Synonym{says("left", "lh; l; port; port side; p; left hand; left side; left bank; lefthand"), says("right", "rh; r; starboard; starboard side; stbd; s; right hand; right side; right bank; righthand"),
		says("front", "forward; front bank; radiator side; fwd"), says("rear", "back; rear bank; firewall; firewall side; bulkhead; bulkhead side")},
		Asks: []Question{asks("driver; drivers; driver side; drivers side; passenger; passengers; passenger side; passengers side; nearside; offside; bank 1; bank 2; 1; 2; a; b; kerb side; curb side",
			"write left or right, as seen from the driver's seat looking forward; front or rear where the engine sits crosswise")}},
	{Name: "mount", Also: []Synonym{says("front lengthwise", "front; lengthwise; longitudinal; front longitudinal; north south; inline with the car; rwd; rear wheel drive"), says("on stand", "stand; engine stand; bench; on the bench; out of the car; test stand; out of vehicle"),
		says("mid", "middle; mid engine; mid engined; midship"), says("rear", "back; rear engine; rear engined; rear mounted")},
		Asks: []Question{asks("transverse; crosswise; front crosswise; sideways; fwd; front wheel drive; east west", "say which way the engine's front points: 'front crosswise, engine front left' or 'front crosswise, engine front right'")}},
	{Name: "decompressor", Words: []string{"none", "automatic", "held off"}, Also: []Synonym{says("none", "no; not fitted; without; not there"), says("automatic", "auto; yes, automatic; works by itself; acr"), says("held off", "off; disabled; blocked; not used; held out")},
		Asks: []Question{asks("yes; fitted; manual; on", "write automatic where it works by itself while cranking, held off where it was not working in this test")}},
	{Name: "camshafts", Words: camshafts, Also: []Synonym{says("one", "ohv; pushrod; pushrods; push rod; cam in block; in block; single"), says("two per bank", "dohc; twin cam; double overhead; quad cam")}},
	{Name: "valve gear", Words: []string{"side valves", "overhead valves"}, Also: []Synonym{says("side valves", "side valve; sidevalve; flathead; flat head; l-head; l head"), says("overhead valves", "overhead valve; ohv; pushrods; pushrod")}},
	{Name: "lifters", Words: []string{"hydraulic", "solid"}, Also: []Synonym{says("hydraulic", "hyd; hydro; hydraulic lifters; self adjusting; hydraulic lash adjusters; hla"), says("solid", "mechanical; shims; shim; buckets; solid lifters; adjustable; adjusters; screw; manual; tappets")}},
	{Name: "timing drive", Words: []string{"belt", "chain", "gears"}, Also: []Synonym{says("belt", "timing belt; cambelt; cam belt; rubber belt"), says("chain", "timing chain; chains; duplex chain"), says("gears", "gear; gear drive; gear train; gear driven")}},
	{Name: "cooling", Words: []string{"liquid", "air"}, Also: []Synonym{says("liquid", "water; water cooled; liquid cooled; coolant; radiator; wet"), says("air", "air cooled; aircooled; fan; fins; oil and air; air/oil")}},
	{Name: "runs", Words: []string{"well", "rough", "does not run", "not tried"}, Also: []Synonym{says("well", "good; fine; ok; runs well; runs fine; smooth; normal"), says("rough", "badly; bad; poor; poorly; runs rough; rough running; misfires; runs badly; lumpy"),
		says("does not run", "no; not running; wont run; will not run; wont start; does not start; no start; dead; non runner; doesnt run"), says("not tried", "untried; not started; on stand; "+notSure)},
		Asks: []Question{asks("yes; runs; running; starts", "how does it run? write well or rough")}},
	{Name: "look of a plug", Words: looks, Also: []Synonym{
		says("normal", "good; ok; okay; fine; tan; brown; light brown; light tan; grey tan; gray tan; clean; new; biscuit; looks good; perfect; coffee; chocolate; chocolate brown; biscuit brown; toast; toasted; light grey; light gray; grey brown; gray brown; greyish brown; grayish brown; nice colour; nice color"),
		says("worn", "worn out; old; rounded; eroded; gap wide; electrode worn; tired"),
		says("sooty", "black; dry black; black and dry; black dry; carbon; carbon fouled; carbon fouling; soot; fluffy black; black fluffy; fluffy; dry soot; black soot"),
		says("fuel-wet", "fuel wet; wet with fuel; wet with gas; wet with petrol; gas fouled; fuel fouled; flooded; soaked in fuel; wet fuel; petrol wet; gas wet"),
		says("oil-wet", "oily; oil wet; oil fouled; wet with oil; oil; oil on it; oil soaked; wet and oily; wet oil; black and oily; oil fouling"),
		says("ash", "ashy; ash deposits; ash fouled; deposits; crusty; crusted"), says("white", "chalky; chalk white; bleached; burned white; burnt white; very white"),
		says("blistered", "blisters; bubbled"), says("melted", "melted electrode; burned away; burnt away; burned off; electrode gone; burnt off"),
		says("detonation", "peppered; speckled; specks; pepper; salt and pepper; detonated; knock marks; aluminium specks; aluminum specks; specks of aluminium; specks of aluminum; metal specks; specks of metal; aluminium flecks; aluminum flecks"), says("coolant", "wet with coolant; water; coolant wet; wet with water; antifreeze; steam cleaned; steam clean"),
		says("bridged", "gap bridged; shorted; closed gap by deposit; whiskers"), says("damaged", "mechanical damage; mechanically damaged; damage; cracked; broken; cracked porcelain; cracked insulator; chipped; smashed; bent; hit; bent electrode; strap bent; bent strap; gap closed; struck"),
		says("tracked", "carbon tracked; carbon track; tracking; flashover; arcing; arced")},
		Asks: []Question{asks("washed; washed clean; washed out; washed down", "write fuel-wet where fuel washed it, coolant where steam or water did"), asks("wet; damp; moist; soaked; black and wet; wet and black; black & wet; black wet; wet black", "wet with what? write oil-wet, fuel-wet or coolant"), asks("burned; burnt; burned up; burnt up; burned out; burnt out; cooked; overheated; ran hot", "write white where it ran hot, worn where its electrodes burned down, melted where they are gone"), asks("bad; poor; fouled; dirty; not good; dodgy; iffy", "how does it look? write sooty, oil-wet, fuel-wet, white, worn or damaged"),
			asks("rust; rusty; rusted; corroded", "write coolant where water was in the cylinder, worn where it only stood; the rust goes into a note: {look: worn, note: rust}"),
			asks("green; green crust; crusty green; green deposits; orange; orange crust; blue", "write coolant where coolant dried on it, ash where it is from oil; the colour goes into a note: {look: coolant, note: green crust}"),
			asks("grey; gray; dark; red; pink", "write normal where it looks burned clean, sooty, white or ash; the colour goes into a note: {look: normal, note: grey}")}},
	{Name: "place of a leak", Words: places, Also: []Synonym{
		says("exhaust", "tailpipe; tail pipe; exhaust valve; exhaust pipe; ex; exh; muffler; out the exhaust; exhaust manifold; exhaust port; silencer"),
		says("inlet", "intake; throttle; carburettor; carburetor; carb; carby; throttle body; intake valve; inlet valve; in; int; air filter; air intake; intake manifold; inlet manifold; airbox"),
		says("crankcase", "filler; oil filler; oil cap; dipstick; breather; rings; crank case; oil fill; blowby; blow by; sump; bottom end; past the rings; pcv; oil filler cap; case"),
		says("valve cover", "rocker cover; rocker box; rockers; tappet cover; cam cover; pushrod tube; pushrod tubes; pushrod tunnel; pushrod gallery; push rod tube; push rod tunnel; pushrods; under the valve cover; under the rocker cover"),
		says("coolant", "radiator; rad; water; bubbles; expansion tank; bubbles in radiator; header tank; overflow; coolant bubbles; cooling system; bubbles in coolant"),
		says("neighbour", "neighbor; next cylinder; next door; adjacent cylinder; adjacent; other cylinder; next plug hole; neighbouring cylinder; neighboring cylinder; head gasket between"),
		says("outside", "external; out the side; plug thread; around the plug; atmosphere; head joint; gasket edge; plug hole"), says("nowhere", "none; nothing; no; not heard; nothing heard; silent; quiet; cant hear; no leak")},
		Asks: []Question{asks("valve; valves; the valves; head", "which? exhaust where it hisses at the tailpipe, inlet where it hisses at the throttle"), asks("head gasket; gasket; hg; blown head gasket", "where does the air come out? coolant, neighbour or outside")}},
	{Name: "fuel system", Words: fuelSystems, Also: []Synonym{says("carburettor", "carburetor; carb; carbs; carburetted; carbureted; carburetors; carburettors"), says("throttle body", "tbi; throttle body injection; single point; spi; cfi; mono injection; monopoint"),
		says("port, return line", "port with return; return; return line; return type; with return; port return; port injection with return; port return line"), says("port, no return", "returnless; no return; port returnless; port, returnless; returnless port; return less; port no return; without return; port injection, no return; dead head"),
		says("direct, low side", "direct low side; gdi low side; low side; low pressure side; di low side"), says("diesel, lift pump", "lift pump; diesel lift pump; diesel low side; diesel; feed pump")},
		Asks: []Question{asks("port; port injection; efi; mpi; mpfi; injection; fuel injection; injected; fi; sefi; sfi; multipoint; multi port", "with or without a return line? write 'port, return line' or 'port, no return'"),
			asks("direct; gdi; di; direct injection; fsi; tfsi; high side; high pressure; direct, high side", "the low side is 'direct, low side'; the high side has no key of its own: give its pressures under 'other-readings'"),
			asks("common rail; diesel common rail; crdi; unit injector; injection pump", "the pressure ahead of the high-pressure pump is 'diesel, lift pump'")}},
	{Name: "pump", Words: []string{"electric", "mechanical"}, Also: []Synonym{says("electric", "electrical; in tank; in-tank; intank; elec; 12 v; 12v; in line electric"), says("mechanical", "mech; cam driven; diaphragm; engine driven; on the block")}},
	{Name: "fuel in the hose", Words: []string{"yes", "no", "not looked"}, Also: []Synonym{says("yes", "y; true; wet; fuel; found; petrol in it"), says("no", "n; false; none; dry; clean"), says("not looked", "not checked; didnt look; did not look; not tested; "+notSure)}},
	{Name: "smoke colour", Words: smokes, Also: []Synonym{says("blue", "bluish; blueish; blue grey; blue gray; oil smoke"), says("white", "steam; white steam; whitish; steamy"), says("black", "dark; sooty; very dark"), says("none", "no; clean; no smoke; nothing; clear")},
		Asks: []Question{asks("grey; gray; greyish", "write blue where it smells of oil, white where it is steam, black where it is soot"), asks("yes", "which colour? write blue, white or black")}},
	{Name: "time of smoke", Words: smokeTimes, Also: []Synonym{says("start", "starting; startup; start up; at start; on start; at the start; at starting; on starting; when starting; when started; at startup; on startup; at start up; on start up; start-up; cold start; at cold start; on cold start; starting cold; when cold; first start; first thing; in the morning; after start; after starting"), says("idle", "idling; at idle; ticking over; tickover"),
		says("load", "accelerating; acceleration; under load; pulling; hard pull; on throttle; full throttle; uphill; revving"), says("overrun", "decel; deceleration; coasting; lift off; off throttle; engine braking; downhill; closed throttle"),
		says("always", "all the time; constant; constantly; all; continuous; whenever it runs; any time")}},
	{Name: "cylinder wall", Words: []string{"scored", "glazed", "rust", "pitted", "good"}, Also: []Synonym{says("rust", "rusty; rusted; corroded; corrosion"), says("pitted", "pits; rust pits; pitting; rusty and pitted; rusted and pitted; corrosion pits"), says("scored", "scratched; scratches; scoring; score; grooved; scuffed; marked"), says("glazed", "shiny; polished; mirror; mirrored; no crosshatch; no hatch"), says("good", "ok; fine; clean; crosshatch; cross hatch visible; hatch visible; normal")}},
	{Name: "piston crown", Words: []string{"washed", "carbon", "holed", "melted", "marked", "good"}, Also: []Synonym{says("washed", "clean; steam cleaned; steam clean; very clean"), says("carbon", "carboned; sooty; coked; black; deposits; carbon build up"),
		says("holed", "hole; burned through; burnt through; melted through; holed piston"), says("melted", "melted edge; edge melted; eaten away; eroded; melted piston; partly melted"), says("marked", "hit; valve marks; valve mark; dented; witness mark; struck; impact"), says("good", "ok; fine; normal")}},
	{Name: "valves seen", Words: []string{"burnt", "bent", "carbon", "rust", "good"}, Also: []Synonym{says("rust", "rusty; rusted; corroded; pitted; corrosion"), says("burnt", "burned; chipped; bite out of it; cracked; torched"), says("bent", "not closing; open; bent valve"), says("carbon", "carboned; coked; deposits; caked; dirty"), says("good", "ok; fine; normal; clean; shut; seats")}},
	{Name: "gas test", Words: gasWords, Also: []Synonym{says("positive", "pos; +; fail; failed; gas found; gas; yes; yellow; turned yellow; went yellow; fluid went yellow; fluid turned yellow; turned green; went green; fluid turned green; fluid went green; changed colour; changed color; bad"),
		says("negative", "neg; -; pass; passed; no gas; no; clear; none; stayed blue; blue; no change; good; ok"), says("not tested", "not done; untested; not made; n/t; nt; skipped; no test")}},
	{Name: "engine at a gas test", Words: []string{"hot", "cold"}, Also: []Synonym{says("hot", "warm; warmed up; running; at temperature; operating temperature"), says("cold", "stone cold; not run")}},
	{Name: "reach", Words: []string{"same", "longer", "shorter"}, Also: []Synonym{says("same", "right; correct; as the book; ok; yes"), says("longer", "long; too long"), says("shorter", "short; too short")}},
	{Name: "odometer status", Words: []string{"actual", "not actual", "unknown"}, Also: []Synonym{says("actual", "true; correct; yes; right; original; genuine; believed true"), says("not actual", "false; wrong; no; rolled back; replaced; swapped; broken; not true; not correct; rolled over; changed"),
		says("unknown", "tmu; exempt; "+notSure)}},
	{Name: "driver side", Words: []string{"left", "right"}, Also: []Synonym{says("left", "lhd; left hand drive; lh; l"), says("right", "rhd; right hand drive; rh; r")}},
	{Name: "yes or no", Words: []string{"yes", "no"}, Also: []Synonym{says("yes", "y; true; on; yep; yeah; aye; connected; was on; fitted"), says("no", "n; false; off; none; nope; nah; without; not connected; not fitted; non interference; free wheeling; freewheeling")}},
	{Name: "state of a test", Words: stateWords, Also: []Synonym{
		says("not tested", "not done; didnt do; did not do; didnt do it; did not do it; wasnt done; was not done; never done; didnt get to it; not bothered; untested; not measured; not checked; not taken; not read; skipped; n/t; nt; did not test; didnt test; not yet tested; not yet; wasnt tested; not performed; not made; not run; no test; passed over"),
		says("could not test", "couldnt test; cannot test; cant test; unable to test; unable; could not reach; couldnt reach; cant reach; cannot reach; could not do; couldnt do; no access; not accessible; impossible to test"),
		says("declined", "refused; customer declined; customer refused; owner declined; declined by customer; not authorised; not authorized; customer said no; not wanted"),
		says("not applicable", "does not apply; doesnt apply; not relevant"),
		says("read, not told", "read not told; read but not told; kept to themselves; not told")},
		Asks: []Question{asks("n/a; na; -; --; –; —; ?; ??; x; xx; none taken; no reading; blank; missing; tbd; tba; todo; pending; nr; n/r; _; *", emptyReading)}},
	{Name: "all others", Words: []string{others}, Also: []Synonym{says(others, "other; rest; the rest; all others; all other; all the others; the others; remaining; remainder; everything else; all; all the rest; else")}},
	{Name: "basis of a percentage", Words: bases, Also: []Synonym{says("highest", "high; best; max; maximum; highest cylinder; highest reading; top"), says("lowest", "low; min; minimum; lowest cylinder; lowest reading"), says("mean", "average; avg"), says("median", "middle")}},
	{Name: "pressure", Words: []string{"no pressure"}, Also: []Synonym{says("no pressure", "zero; nil; nought; naught; zip; zilch; nada; zero psi; zero bar; nil psi; nought psi; zero pressure; no psi; no compression; no comp; needle did not move; needle didnt move; did not move; didnt move; no movement; gauge did not move; 0 compression")},
		Asks: []Question{asks("warm; hot; cold; warmed up; stone cold; fully warm; half warm", "how warm the engine was stands under 'conditions: {engine: warm}'; write here what the gauge showed"),
			asks("none", "write 0 or 'no pressure' where the gauge did not move, 'not tested' where it was not read"),
			asks("nothing; nothing at all; not a thing; almost none; almost nothing; next to nothing; hardly anything; dead; flat; barely anything; not much", "write 0 or 'no pressure' where the gauge did not move, else what it showed"),
			asks("ok; okay; good; fine; low; high; normal; weak; bad; poor; excellent; pass; fail; strong", "write what the gauge showed; words go into 'findings' or 'notes'"),
			asks("same; the same; same again; same as 1; same as 2; same as 3; as 1; as 2; as 3; as 4; like 1; like 2; like 3; as cyl 1; as #1; as the first; as first; see 1; same as above; same as dry; ditto; do; idem; as above; see above; as before; as dry; no change; no difference; unchanged; did not change; didnt change; stayed the same; \"; //; 〃", "write the reading itself, what the gauge showed, also where it is the same again"),
			asks(".nan; .inf; +.inf; -.inf; nan; inf; infinity; off the scale; pegged; maxed; maxed out; off scale; full scale", "write what the gauge showed; for a reading beyond the scale 'over 300'")}},
	{Name: "doubt", Words: []string{"about"}, Also: []Synonym{says("about", "maybe; roughly; approx; approximately; not sure; unsure; guess; guessed; estimate; estimated; est; ish; more or less; around; ?")}},
	{Name: "change", Words: []string{"up"}, Also: []Synonym{says("up", "rose; rise; rises; gained; gain; plus; added; increased; down; fell; lost; dropped; less; minus; by")}},
	{Name: "magneto", Words: []string{"left", "right", "both"}, Also: []Synonym{says("left", "l; left magneto; left mag; on left"), says("right", "r; right magneto; right mag; on right"), says("both", "both magnetos; both mags; on both; all")}},
	{Name: "gauge read", Words: []string{"screwed in", "dash", "scan tool"}, Also: []Synonym{says("screwed in", "mechanical; manual; gauge; test gauge; screw in; direct; in the block; mechanical gauge"), says("dash", "dashboard; dash gauge; cluster; instrument; in dash; factory gauge"), says("scan tool", "scanner; obd; scan; diagnostic; live data; obd2")}},
	{Name: "oil level", Words: []string{"low", "right", "over full"}, Also: []Synonym{says("low", "under; below min; below minimum; half; empty; short; minimum; min"), says("right", "ok; good; full; normal; fine; correct; on the mark; max; at the mark; between the marks"), says("over full", "overfull; over; high; too high; above max; overfilled; over filled; above full")}},
	{Name: "smell of oil", Words: []string{"none", "fuel"}, Also: []Synonym{says("none", "no; normal; ok; nothing; fine"), says("fuel", "gas; petrol; gasoline; diesel; smells of fuel; of fuel")}},
	{Name: "vacuum needle", Words: needles, Also: []Synonym{says("steady", "still; holds; solid; rock steady; stable; good"), says("drops regularly", "regular drop; drops; ticks; ticking; drops every time; regular flick; flicks; flicks regularly; drops evenly"),
		says("drops now and then", "now and then; every so often; once in a while; at times; randomly; occasionally; irregularly; drops irregularly; at random; drops randomly; irregular drop; occasional drop; intermittent; sometimes; drops sometimes; intermittent drop"), says("floats", "drifts; wanders; slow drift; drifting; slowly moves; floating"),
		says("quivers", "vibrates; shakes; flutters; trembles; shivers; fast vibration; shaking"), says("not watched", "not looked; "+notSure)}},
	{Name: "needle with speed", Words: []string{"steadies", "swings wider", "swings quicker and smaller", "no change"}, Also: []Synonym{says("steadies", "steady; settles; goes steady; smooths out; clears up"), says("swings wider", "wider; worse; gets worse; swings more; bigger swings"), says("swings quicker and smaller", "quicker and smaller; faster; quicker; smaller"), says("no change", "same; the same; unchanged; as before")}},
	{Name: "warming", Words: []string{"steady", "climbs", "never warm"}, Also: []Synonym{says("steady", "stable; holds; stays; normal; ok"), says("climbs", "rises; keeps rising; goes up; overheats; boils; keeps climbing; runs hot"), says("never warm", "cold; stays cold; never gets warm; runs cold; too cold; not warm")}},
	{Name: "look of coolant", Words: []string{"clean", "rust", "oil", "gas bubbles"}, Also: []Synonym{says("clean", "good; ok; fine; clear; normal; green; blue; pink; red; orange"), says("rust", "rusty; brown; muddy; dirty; sludge"), says("oil", "oily; milky; mayonnaise; mayo; oil in it; chocolate milk; creamy"), says("gas bubbles", "bubbles; bubbling; gas; fizzing; foaming; froth")}},
	{Name: "switched off by", Words: []string{"lead", "coil", "injector", "scan tool", "line nut"}, Also: []Synonym{says("lead", "plug lead; plug wire; wire; ht lead; plug leads; spark plug wire; pulling the lead; leads; wires"), says("coil", "coils; coil plug; coil connector; cop; coil pack"),
		says("injector", "injectors; injector plug; injector connector"), says("scan tool", "scanner; scan; obd; computer; software; balance test"), says("line nut", "nut; cracking the line; injector pipe; pipe nut; cracking injectors; line; fuel line nut")}},
	{Name: "idle control", Words: []string{"held", "working", "not sure"}, Also: []Synonym{says("held", "off; disabled; unplugged; held still; fixed; blocked; disconnected"), says("working", "on; active; normal; connected; yes"), says("not sure", notSure)}},
	{Name: "taken at", Words: []string{"before catalyst", "tailpipe"}, Also: []Synonym{says("before catalyst", "before cat; before the cat; pre cat; precat; ahead of the cat; upstream; before the catalyst"), says("tailpipe", "tail pipe; exhaust; after cat; after the cat; post cat; end of pipe; after catalyst")}},
	{Name: "held under", Words: []string{"pressure", "vacuum"}, Also: []Synonym{says("vacuum", "suction; empty; negative; pumped empty"), says("pressure", "air; pumped up; positive")}},
	{Name: "ventilation", Words: []string{"connected", "blocked", "off"}, Also: []Synonym{says("connected", "on; normal; as is; fitted; working; yes"), says("blocked", "plugged; capped; sealed; closed; pinched"), says("off", "disconnected; open; removed; open to air")}},
	{Name: "spray", Words: []string{"cone", "one stream", "one-sided", "drips", "nothing"}, Also: []Synonym{says("cone", "good; ok; fine; even; mist; normal; fan; good cone; conical"), says("one stream", "stream; jet; solid stream; straight; single stream; streaming"), says("one-sided", "lopsided; uneven; crooked; to one side; skewed; one sided"),
		says("drips", "dripping; dribbles; dribble; leaks; drip"), says("nothing", "none; no; blocked; dead; no spray; does not spray")}},
	{Name: "vacuum line", Words: []string{"on", "off"}, Also: []Synonym{says("on", "connected; yes; fitted; true"), says("off", "disconnected; plugged; no; removed; off and plugged; blocked; false")}},
}
