package laws_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"
)

// TestReadingsThatCannotBe checks law T7: a reading that cannot be is an error
// that says what was probably meant, or a notice that comes first, and makes no
// other cylinder look dead. The bounds are the law's: the gauge's range, 350
// psi of compression on petrol, 700 on diesel, 120 psi of fuel pressure on
// petrol unless injection is direct, and a date that is still to come.
func TestReadingsThatCannotBe(t *testing.T) {
	const four, gauge = "engine: {layout: inline-4, fuel: petrol}\n", "gauges: {compression: {range: 0-300 psi}}\n"
	for _, c := range []struct{ name, job, meant string }{
		{"a digit too many", four + "compression: {unit: psi, dry: [145, 1450, 150, 148]}\n", "145"},
		{"a digit too many, beyond the gauge", four + gauge + "compression: {unit: psi, dry: [145, 1450, 150, 148]}\n", "145"},
		{"a dot left out in bar", four + "compression: {unit: bar, dry: [10.2, 102, 10.1, 10.4]}\n", "10.2"},
		{"a digit too many in kPa", four + "compression: {unit: kPa, dry: [1020, 1010, 10300, 1040]}\n", "1030"},
		{"beyond the gauge's range", four + gauge + "compression: {unit: psi, dry: [145, 148, 310, 148]}\n", ""},
		{"over 350 psi on petrol", four + "compression: {unit: psi, dry: [380, 390, 385, 379]}\n", ""},
		{"over 700 psi on diesel", "engine: {layout: inline-4, fuel: diesel}\ncompression: {unit: psi, dry: [410, 4150, 400, 405]}\n", "415"},
		{"fuel pressure over 120 psi on petrol", four + "fuel-pressure: {unit: psi, system: \"port, return line\", idle: 380}\n", "38"},
		{"a date to come", "job: {date: 2199-05-14}\n" + four + "compression: {unit: psi, dry: [145, 148, 150, 148]}\n", ""},
		{"wet beyond what can be", four + "compression: {unit: psi, dry: [145, 148, 90, 148], wet: {3: 1300}}\n", "130"},
		{"a rotor's face", "engine: {layout: rotary-2}\nrotors: {unit: bar, faces: {1: [7.4, 72, 7.3], 2: [7.2, 7.3, 7.1]}}\n", "7.2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			today := reader
			today.Today = time.Date(2026, 5, 20, 0, 0, 0, 0, time.UTC) // for the date to come
			j, problems := today.Read("job.yaml", []byte(c.job))
			if len(problems) > 0 {
				said := ""
				for _, p := range problems {
					said += p.Message + " " + p.Hint + "\n"
				}
				if !strings.Contains(said, c.meant) {
					report(t, "T7 impossible readings", "the reader does not offer %q: %s", c.meant, said)
				}
				return
			}
			s, err := subjectOfJob(0, newTree(), j)
			if err != nil {
				t.Fatal(err)
			}
			var remarks []string
			for _, n := range s.out.Notices {
				remarks = append(remarks, n.Rule)
			}
			leads := len(remarks) > 0 && slices.Contains([]string{"unit-suspect", "reading-beyond-gauge", "date-to-come", "units-contradict"}, remarks[0])
			if !leads || c.meant != "" && !strings.Contains(fmt.Sprint(s.out.Notices), c.meant) {
				report(t, "T7 impossible readings", "it is read, and no notice leads that offers %q: %q", c.meant, remarks)
			}
			for _, one := range s.out.Compression.Cylinders {
				if slices.Contains([]string{"low", "very low", "no pressure"}, one.Grade) && one.Entered != "90" {
					report(t, "T7 impossible readings", "cylinder %s, %s, is graded %q beside a reading that cannot be", one.Cylinder, one.Entered, one.Grade)
				}
			}
		})
	}
}
