package ask

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag/engine"
	"gaugesheet/diag/known"
)

// A topic is what may have been measured or noted besides, with its questions.
type topic struct {
	section   string // of the job file that it is about, "" for several
	say       string
	fits      func(s *Session) bool // nil for every engine
	questions func(s *Session) []*question
}

// fixed are questions that depend on nothing.
func fixed(questions ...*question) func(*Session) []*question {
	return func(*Session) []*question { return questions }
}

// text, word, words and yes ask for the value of one key.
func text(path, say string) *question { return &question{path: path, say: say, take: asText(path)} }

func word(path, say string) *question { return &question{path: path, say: say, take: asWord(path)} }

func words(path, say string) *question { return &question{path: path, say: say, take: asWords(path)} }

func yes(path, say string) *question { return &question{path: path, say: say, take: asYesNo(path)} }

// line asks for several values in a row, in the unit of their section.
func line(section, say, example string, fields ...field) *question {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.name
	}
	return &question{path: fields[0].path, say: say, hint: strings.Join(names, ", ") + ", such as " + example, state: section,
		take: several(section, fields...), show: inUnit}
}

// each asks for a value of every cylinder.
func each(section, path, say string) *question {
	return &question{path: path, say: say, hint: "in order, or such as 3=...", take: cylinderValues(section, path), show: byCylinderShown, help: readingHelp}
}

// bySpeedOf asks for readings by speed or by time.
func bySpeedOf(section, path, say, unit, example string) *question {
	return &question{path: path, say: say, hint: "such as " + example, take: bySpeed(section, path, unit), show: inUnit}
}

// listed asks for texts with semicolons between them.
func listed(path, say string) *question {
	return &question{path: path, say: say, hint: "semicolons between several", take: asTexts(path)}
}

// elseQuestion asks what was measured besides, until that was all.
func elseQuestion() *question {
	return &question{path: "else", say: "What else was measured or noted", hint: "numbers or words, ? lists them; Enter for nothing more",
		begin: func(s *Session) { s.listTopics() },
		take:  func(s *Session, line string) ([]entry, error) { _, err := s.chosen(line); return nil, err },
		show:  func(*Session, []entry) {},
		after: func(s *Session, line string) { s.follow(line) }}
}

// listTopics lists what else may have been measured.
func (s *Session) listTopics() {
	const column = 38
	fitting := s.topics()
	half := (len(fitting) + 1) / 2
	for i := range half {
		left := fmt.Sprintf("%2d %s", i+1, fitting[i].say)
		if j := i + half; j < len(fitting) {
			left = fmt.Sprintf("%-*s%2d %s", column, left, j+1, fitting[j].say)
		}
		s.say(left)
	}
}

// topics are those that fit the engine.
func (s *Session) topics() []topic {
	var out []topic
	for _, t := range allTopics() {
		if t.fits == nil || t.fits(s) {
			out = append(out, t)
		}
	}
	return out
}

// chosen gives the topics whose numbers, or words, were typed.
func (s *Session) chosen(line string) ([]topic, error) {
	fitting := s.topics()
	var out []topic
	for _, typed := range strings.FieldsFunc(line, func(r rune) bool { return r == ' ' || r == ',' || r == '.' }) {
		n, err := strconv.Atoi(typed)
		if err == nil && n >= 1 && n <= len(fitting) {
			out = append(out, fitting[n-1])
			continue
		}
		found := false
		for _, t := range fitting {
			if err != nil && (typed == t.section || len(typed) > 2 && strings.Contains(fold(t.say), fold(strings.ReplaceAll(typed, "-", " ")))) {
				out, found = append(out, t), true
				break
			}
		}
		if !found {
			return nil, fmt.Errorf("'%s' is none of 1 to %d", typed, len(fitting))
		}
	}
	return out, nil
}

// follow puts the questions of what was chosen next, and this one again behind
// them.
func (s *Session) follow(line string) {
	delete(s.was, "else")
	found, err := s.chosen(line)
	if err != nil {
		return
	}
	queue := s.queue[:len(s.queue):len(s.queue)]
	for _, t := range found {
		queue = append(queue, t.questions(s)...)
	}
	s.queue = append(queue, elseQuestion())
}

