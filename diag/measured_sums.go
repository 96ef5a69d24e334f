package diag

import (
	"math"

	"gaugesheet/diag/air"
	"gaugesheet/diag/quantity"
)

// workedOut are the readings that follow from others of the same test, which a limit may
// be for like for one that was read.
var workedOut = map[string]func(*MeasuredResult, *Measured){
	"exhaust-gas":    (*MeasuredResult).addLambda,
	"magnetos":       (*MeasuredResult).addDifference,
	"crankcase-hold": (*MeasuredResult).addFall,
}

// add judges a reading that was worked out by its own uncertainty, and keeps it.
func (r *MeasuredResult) add(m *Measured, one MeasuredReading) {
	judged := m.judge(Measurement{Name: one.Name, At: one.At, Unit: one.Unit, Reading: Reading{State: Tested, Values: []float64{one.Value}}}, one.Value)
	judged.Decimals, judged.Uncertainty = one.Decimals, one.Uncertainty
	judged.Verdict, judged.PastAsRead = NotJudged, false
	if judged.Limited() {
		low, high := math.Inf(-1), math.Inf(1)
		if judged.LimitLow != nil {
			low = *judged.LimitLow
		}
		if judged.LimitHigh != nil {
			high = *judged.LimitHigh
		}
		judged.Verdict, judged.PastAsRead = judgeRange(one.Value, low, high, one.Uncertainty, one.Kind == AtLeast)
	}
	r.Readings = append(r.Readings, judged)
}

// difference is of two readings taken one after the other with the same gauge: its error
// falls out, and what is left is how finely both were read (repeatOf), in the unit of the
// first.
func difference(a, b *MeasuredReading) (value, uncertainty float64, decimals int) {
	other, _ := quantity.Convert(b.Value, b.Unit, a.Unit)
	decimals = max(a.Decimals, b.Decimals)
	step := math.Pow(10, -float64(decimals)) / math.Sqrt(12)
	return a.Value - other, 2 * math.Sqrt2 * step, decimals
}

// MagnetoDifference is by how much the drops of the two magnetos differ.
const MagnetoDifference = "difference"

// addDifference works out how far the two magnetos are apart.
func (r *MeasuredResult) addDifference(m *Measured) {
	left, right := r.Reading("left"), r.Reading("right")
	if left == nil || right == nil {
		return
	}
	v, u, decimals := difference(left, right)
	r.add(m, MeasuredReading{Name: MagnetoDifference, Value: math.Abs(v), Unit: left.Unit, Decimals: decimals, Uncertainty: u})
}

// HeldFall is by how much a pressure fell that was watched.
const HeldFall = "fall"

// addFall works out how far a crankcase's pressure fell by each time at which it was read.
func (r *MeasuredResult) addFall(m *Measured) {
	from := r.Reading("pumped-to")
	if from == nil {
		return
	}
	for i := range r.Readings {
		if to := r.Readings[i]; to.Name == "hold" {
			v, u, decimals := difference(from, &to)
			r.add(m, MeasuredReading{Name: HeldFall, At: to.At, Value: v, Unit: from.Unit, Decimals: decimals, Uncertainty: u})
		}
	}
}

// LambdaReading is the reading that follows from the exhaust gases of a speed.
const LambdaReading = "lambda"

// addLambda works out lambda at each speed at which all gases were read.
func (r *MeasuredResult) addLambda(m *Measured) {
	for _, speed := range r.Speeds() {
		co, co2 := r.ReadingAt("gas co", speed), r.ReadingAt("gas co2", speed)
		o2, hc := r.ReadingAt("gas o2", speed), r.ReadingAt("gas hc", speed)
		if co == nil || co2 == nil || o2 == nil || hc == nil {
			continue
		}
		lambda, err := air.Lambda(air.ExhaustGas{CO: co.Value, CO2: co2.Value, O2: o2.Value, HC: hc.Value})
		if err != nil {
			continue // the rules say why
		}
		r.add(m, MeasuredReading{Name: LambdaReading, At: speed, Value: lambda, Decimals: 3, Uncertainty: lambdaError})
	}
}

// lambdaError is how far a lambda from the last digits of the gases lies off:
// nearly all of 11 122 official readings agree within it (the open data of the
// Estonian Road Administration, 2019).
const lambdaError = 0.006
