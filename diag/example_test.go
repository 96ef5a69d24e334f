package diag_test

import (
	"fmt"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// The sums on four readings and on the difference that a book allows.
func ExampleAssess() {
	four, problems := engine.New(engine.Spec{Layout: "inline-4"})
	if len(problems) > 0 {
		fmt.Println(problems)
		return
	}
	dry := map[string]diag.Reading{}
	for i, value := range []float64{158, 160, 118, 157} {
		dry[four.Names()[i]] = diag.Reading{State: diag.Tested, Values: []float64{value}}
	}
	d := diag.Assess(&diag.Test{
		Engine: four,
		Compression: &diag.Compression{State: diag.Tested, Unit: quantity.PSI, Dry: dry,
			Limits: []diag.Limit{{Kind: diag.Difference, Value: 25, Unit: quantity.PSI, Entered: "25 psi"}}},
	})
	c := d.Compression
	fmt.Printf("%g to %g %s, %.1f %% apart\n", c.Lowest, c.Highest, c.Unit, c.SpreadPercentOfHighest)
	for _, one := range c.Cylinders {
		fmt.Println(one.Name, one.Grade)
	}
	limit := c.Limits[0]
	fmt.Printf("%s %g: %s, found %g, uncertain by %.1f\n", limit.Rule, limit.Limit, limit.Verdict, limit.Value, limit.Uncertainty)
	// Output:
	// 118 to 160 psi, 26.2 % apart
	// 1 even
	// 2 even
	// 3 low
	// 4 even
	// difference 25: outside, found 42, uncertain by 2.8
}
