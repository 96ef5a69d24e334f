package sample

import (
	"math"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// supplyRows are tests of what a pump, a regulator and a rail do beside their
// steady pressure, of the mixture behind it, and of rotors without pressure.
func supplyRows() []Row {
	book := []diag.FuelLimit{Range("key-on", 38, 44)}
	holds := func(low, high float64) diag.FuelLimit {
		return diag.FuelLimit{For: "hold", Low: low, High: high, Minutes: 5, Entered: "30-45 psi after 5 min"}
	}
	volume := func(low, high float64, entered string) diag.FuelLimit {
		return diag.FuelLimit{For: "volume", Low: low, High: high, Minutes: 0.5, Entered: entered}
	}
	rail := func(k diag.Circuit, changes ...Change) *diag.Test {
		return Of("inline-4", append([]Change{Fuel(returnLine, k)}, changes...)...)
	}
	return []Row{
		{Name: "key-on far under idle", Test: Of("inline-4", Fuel("port, no return", diag.Circuit{KeyOn: PSI(35), Idle: PSI(57), Limits: []diag.FuelLimit{Range("key-on", 55, 62), Range("idle", 55, 62)}})), Fires: []string{"key-on-under-idle"}},
		{Name: "a pump weak against the closed return", Test: rail(diag.Circuit{KeyOn: PSI(41), ReturnPinched: PSI(50), Limits: append(book, Range("return-pinched", 70, 0))}), Fires: []string{"pump-pressure-low"}, Not: []string{"fuel-pressure-right"}},
		{Name: "a pump too strong against the closed return", Test: rail(diag.Circuit{KeyOn: PSI(41), ReturnPinched: PSI(99), Limits: append(book, Range("return-pinched", 60, 85))}), Fires: []string{"pump-pressure-high"}, Not: []string{"fuel-pressure-right"}},
		{Name: "volume read in another time than its limit's", Test: rail(diag.Circuit{KeyOn: PSI(41), VolumeML: 90, VolumeSeconds: 15, VolumeEntered: "90 ml in 15 s", Limits: append(book, volume(900, math.Inf(1), "at least 450 ml in 30 s"))}), Fires: []string{"pump-volume-low"}},
		{Name: "volume over its limit", Test: rail(diag.Circuit{KeyOn: PSI(41), VolumeML: 900, VolumeSeconds: 15, VolumeEntered: "900 ml in 15 s", Limits: append(book, volume(math.Inf(-1), 2400, "at most 1200 ml in 30 s"))}), Fires: []string{"pump-volume-high"}},
		{Name: "held over its limit", Test: rail(diag.Circuit{KeyOn: PSI(41), Hold: []diag.HoldReading{Held(5, 60)}, Limits: append(book, holds(30, 45))}), Fires: []string{"rises-after-key-off"}, Not: []string{"fuel-pressure-right"}},
		{Name: "right cold, nothing hot", Test: Of("V8", Fuel("carburettor", diag.Circuit{Name: "cold", Idle: PSI(4.5), Limits: []diag.FuelLimit{Range("idle", 4, 6)}}), Fuel("carburettor", diag.Circuit{Name: "hot", Idle: PSI(0.2), Limits: []diag.FuelLimit{Range("idle", 4, 6)}})),
			Fires: []string{"fuel-falls-when-hot", "no-fuel-pressure"}},
		{Name: "rich, pressure right, held not read", Test: rail(diag.Circuit{KeyOn: PSI(40), Limits: book}, Complains("rich running")), Fires: []string{"rich-pressure-right"}},
		{Name: "rich, no limit", Test: rail(diag.Circuit{KeyOn: PSI(40)}, Complains("rich running")), Fires: []string{"rich-pressure-open"}},
		{Name: "one wet plug and a rail that does not hold", Test: rail(diag.Circuit{KeyOn: PSI(41), Hold: []diag.HoldReading{Held(5, 10)}, Limits: append(book, holds(30, math.Inf(1)))}, Looks("normal", "normal", "fuel-wet", "normal")), Fires: []string{"injector-agrees"}},
		{Name: "one wet plug, a rail that does not hold and oil that smells", Test: rail(diag.Circuit{KeyOn: PSI(41), Hold: []diag.HoldReading{Held(5, 10)}, Limits: append(book, holds(30, math.Inf(1)))}, Looks("normal", "normal", "fuel-wet", "normal"), Found("oil smells of fuel")), Fires: []string{"injector-fills-the-oil"}},
		{Name: "one sooty plug and a rail that does not hold", Test: rail(diag.Circuit{KeyOn: PSI(41), Hold: []diag.HoldReading{Held(5, 10)}}, Looks("normal", "normal", "sooty", "normal")), Fires: []string{"injector-agrees"}},
		{Name: "rotor with a dead face", Test: Faces([][3]float64{{8.2, 8.1, 8.0}, {8.0, 8.1, 0}}), Fires: []string{"one-face-low"}},
		{Name: "both rotors with a dead face", Test: Faces([][3]float64{{8.2, 8.1, 0}, {8.0, 8.1, 0}}), Fires: []string{"one-face-low"}},
		{Name: "rotor with two faces down", Test: Faces([][3]float64{{8.2, 8.1, 8.0}, {8.0, 0.2, 0}}), Fires: []string{"two-faces-low"}},
		{Name: "rotors without pressure after a no-start", Test: Faces([][3]float64{{0, 0, 0}, {0.5, 0.4, 0.3}}, Complains("no start")), Fires: []string{"rotor-low"}},
		{Name: "rotors under every known minimum", Test: Faces([][3]float64{{2.8, 2.7, 2.8}, {2.6, 2.7, 2.6}}), Fires: []string{"rotor-low"}},
		{Name: "rotors low and wet after a no-start", Test: Faces([][3]float64{{3.6, 3.5, 3.8}, {3.3, 3.2, 3.5}}, Complains("no start"), Plug("fuel-wet", "front", "rear")), Fires: []string{"rotors-low-and-wet"}, Not: []string{"rotors-apart"}},
		{Name: "all under the minimum, one face far below", Test: Faces([][3]float64{{8.2, 8.1, 8.0}, {6.0, 5.9, 3.9}}, func(t *diag.Test) {
			t.Rotors.Minimum = &diag.Limit{Kind: diag.Minimum, Value: 6.9, Unit: quantity.KgfPerCm2}
			t.Rotors.Faces = &diag.Limit{Value: 1.5, Unit: quantity.KgfPerCm2}
		}), Fires: []string{"one-face-low"}, Not: []string{"rotor-low"}},
	}
}