func pistons(s *Session) bool { return hasCylinders(s) }

func fourStroke(s *Session) bool {
	return pistons(s) && s.draft.value("engine.cycle") != "two-stroke" && s.draft.value("engine.fuel") != "two-stroke mix"
}

// flies tells whether it may be the engine of an aircraft, with two magnetos: a radial, one
// of several cylinders said to be cooled by air, or what is called so.
func flies(s *Session) bool {
	air := s.engine.Kind == engine.Radial || s.draft.value("engine.cooling") == "air" && len(s.engine.Names()) > 2
	return fourStroke(s) && hasPlugs(s) && (air || known.CalledAircraft(s.draft.value("vehicle.description")))
}

// throttled tells whether it has a vacuum in its manifold.
func throttled(s *Session) bool { return fourStroke(s) && hasPlugs(s) }

// takesOil tells whether oil may be asked after: never of a diesel or of an
// engine whose fuel is not known, nor where it tells nothing.
func takesOil(s *Session) bool {
	fuel := s.draft.value("engine.fuel")
	return fourStroke(s) && fuel != "" && fuel != "diesel" && s.engine.Kind != engine.Flat
}

// allTopics are what else may have been measured, in the order of the bench.
func allTopics() []topic {
	bench := slices.Concat(recordTopics(), runningTopics(), openTopics())
	return slices.Concat(bench, plainTopics(bench), seenTopics())
}

// recordTopics are about the vehicle, the engine and the gauges.
func recordTopics() []topic {
	return []topic{
		{say: "owner, plate, odometer, technician", questions: fixed(
			text("customer.name", "Customer"), text("customer.phone", "Telephone"), text("vehicle.plate", "Plate"), text("vehicle.vin", "Vehicle identification number"),
			text("vehicle.engine-number", "Engine number"), text("vehicle.odometer.reading", "Odometer"), text("job.technician", "Technician"), text("job.reason", "Why it was tested"),
			listed("vehicle.codes", "Trouble codes"), listed("vehicle.work-done", "Work done before"), text("vehicle.stood", "Stood unused"))},
		{section: "engine", say: "more of the engine", questions: fixed(
			text("engine.displacement", "Displacement"), text("engine.compression-ratio", "Compression ratio"), word("engine.cycle", "Cycle"), word("engine.charging", "Charging"),
			word("engine.valve-gear", "Where the valves stand"), word("engine.lifters", "Valve lifters"), word("engine.cooling", "Cooled by"), yes("engine.interference", "Can valves and pistons meet"), yes("engine.hybrid", "Is the vehicle a hybrid"),
			word("engine.runs", "How it runs"), word("engine.mount", "How it sits"), text("engine.firing-order", "Firing order"))},
		{section: "gauges", say: "gauge, cranking, altitude", questions: gaugeQuestions},
	}
}

