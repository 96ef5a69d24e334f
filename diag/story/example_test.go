package story_test

import (
	"fmt"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/story"
)

// What one low cylinder of four points to, and what to do about it first.
func ExampleDiagnose() {
	four, problems := engine.New(engine.Spec{Layout: "inline-4"})
	if len(problems) > 0 {
		fmt.Println(problems)
		return
	}
	dry := map[string]diag.Reading{}
	for i, value := range []float64{158, 160, 62, 157} {
		dry[four.Names()[i]] = diag.Reading{State: diag.Tested, Values: []float64{value}}
	}
	d := story.Diagnose(&diag.Test{
		Engine:      four,
		Spec:        diag.Spec{Fuel: "petrol"},
		Compression: &diag.Compression{State: diag.Tested, Unit: quantity.PSI, Dry: dry},
		Leakage: &diag.Leakage{State: diag.Tested, Dry: map[string]diag.Leak{
			"3": {Reading: diag.Reading{State: diag.Tested, Values: []float64{60}}, At: []string{"exhaust"}},
		}},
	})
	first := d.Stories[0]
	fmt.Println(first.About, first.Cylinders, first.Urgency, first.Confidence)
	for _, c := range first.Causes {
		fmt.Println("cause:", c.Key)
	}
	for _, e := range first.Ledger {
		if e.Cause == first.Causes[0].Key {
			fmt.Printf("%+d by %s\n", e.Weight, e.By)
		}
	}
	if first.Next != nil {
		fmt.Println("next:", first.Next.Key)
	}
	// Output:
	// cylinders [3] act soon strong
	// cause: exhaust-valve
	// cause: valve-lash
	// cause: carbon-on-seat
	// +20 by exhaust-valve-agrees
	// +50 by one-low
	// +100 by leaks-at-exhaust
	// next: valve-lash
}
