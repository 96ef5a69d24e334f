package known

import (
	"math"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/air"
)

// Figures for trims and gases without a limit. What trims mean: common practice,
// no source; how far banks may differ and what a miss shows: judgement.
const (
	trimFar, trimNear = 10.0, 5.0 // percent
	trimsApart        = 8.0       // points between banks
	lambdaLean        = 1.03      // the band of Directive 2014/45/EU annex I 8.2.1.2, from memory
	lambdaRich        = 0.97
	missHC            = 300.0 // ppm
	missO2            = 1.5   // percent
	missCO            = 1.0   // percent, under it
)

// A Trim is the sum of short- and long-term trim of a bank at a speed, in
// percent.
type Trim struct {
	Speed, Bank string
	Sum         float64
}

// Trims gives the sums that were read, in the order of the job; none of a diesel, whose
// computer holds no mixture by them.
func (c *Case) Trims() []Trim {
	r := c.Measured(Trims)
	if r == nil || c.Spec.Diesel() {
		return nil
	}
	var list []Trim
	for _, m := range r.Readings {
		speed, bank := trimPlace(m.At)
		at := -1
		for i := range list {
			if list[i].Speed == speed && list[i].Bank == bank {
				at = i
			}
		}
		if at < 0 {
			list, at = append(list, Trim{Speed: speed, Bank: bank}), len(list)
		}
		list[at].Sum += m.Value
	}
	if len(c.Engine.Banks) < 2 && !slices.ContainsFunc(list, func(t Trim) bool { return t.Bank != list[0].Bank }) {
		for i := range list { // the only bank has no name of its own
			list[i].Bank = ""
		}
	}
	return list
}

// trimPlace takes 'idle bank 1' and '2500 rpm bank 1' apart.
func trimPlace(at string) (speed, bank string) {
	if rest, ok := strings.CutPrefix(at, "idle"); ok {
		return "idle", strings.TrimSpace(rest)
	}
	if before, after, ok := strings.Cut(at, "rpm"); ok {
		return before + "rpm", strings.TrimSpace(after)
	}
	return at, ""
}

// AirAtIdle is a trim that adds much fuel at idle and little at speed, or half as
// much at most, for one bank; false for none.
func (c *Case) AirAtIdle() (idle, fast Trim, ok bool) {
	return c.trimPair(func(idle, fast float64) bool { return idle > trimFar && fast < max(trimNear, idle/2+tinyTrim) })
}

// tinyTrim takes up what sums of tenths are off.
const tinyTrim = 1e-6

// LeanThroughout is a trim that adds much fuel at idle and at speed, as much or
// somewhat less.
func (c *Case) LeanThroughout() (idle, fast Trim, ok bool) {
	return c.trimPair(func(idle, fast float64) bool { return fast > trimFar && fast <= idle && 2*fast > idle })
}

// LeanAtSpeed is one that adds the more the faster the engine turns.
func (c *Case) LeanAtSpeed() (idle, fast Trim, ok bool) {
	return c.trimPair(func(idle, fast float64) bool { return fast > trimFar && fast > idle })
}

// RichAtSpeed is a trim that takes much fuel out at speed and hardly any at idle, or half as
// much at most.
func (c *Case) RichAtSpeed() (idle, fast Trim, ok bool) {
	return c.trimPair(func(idle, fast float64) bool { return fast < -trimFar && idle > fast/2-tinyTrim })
}

// RichAtIdle is one that takes much out at idle and hardly any at speed, or half as much at
// most.
func (c *Case) RichAtIdle() (idle, fast Trim, ok bool) {
	return c.trimPair(func(idle, fast float64) bool { return idle < -trimFar && fast > idle/2-tinyTrim })
}

func (c *Case) trimPair(is func(idle, fast float64) bool) (Trim, Trim, bool) {
	for _, a := range c.Trims() {
		for _, b := range c.Trims() {
			if a.Speed == "idle" && b.Speed != "idle" && a.Bank == b.Bank && is(a.Sum, b.Sum) {
				return a, b, true
			}
		}
	}
	return Trim{}, Trim{}, false
}

// OtherBankToo reports a trim beside which that of another bank is as far off the same way.
func (c *Case) OtherBankToo(t Trim) bool {
	return slices.ContainsFunc(c.Trims(), func(o Trim) bool {
		return o.Bank != t.Bank && o.Speed == t.Speed && (o.Sum > trimFar) == (t.Sum > trimFar) && (o.Sum < -trimFar) == (t.Sum < -trimFar)
	})
}