// runningTopics are the tests with the engine running or cranked.
func runningTopics() []topic {
	return []topic{
		{section: "oil-pressure", say: "oil pressure", questions: fixed(
			line("oil-pressure", "Oil pressure", "45 16 psi", field{"oil-pressure.cold-idle", "cold idle"}, field{"oil-pressure.idle", "hot idle"}, field{"oil-pressure.cranking", "cranking"}),
			bySpeedOf("oil-pressure", "oil-pressure.at-speed", "Hot, at speeds", "rpm", "2000=34 3000=46"),
			text("oil-pressure.limits.idle", "Permitted at hot idle"), word("oil-pressure.gauge", "Read on"), word("oil-pressure.oil.level", "Oil level"), text("oil-pressure.oil.grade", "Oil"))},
		{section: "starting", say: "starter and battery", questions: fixed(
			line("starting", "Battery", "12.6 V 10.6 V", field{"starting.battery.rest", "at rest"}, field{"starting.battery.cranking", "cranking"}),
			text("starting.cranking", "Cranking speed"), text("starting.draw", "Starter draws"), each("starting", "starting.peaks", "Peaks of its current"))},
		{section: "fuel-pressure", say: "more of the fuel pressure", questions: fixed(
			word("fuel-pressure.system", "Fuel system"), bySpeedOf("fuel-pressure", "fuel-pressure.hold", "Held after switching off", "min", "1=40 5=36"),
			text("fuel-pressure.return-pinched", "Return pinched"), text("fuel-pressure.volume", "Volume"), word("fuel-pressure.fuel-in-hose", "Fuel in the regulator's hose"), text("fuel-pressure.limits.idle", "Permitted at idle"))},
		{section: "vacuum", say: "manifold vacuum", fits: throttled, questions: fixed(
			line("vacuum", "Vacuum", "18.5 inHg", field{"vacuum.idle.reading", "idle"}, field{"vacuum.cranking.reading", "cranking"}),
			word("vacuum.idle.needle", "The needle at idle"), text("vacuum.idle.by", "It moved by"), word("vacuum.with-speed", "The needle as the speed rose"),
			line("vacuum", "Snap", "2 24", field{"vacuum.snap.open", "throttle open"}, field{"vacuum.snap.shut", "shut"}), text("vacuum.limits.idle", "Permitted at idle"))},
		{section: "balance", say: "cylinder balance", fits: pistons, questions: fixed(
			text("balance.at", "Speed with all working"), each("balance", "balance.speed", "Speed with each one off"), word("balance.off-by", "Switched off by"), word("balance.idle-control", "Idle control"))},
		{section: "magnetos", say: "magneto check", fits: flies, questions: fixed(
			line("magnetos", "Drop on each magneto alone", "90 48 rpm", field{"magnetos.left", "left"}, field{"magnetos.right", "right"}), text("magnetos.at", "Speed on both"),
			text("magnetos.limits.drop", "Permitted drop"), text("magnetos.limits.difference", "Permitted difference"))},
		{section: "heads", say: "cylinder-head temperatures", fits: flies, questions: fixed(
			each("heads", "heads.temperature", "Head temperatures"), word("heads.magneto", "Read on which magneto"), text("heads.at", "At which speed"))},
		{section: "injectors", say: "injectors on the bench", questions: fixed(
			each("injectors", "injectors.before", "Flow before"), each("injectors", "injectors.after", "Flow after"), each("injectors", "injectors.spray", "Spray"),
			each("injectors", "injectors.ohms", "Ohms"), text("injectors.limits.spread", "Permitted spread"))},
		{section: "trims", say: "fuel trims", fits: hasPlugs, questions: trimQuestions},
		{section: "exhaust-gas", say: "exhaust gas", questions: fixed(word("exhaust-gas.taken", "Taken"), gasAt("idle", "Gas at idle"), gasAt("2500 rpm", "Gas at 2500 rpm"))},
		{section: "crankcase", say: "crankcase pressure", questions: fixed(
			bySpeedOf("crankcase", "crankcase.readings", "Crankcase, minus for vacuum", "rpm", "idle=-1 2500=3.5 inH2O"), word("crankcase.ventilation", "Ventilation"), text("crankcase.flow", "Flow"))},
		{section: "crankcase-hold", say: "two-stroke's crankcase under pressure", fits: func(s *Session) bool { return pistons(s) && !fourStroke(s) }, questions: fixed(
			word("crankcase-hold.under", "Under pressure or vacuum"),
			line("crankcase-hold", "Pumped to", "6 psi", field{"crankcase-hold.pumped-to", "pressure"}),
			bySpeedOf("crankcase-hold", "crankcase-hold.hold", "Held", "min", "10=5.5"), text("crankcase-hold.seen", "Where it leaked"))},
		{section: "back-pressure", say: "exhaust back-pressure", questions: fixed(
			line("back-pressure", "Back-pressure", "0.4 1.6 psi", field{"back-pressure.idle", "idle"}, field{"back-pressure.2500 rpm", "2500 rpm"}), text("back-pressure.at", "Taken"))},
		{section: "timing", say: "timing and dwell", questions: fixed(
			text("timing.base", "Base timing"), bySpeedOf("timing", "timing.advance", "Advance", "rpm", "2500=28 deg"), word("timing.vacuum-line", "Vacuum line"),
			text("timing.dwell", "Dwell"), text("timing.points-gap", "Points gap"), text("timing.cam", "Cam timing against its mark"))},
		{section: "diesel", say: "returns and glow plugs", fits: isDiesel, questions: fixed(
			each("diesel.return", "diesel.return.cylinders", "Returns"), text("diesel.return.in", "Over how long"), each("diesel", "diesel.glow", "Glow plugs, ohms"))},
		{section: "smoke", say: "smoke", questions: fixed(word("smoke.colour", "Smoke"), words("smoke.when", "When"))},
	}
}

