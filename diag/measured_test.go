package diag

import (
	"testing"

	"gaugesheet/diag/quantity"
)

// TestThousandths: a clearance in thousandths of an inch keeps its last place, whatever
// unit it is told in.
func TestThousandths(t *testing.T) {
	for _, row := range []struct {
		entered string
		unit    quantity.Unit
		value   float64
		want    int
	}{
		{"12 thou", quantity.Millimetre, 0.3048, 2}, {"12 thou", quantity.Inch, 0.012, 3}, {"6.5 thou", quantity.Inch, 0.0065, 4},
		{"0.30", quantity.Millimetre, 0.30, 2}, {"0.012", quantity.Inch, 0.012, 3}, {"45", quantity.PSI, 45, 0},
	} {
		one := Measurement{Unit: row.unit, Reading: Reading{Values: []float64{row.value}, Entered: row.entered}}
		if got := decimalsRead(one); got != row.want {
			t.Errorf("%s in %s: %d decimals, want %d", row.entered, row.unit, got, row.want)
		}
	}
}