// TakesOut is a trim that takes much fuel out.
func (c *Case) TakesOut() (Trim, bool) {
	for _, t := range c.Trims() {
		if t.Sum < -trimFar {
			return t, true
		}
	}
	return Trim{}, false
}

// SootyWhereRich are the sooty plugs of a bank, or of the only one, out of which the
// computer takes much fuel: not more than half of those that were looked at there, and
// none elsewhere.
func (c *Case) SootyWhereRich() []string {
	t, rich := c.TakesOut()
	if !rich {
		return nil
	}
	return c.fewOfBank(t, "sooty")
}

// WhiteWhereLean are the white plugs of a bank, or of the only one, to which the
// computer adds much fuel at speed: not more than half of those that were looked at
// there, and none elsewhere.
func (c *Case) WhiteWhereLean() []string {
	_, t, lean := c.LeanAtSpeed()
	if !lean {
		_, t, lean = c.LeanThroughout()
	}
	if !lean {
		return nil
	}
	return c.fewOfBank(t, "white")
}

// AirAtOne are the cylinders of a bank, or of the only one, to which the computer adds much fuel at
// idle and little at speed, whose plugs are white, or that hardly pull where none is: not more
// than half of those that were looked at there, and none elsewhere. Their own joint lets the air in.
func (c *Case) AirAtOne() []string {
	idle, _, air := c.AirAtIdle()
	if !air || !BalanceTells.HoldsIn(c) || c.WeakBank() != nil {
		return nil
	}
	if len(c.Looking("white")) > 0 {
		return c.fewOfBank(idle, "white")
	}
	weak := c.Those(func(n string) bool { return PullsLittle.HoldsOf(c, n) })
	of := c.Those(func(n string) bool { return !c.Engine.IsTwoBank() || c.Engine.BankOf(n) == c.bankOfTrim(idle) })
	if 2*len(weak) > len(of) || slices.ContainsFunc(weak, func(n string) bool {
		return !slices.Contains(of, n) || c.Grade(n).IsLow() || c.HighLoss(n) || c.Looks(n, "fuel-wet", "sooty", "oil-wet")
	}) {
		return nil
	}
	return weak
}

// fewOfBank are the plugs of a look, where all are of the bank of a trim and not more
// than half of those looked at there.
func (c *Case) fewOfBank(t Trim, look string) []string {
	such := c.Looking(look)
	if len(such) == 0 {
		return nil
	}
	bank, looked := c.bankOfTrim(t), 0
	for _, n := range c.PlugsRead() {
		of := !c.Engine.IsTwoBank() || c.Engine.BankOf(n) == bank
		if !of && slices.Contains(such, n) {
			return nil
		}
		if of {
			looked++
		}
	}
	if 2*len(such) > looked {
		return nil
	}
	return such
}

// bankOfTrim is the bank that a trim is of, by its place in the engine: the first is
// that of the first cylinder.
func (c *Case) bankOfTrim(t Trim) int {
	bank := 0
	if t.Bank == "bank 2" && c.Engine.IsTwoBank() {
		bank = 1
	}
	if c.Engine.IsTwoBank() && len(c.Every()) > 0 && c.Engine.BankOf(c.Engine.Cylinders[0].Name) == 1 {
		bank = 1 - bank
	}
	return bank
}

// TrimsOpposed reports two banks of which the computer adds much fuel to one and takes
// much out of the other at one speed: each is corrected by what the other burns, or one
// breathes less than the other.
func (c *Case) TrimsOpposed() bool {
	_, _, opposed := c.opposed(func(Trim) bool { return true })
	return opposed
}

// OpposedFast are the trims of such banks at a speed above idle, of which those at idle, where
// they were read, are not: what holds one bank back grows with what it breathes.
func (c *Case) OpposedFast() (rich, lean Trim, ok bool) {
	if _, _, idle := c.opposed(func(t Trim) bool { return t.Speed == "idle" }); idle {
		return Trim{}, Trim{}, false
	}
	return c.opposed(func(t Trim) bool { return t.Speed != "idle" })
}

// OpposedTrims are those at the first speed at which they are so.
func (c *Case) OpposedTrims() (rich, lean Trim) {
	rich, lean, _ = c.opposed(func(Trim) bool { return true })
	return rich, lean
}

