package job

import (
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

var (
	coolants   = bounds{[]quantity.Unit{quantity.Celsius, quantity.Fahrenheit, quantity.Kelvin}, -60, 200, [2]float64{-25, 125}}
	crankings  = bounds{[]quantity.Unit{quantity.RPM}, 1, 2000, [2]float64{60, 1500}}
	voltages   = bounds{[]quantity.Unit{quantity.Volt}, 0, 60, [2]float64{4, 30}}
	altitudes  = bounds{[]quantity.Unit{quantity.Metre, quantity.Foot, quantity.Kilometre}, -500, 9000, [2]float64{0, 4500}}
	barometers = bounds{[]quantity.Unit{quantity.KPa, quantity.InHg, quantity.HPa, quantity.Bar, quantity.PSI}, 30, 110, [2]float64{55, 108}}
)

// altitude is that of the shop; the sea's is said in words.
func (s *section) altitude() *float64 {
	if n := s.get("altitude"); n != nil && n.kind == scalar {
		for _, behind := range []string{" above sea level", " above the sea", " asl", " amsl"} {
			if figure, ok := strings.CutSuffix(fold(n.text), behind); ok {
				n.text = figure
			}
		}
	}
	if n := s.get("altitude"); n != nil && n.kind == scalar && strings.TrimPrefix(plainWords(n.text), "at ") == "sea level" {
		return new(float64)
	}
	return s.amount("altitude", altitudes)
}

// mostStrokes is beyond what any battery turns an engine in one test.
const mostStrokes = 200

func (r *reader) conditions(top *section) diag.Conditions {
	s := top.group("conditions")
	battery := s.group("battery")
	if s.get("altitude") != nil && s.get("barometer") != nil {
		r.report(s.keyPos("altitude"), "keep the barometer, if it is the pressure at the shop, not reduced to sea level: it is the better of the two",
			"'conditions' has 'altitude' and 'barometer', expected one of the two")
	}
	return diag.Conditions{
		Engine:      s.word("engine").Value,
		CoolantC:    s.amount("coolant", coolants),
		Throttle:    s.word("throttle").Value,
		PlugsOut:    s.word("plugs-out").Value,
		Strokes:     s.whole("strokes", 1, mostStrokes),
		CrankingRPM: s.amount("cranking", crankings),
		Battery: diag.Battery{
			RestV:     battery.amount("rest", voltages),
			CrankingV: battery.amount("cranking", voltages),
			Charger:   battery.yesNo("charger"),
		},
		AltitudeM:        s.altitude(),
		BarometerKPa:     s.amount("barometer", barometers),
		Choke:            s.scalarText("choke"),
		Needle:           s.word("needle").Value,
		Method:           s.scalarText("method"),
		IgnitionDisabled: s.scalarText("ignition-disabled"),
		FuelDisabled:     s.scalarText("fuel-disabled"),
	}
}
