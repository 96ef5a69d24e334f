package sheet_test

import "testing"

// Jobs with next to nothing in them, or with readings that leave nothing to
// judge, make a page too.
func TestJobsWithLittleToJudge(t *testing.T) {
	for name, data := range map[string]string{
		"leakage after oil only": "engine: {layout: inline-4}\nleakage: {wet: {1: {loss: 10 %}}}\n",
		"leakage repeats apart":  "engine: {layout: inline-2}\nleakage: {limit: 20 %, dry: {1: {loss: [10 %, 40 %]}, 2: not tested}}\n",
		"wet readings only":      "engine: {layout: inline-4}\ncompression: {unit: psi, wet: {1: 100}}\n",
		"one rotor":              "engine: {layout: rotary-1}\nrotors: {unit: bar, faces: {1: [7, 7, 7]}, limits: {between-rotors: 1 bar, minimum: 6 bar}}\n",
		"plugs in every state":   "engine: {layout: inline-4}\nplugs: {looks: {1: declined, 2: sooty, 3: not tested, 4: damaged}}\n",
		"fuel in the hose only":  "engine: {layout: inline-3}\nfuel-pressure: {system: 'port, return line', fuel-in-hose: yes}\n",
		"two units apart": "engine: {layout: inline-4, fuel: diesel}\noil-pressure: {unit: bar, idle: 4 bar (80 psi)}\ndiesel: {return: {unit: ml, in: 15 s, cylinders: {1: 12 ml (15 ml)}}}\n" +
			"cooling: {pressure-test: {pumped-to: 15 psi (3 bar), hold: {5 min: 14 psi}}}\nother-readings: [{name: gearbox, reading: 4 bar (80 psi)}]\n",
	} {
		j := readJob(t, name+".yaml", []byte(data))
		for kind := range smallestType {
			t.Run(name+"/"+kind, func(t *testing.T) { checkPage(t, drawn(t, j, kind, "letter"), kind, "letter") })
		}
	}
}