func (c *Case) opposed(at func(Trim) bool) (rich, lean Trim, ok bool) {
	if !c.Engine.IsTwoBank() {
		return Trim{}, Trim{}, false
	}
	list := c.Trims()
	for _, rich := range list {
		for _, lean := range list {
			if rich.Speed == lean.Speed && rich.Bank != lean.Bank && rich.Sum <= -trimFar && lean.Sum >= trimFar && at(rich) {
				return rich, lean, true
			}
		}
	}
	return Trim{}, Trim{}, false
}

// BanksApart are the trims of two banks at one speed that differ much.
func (c *Case) BanksApart() (a, b Trim, ok bool) {
	list := c.Trims()
	for i, a := range list {
		for _, b := range list[i+1:] {
			if a.Speed == b.Speed && a.Bank != b.Bank && (a.Sum-b.Sum > trimsApart || b.Sum-a.Sum > trimsApart) {
				return a, b, true
			}
		}
	}
	return Trim{}, Trim{}, false
}

// OneBankRight reports trims of two banks that differ much, one of which the computer has
// little to correct on, at each speed at which both were read.
func (c *Case) OneBankRight() bool {
	a, b, apart := c.BanksApart()
	if !apart || !c.Engine.IsTwoBank() {
		return false
	}
	right := a.Bank
	if math.Abs(b.Sum) < math.Abs(a.Sum) {
		right = b.Bank
	}
	return !slices.ContainsFunc(c.Trims(), func(t Trim) bool { return t.Bank == right && math.Abs(t.Sum) > trimFar })
}

// BothTrimsRead reports the trims of two banks at one speed.
func (c *Case) BothTrimsRead() bool {
	list := c.Trims()
	return slices.ContainsFunc(list, func(a Trim) bool {
		return slices.ContainsFunc(list, func(b Trim) bool { return a.Speed == b.Speed && a.Bank != b.Bank })
	})
}

// TrimsCalm reports trims that were read and lie within 10 %.
func (c *Case) TrimsCalm() bool {
	if TrimsUnlearned.HoldsIn(c) {
		return false
	}
	if c.Measured(Trims) == nil {
		return false
	}
	for _, t := range c.Trims() {
		if t.Sum > trimFar || t.Sum < -trimFar {
			return false
		}
	}
	_, _, apart := c.BanksApart()
	return len(c.Trims()) > 0 && !apart
}

// GasAt gives one gas at a speed, false where it was not read.
func (c *Case) gasAt(name, speed string) (float64, bool) {
	m := c.Measured(Gas).ReadingAt("gas "+name, speed)
	if m == nil {
		return 0, false
	}
	return m.Value, true
}

// Diluted is a speed at which the sample was thinned by air; "" for none.
func (c *Case) Diluted() string {
	return c.speedWith(func(speed string) bool {
		co, a := c.gasAt("co", speed)
		co2, b := c.gasAt("co2", speed)
		return a && b && co+co2 < air.LeastCarbon
	})
}

func (c *Case) speedWith(is func(string) bool) string {
	r := c.Measured(Gas)
	if r == nil {
		return ""
	}
	for _, s := range r.Speeds() {
		if is(s) {
			return s
		}
	}
	return ""
}

// MixtureRead reports a mixture that the trims or the gases show to be lean, or rich.
func (c *Case) MixtureRead(lean bool) bool {
	if c.LambdaPast(lean) != nil {
		return true
	}
	return slices.ContainsFunc(c.Trims(), func(t Trim) bool { return lean && t.Sum > trimFar || !lean && t.Sum < -trimFar })
}

// LambdaPast is a lambda past its limit, or without one out of 0.97 to 1.03.
func (c *Case) LambdaPast(lean bool) *diag.MeasuredReading {
	r := c.Measured(Gas)
	if r == nil {
		return nil
	}
	for i := range r.Readings {
		m := &r.Readings[i]
		if m.Name != diag.LambdaReading {
			continue
		}
		low, high := lambdaRich, lambdaLean
		if m.LimitLow != nil {
			low = *m.LimitLow
		}
		if m.LimitHigh != nil {
			high = *m.LimitHigh
		}
		if lean && m.Value-m.Uncertainty > high || !lean && m.Value+m.Uncertainty < low {
			return m
		}
	}
	return nil
}