// openTopics are the tests with the engine shut off, and then with the plugs out.
func openTopics() []topic {
	return []topic{
		{section: "cooling", say: "cooling system under pressure", fits: liquidCooled, questions: fixed(
			line("cooling.pressure-test", "Pumped to", "18 psi", field{"cooling.pressure-test.pumped-to", "pressure"}),
			bySpeedOf("cooling.pressure-test", "cooling.pressure-test.hold", "Held", "min", "2=18 5=17"), text("cooling.pressure-test.seen", "Where it was wet"),
			word("cooling.coolant.look", "Coolant looks"), text("cooling.cap.rated", "Cap is marked"), text("cooling.cap.opens", "Cap opened at"))},
		{section: "coolant-gas-test", say: "gas test of the coolant", fits: liquidCooled, questions: fixed(word("coolant-gas-test", "Combustion gas in the coolant"))},
		{section: "plugs", say: "plug gaps", fits: hasPlugs, questions: plugQuestions},
		{section: "compression", say: "more of the compression test", fits: pistons, questions: fixed(
			each("compression", "compression.first", "First stroke"), each("compression", "compression.again", "Tested again at the end"), orderQuestion(), word("conditions.needle", "The needle after the test"))},
		{section: "leakage", say: "cylinder leakage", fits: pistons, questions: fixed(
			&question{path: "leakage.dry", state: "leakage", say: "Percent lost, and where", hint: "such as 3=34 exhaust 5=12, or all in order", take: takeLeaks, show: leaksShown, help: leakHelp}, text("leakage.limit", "Permitted loss"))},
		{section: "compression", say: "compression with oil (wet)", fits: takesOil, questions: fixed(
			&question{path: "compression.wet", say: "With oil", hint: "such as 3=90 1=172", when: read("compression"), take: cylinderValues("compression", "compression.wet"), show: byCylinderShown}, text("compression.oil", "Oil for each"))},
		{section: "valves", say: "valve clearance and lift", fits: fourStroke, questions: fixed(
			each("valves", "valves.inlet", "Inlet clearance"), each("valves", "valves.exhaust", "Exhaust clearance"), text("valves.limits.inlet", "Permitted, inlet"), text("valves.limits.exhaust", "Permitted, exhaust"),
			each("valves", "valves.lift.inlet", "Inlet lift"), each("valves", "valves.lift.exhaust", "Exhaust lift"))},
	}
}

// seenTopics are what was seen, and what was not done.
func seenTopics() []topic {
	return []topic{
		{section: "borescope", say: "borescope", questions: fixed(each("", "borescope", "Seen"))},
		{section: "other-readings", say: "another reading", questions: fixed(
			&question{path: "other-readings", say: "What, and what it read", hint: "such as charging voltage, 14.2 V, 13.8-14.6 V", take: takeOther})},
		{say: "what was seen; work recommended", questions: fixed(
			listed("findings", "What was seen"), listed("recommended", "Recommended"), listed("declined", "Declined by the customer"), text("notes", "Notes"))},
		{section: "not-tested", say: "why a test was not made", questions: fixed(
			&question{path: "not-tested", say: "Test and reason", hint: "such as leakage, no shop air; semicolons between several", take: takeUntested})},
	}
}
