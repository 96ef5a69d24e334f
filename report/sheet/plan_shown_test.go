package sheet_test

import (
	"bytes"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/story"
	"gaugesheet/report/sheet"
)

// TestPlanThatIsNotShown: a sheet that has no room for the step behind the next
// check is the same to the byte where that step was not tried out.
func TestPlanThatIsNotShown(t *testing.T) {
	shown := 0
	for _, path := range examples(t) {
		j := readExample(t, path)
		for kind := range smallestType {
			o := sheet.Options{Kind: kind, Version: "test"}
			if o.ShowsPlan(j) {
				shown++
				continue
			}
			var files [2][]byte
			for i, d := range []*diag.Diagnosis{diagnosed(j), story.UpToNext(j.Test())} {
				s, err := sheet.New(j, d, o)
				if err != nil {
					t.Fatal(err)
				}
				if files[i], err = s.PDF(); err != nil {
					t.Fatal(err)
				}
			}
			if !bytes.Equal(files[0], files[1]) {
				t.Errorf("%s, %s: the plan changes the sheet", path, kind)
			}
			if testing.Short() {
				break
			}
		}
	}
	if shown == 0 && !testing.Short() {
		t.Error("no sheet shows a plan")
	}
}
