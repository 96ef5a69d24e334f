package known_test

import (
	"slices"
	"testing"

	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule/sample"
)

// TestWroteIsWhatIsRead: what a trial notes of a check says the same to the
// program that wrote it as to one that reads it in a job.
func TestWroteIsWhatIsRead(t *testing.T) {
	noted := 0
	for _, layout := range []string{"inline-4", "V8"} {
		test := sample.Of(layout)
		for _, cylinders := range [][]string{nil, {"3"}, {"2", "3"}} {
			for i := range cause.Checks {
				k := &cause.Checks[i]
				for j := range k.Outcomes {
					after := cause.Try(known.New(test), k, &k.Outcomes[j], cylinders)
					wrote := after.Works()
					if len(wrote) == 0 {
						continue // entered as a reading
					}
					read := known.New(after.Test).Works()
					if len(read) != 1 || read[0].Text != wrote[0].Text || !slices.Equal(read[0].Cylinders, wrote[0].Cylinders) {
						t.Errorf("%s: wrote %q of %q, read %v", k.Name, wrote[0].Text, wrote[0].Cylinders, read)
					}
					noted++
				}
			}
		}
	}
	if noted == 0 {
		t.Error("nothing was noted")
	}
}
