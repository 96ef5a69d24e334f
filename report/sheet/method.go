package sheet

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// methodBlock says how the test was done, and names what was not recorded.
func (v *view) methodBlock() layout.Block {
	conditions := v.conditionWords
	if !v.sheet.Record {
		conditions = v.ownersConditions
	}
	items := []string{}
	for _, line := range [][]string{conditions(), v.gaugeWords(), v.sourceWords()} {
		if len(line) > 0 {
			items = append(items, sentence(line))
		}
	}
	if m := v.test.Conditions.Method; m != "" {
		items = append(items, v.label("method.unusual", "method", m))
	}
	if missing := v.unrecorded(); len(missing) > 0 {
		items = append(items, v.label("method.not-recorded", "what", strings.Join(missing, ", ")))
	}
	if n := v.job.Notes.Value; n != "" {
		items = append(items, v.label("method.notes", "notes", n))
	}
	if len(items) == 0 {
		return nil
	}
	return figure.NewMethod(figure.List{Title: v.label("heading.method"), Items: allOnPage(items), Run: true, Short: v.short()})
}

// sentence makes a line of parts into one with a capital and a full stop.
func sentence(parts []string) string {
	return capital(strings.Join(parts, ", ")) + "."
}

// capital gives a text a capital letter at its start.
func capital(s string) string {
	if s == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// ownersConditions are the conditions that an owner can make something of: how
// warm the engine was, how it was turned, and how high it stands.
func (v *view) ownersConditions() []string {
	c := v.test.Conditions
	parts := v.temperatureWords()
	parts = append(parts, v.turningWords()...)
	if c.Battery.Charger == diag.Yes {
		parts = append(parts, v.label("method.charger"))
	}
	return append(parts, v.altitudeWords()...)
}

// temperatureWords say how warm the engine was.
func (v *view) temperatureWords() []string {
	c := v.test.Conditions
	coolant := ""
	if c.CoolantC != nil {
		coolant = v.enteredOr(number(*c.CoolantC, 0, quantity.Celsius).String(), "conditions", "coolant")
	}
	var parts []string
	if c.Engine != "" {
		parts = append(parts, v.label("method.engine", "engine", v.term("temperature", string(c.Engine)), "coolant", coolant))
	} else if coolant != "" {
		parts = append(parts, v.label("method.coolant", "temperature", coolant))
	}
	if l := v.test.Leakage; l != nil && l.Engine != "" && l.Engine != c.Engine {
		parts = append(parts, v.label("method.leakage-engine", "engine", v.term("temperature", string(l.Engine))))
	}
	return parts
}

// turningWords say how the engine was turned and what let the air in.
func (v *view) turningWords() []string {
	c := v.test.Conditions
	var parts []string
	add := func(key string, pairs ...any) { parts = append(parts, v.label("method."+key, pairs...)) }
	if c.Throttle != "" && !v.test.Spec.Diesel() {
		add("throttle-" + strings.ReplaceAll(c.Throttle, " ", "-"))
	}
	if c.Choke != "" {
		add("choke", "choke", c.Choke)
	}
	if c.PlugsOut != "" {
		holes := "plugs-"
		if v.test.Spec.Diesel() { // it has injectors or glow plugs there
			holes = "holes-"
		}
		add(holes + strings.ReplaceAll(c.PlugsOut, " ", "-"))
	}
	speed := ""
	if c.CrankingRPM != nil {
		speed = v.enteredOr(number(*c.CrankingRPM, 0, quantity.RPM).String(), "conditions", "cranking")
	} else if v.test.Rotors != nil && v.test.Rotors.CrankingRPM > 0 {
		speed = number(v.test.Rotors.CrankingRPM, 0, quantity.RPM).String()
	}
	switch {
	case c.Strokes > 0:
		add("strokes", "count", c.Strokes, "speed", speed)
	case speed != "":
		add("cranking", "speed", speed)
	}
	return parts
}

// altitudeWords say how high and under what air the test was made.
func (v *view) altitudeWords() []string {
	c := v.test.Conditions
	if c.AltitudeM == nil {
		return nil
	}
	return []string{v.label("method.altitude", "altitude", v.enteredOr(number(*c.AltitudeM, 0, quantity.Metre).String(), "conditions", "altitude"))}
}

// conditionWords are the conditions that were recorded.
func (v *view) conditionWords() []string {
	c := v.test.Conditions
	parts := append(v.temperatureWords(), v.turningWords()...)
	add := func(key string, pairs ...any) { parts = append(parts, v.label("method."+key, pairs...)) }
	parts = append(parts, v.batteryWords()...)
	parts = append(parts, v.altitudeWords()...)
	if c.BarometerKPa != nil {
		add("barometer", "pressure", v.enteredOr(number(*c.BarometerKPa, 1, quantity.KPa).String(), "conditions", "barometer"))
	}
	if c.Needle != "" {
		add("needle", "needle", v.term("needle", c.Needle))
	}
	if c.IgnitionDisabled != "" {
		add("ignition", "how", c.IgnitionDisabled)
	}
	if c.FuelDisabled != "" {
		add("fuel", "how", c.FuelDisabled)
	}
	if comp := v.test.Compression; comp != nil && comp.OilML > 0 {
		add("oil", "dose", v.enteredOr(number(comp.OilML, 0, quantity.Millilitre).String(), "compression", "oil"))
	}
	if comp := v.test.Compression; comp != nil && len(comp.Order) > 0 && v.sheet.Record {
		add("order", "order", strings.Join(comp.Order, "-"), "counted", counted(comp.Order))
	}
	return parts
}

// counted reports names that are the numbers from 1, one after the other.
func counted(names []string) bool {
	for i, name := range names {
		if name != strconv.Itoa(i+1) {
			return false
		}
	}
	return true
}

func (v *view) batteryWords() []string {
	b := v.test.Conditions.Battery
	var parts []string
	if b.RestV != nil {
		parts = append(parts, v.label("method.battery-rest", "volts", number(*b.RestV, 1, quantity.Volt)))
	}
	if b.CrankingV != nil {
		parts = append(parts, v.label("method.battery-cranking", "volts", number(*b.CrankingV, 1, quantity.Volt)))
	}
	if b.Charger == diag.Yes {
		parts = append(parts, v.label("method.charger"))
	}
	return parts
}

// enteredOr is a value as the job file has it, with its unit kept on its line.
func (v *view) enteredOr(fallback string, path ...string) string {
	if s := v.job.Entered(path...); s != "" {
		return strings.ReplaceAll(s, " ", "\u00a0")
	}
	return fallback
}

func (v *view) prefixed(key, value string) string {
	if value == "" {
		return ""
	}
	return v.label(key, "value", value)
}

// unrecorded names the conditions that another mechanic would need and the
// job does not have.
func (v *view) unrecorded() []string {
	var missing []string
	lacks := func(lacking bool, key string) {
		if lacking {
			missing = append(missing, v.label("missing."+key))
		}
	}
	c := v.test.Conditions
	if v.compression() != nil || v.rotors() != nil {
		lacks(c.Engine == "", "engine")
		if v.rotors() == nil {
			lacks(c.Throttle == "" && !v.test.Spec.Diesel(), "throttle")
			lacks(c.PlugsOut == "" && len(v.engine.Cylinders) > 1 && !v.test.Spec.Diesel(), "plugs-out")
			lacks(c.Strokes == 0, "strokes")
		}
		lacks(c.CrankingRPM == nil && c.Battery.CrankingV == nil && (v.test.Rotors == nil || v.test.Rotors.CrankingRPM == 0), "cranking")
		lacks(gaugeUnknown(v.test.Gauges.Compression), lackOf(v.test.Gauges.Compression, "gauge"))
	}
	if v.leakage() != nil {
		g := v.test.Gauges.Leakage
		lacks(g == nil || g.Supply == 0, "supply")
		lacks(g == nil || g.OrificeMM == 0, "orifice")
		lacks(c.Engine == "" && v.test.Leakage.Engine == "" && v.compression() == nil, "engine")
	}
	if v.fuel() != nil {
		lacks(gaugeUnknown(v.test.Gauges.Fuel), lackOf(v.test.Gauges.Fuel, "fuel-gauge"))
		lacks(v.test.Fuel.System == "", "fuel-system")
	}
	return missing
}

func gaugeUnknown(g *diag.Gauge) bool { return g == nil || g.AccuracyText == "" }

// lackOf is what is missing of a gauge: all of it, or, where the job names it, how far
// it can be off.
func lackOf(g *diag.Gauge, key string) string {
	if g != nil && g.Name != "" {
		return key + "-accuracy"
	}
	return key
}

// names are the cylinders, or the rotors of a rotary.
func (v *view) names() []string {
	if v.engine.Kind == engine.Rotary {
		var names []string
		for _, r := range v.engine.Rotors {
			names = append(names, r.Name)
		}
		return names
	}
	return v.engine.Names()
}
