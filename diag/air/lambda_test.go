package air

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// TestLambda holds the formula against the lambda that inspection stations'
// own analysers printed beside their gases: 49 rows of the Estonian Road
// Administration's open data (testdata/lambda_rows.LICENCE.txt). Analysers cut
// the last digit and take hydrocarbons a little otherwise, which is why more of
// them allow a wider difference.
func TestLambda(t *testing.T) {
	f, err := os.Open("testdata/lambda_rows.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) != 50 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for i, row := range rows[1:] {
		var v [6]float64
		for k := range v {
			if v[k], err = strconv.ParseFloat(row[k+1], 64); err != nil {
				t.Fatalf("row %d: %v", i+2, err)
			}
		}
		gas := ExhaustGas{CO: v[0], CO2: v[1], HC: v[2], O2: v[3]}
		allowed := 0.008
		switch {
		case gas.HC <= 60:
			allowed = 0.002
		case gas.HC <= 300:
			allowed = 0.005
		}
		got, err := Lambda(gas)
		if err != nil {
			t.Errorf("row %d: %v", i+2, err)
			continue
		}
		if math.Abs(got-v[4]) > allowed {
			t.Errorf("row %d: %+v: lambda %.4f, the analyser printed %.3f", i+2, gas, got, v[4])
		}
	}
}

func TestLambdaRefuses(t *testing.T) {
	for _, gas := range []ExhaustGas{
		{CO: 1, CO2: 4.9, O2: 10, HC: 100},   // thinned by air: 40 CFR 85.2213 (a)(3)
		{CO: 0.5, CO2: 14, O2: 1, HC: 2500},  // more hydrocarbons than can be trusted
		{CO: 9, CO2: 0, O2: 1, HC: 100},      // no fire makes that
		{CO: math.NaN(), CO2: 14, O2: 1},     // not a number
		{CO: 0.5, CO2: 14, O2: math.Inf(1)},  // nor a quantity
		{CO: 0.5, CO2: 14, O2: 0.5, HC: -20}, // less than none
	} {
		if got, err := Lambda(gas); err == nil {
			t.Errorf("%+v gives %v, expected an error", gas, got)
		}
	}
	if _, err := Lambda(ExhaustGas{CO: 1, CO2: 5, O2: 8, HC: 50}); err != nil { // equal passes
		t.Error(err)
	}
}