// MissSpeed is a speed at which the gases are those of a cylinder that does not
// burn: much hydrocarbon and oxygen, little carbon monoxide.
func (c *Case) MissSpeed() string {
	return c.speedWith(func(speed string) bool {
		hc, a := c.gasAt("hc", speed)
		o2, b := c.gasAt("o2", speed)
		co, d := c.gasAt("co", speed)
		return a && b && hc > missHC && o2 > missO2 && (!d || co < missCO)
	})
}

// Conditions on trims and gases.
var (
	TrimAir      = OfEngine("trims of one bank over +10 % at idle and at speed under +5 %, or half as much at most", func(c *Case) bool { _, _, ok := c.AirAtIdle(); return ok })
	TrimLean     = OfEngine("trims of one bank over +10 % at speed, and more than at idle", func(c *Case) bool { _, _, ok := c.LeanAtSpeed(); return ok })
	TrimLeanAll  = OfEngine("trims of one bank over +10 % at idle and at speed, there no more than at idle and over half as much", func(c *Case) bool { _, _, ok := c.LeanThroughout(); return ok })
	TrimLeanOnce = OfEngine("a trim over +10 % at the one speed at which it was read, the banks alike", func(c *Case) bool { _, ok := c.LeanOnce(); return ok })
	TrimAdds     = OfEngine("a trim over +10 %", func(c *Case) bool { _, ok := c.AddsMost(); return ok })
	TrimRich     = OfEngine("a trim under -10 %", func(c *Case) bool { _, ok := c.TakesOut(); return ok })
	TrimOnlyRich = OfEngine("a trim under -10 %, and none over +5 %", func(c *Case) bool {
		_, ok := c.TakesOut()
		return ok && !slices.ContainsFunc(c.Trims(), func(t Trim) bool { return t.Sum > trimNear })
	})
	TrimRichFast   = OfEngine("trims of one bank under -10 % at speed and at idle over -5 %, or half as far at most, the other bank's not over +10 %", func(c *Case) bool { _, _, ok := c.RichAtSpeed(); return ok && !c.TrimsOpposed() })
	TrimRichIdle   = OfEngine("trims of one bank under -10 % at idle and at speed over -5 %, or half as far at most, the other bank's not over +10 %", func(c *Case) bool { _, _, ok := c.RichAtIdle(); return ok && !c.TrimsOpposed() })
	TrimsDiffer    = OfEngine("trims of the banks more than 8 points apart", func(c *Case) bool { _, _, ok := c.BanksApart(); return ok })
	TrimsCross     = OfEngine("trims of the banks over +10 % and under -10 % at one speed", (*Case).TrimsOpposed)
	SootOfLeaned   = OfEngine("soot on the plugs of the second alone", (*Case).RicherInFact)
	TrimsCrossFast = OfEngine("such trims at a speed above idle, and not at idle where they were read", func(c *Case) bool { _, _, ok := c.OpposedFast(); return ok })
	IdleTrimsGood  = OfEngine("trims at idle read, and all within 10 %, the banks alike", func(c *Case) bool {
		return c.TrimsCalm() && slices.ContainsFunc(c.Trims(), func(t Trim) bool { return t.Speed == "idle" })
	})
	TrimsGood  = OfEngine("trims within 10 %, the banks alike", (*Case).TrimsCalm)
	GasThinned = OfEngine("CO and CO2 together under 6 %", func(c *Case) bool { return c.Diluted() != "" })
	GasLean    = OfEngine("lambda from the gases over its limit, or without one over 1.03", func(c *Case) bool { return c.LambdaPast(true) != nil })
	GasRich    = OfEngine("lambda from the gases under its limit, or without one under 0.97", func(c *Case) bool { return c.LambdaPast(false) != nil })
	GasMiss    = OfEngine("HC over 300 ppm and O2 over 1.5 %, CO low", func(c *Case) bool { return c.MissSpeed() != "" })
	GasRight   = OfTest(Gas, "lambda from the gases within its band at every speed, and no limit passed", func(r *diag.MeasuredResult) bool {
		some := false
		for i := range r.Readings {
			m := &r.Readings[i]
			if past, _ := Past(m); past {
				return false
			}
			some = some || m.Name == diag.LambdaReading && m.Value >= lambdaRich && m.Value <= lambdaLean
		}
		return some
	})
)
