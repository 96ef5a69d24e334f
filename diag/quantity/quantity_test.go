package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	tests := []struct {
		text string
		want Value
	}{
		{"120", Value{120, None}},
		{" 11.2 bar ", Value{11.2, Bar}},
		{"11.2bar", Value{11.2, Bar}},
		{".5 MPa", Value{0.5, MPa}},
		{"1 100 kPa", Value{1100, KPa}},
		{"1\u202f100 kPa", Value{1100, KPa}},
		{"1\u00a0100\u00a0kPa", Value{1100, KPa}},
		{"143 210 mi", Value{143210, Mile}},
		{"1 100.5 kPa", Value{1100.5, KPa}},
		{"5 1/2 bar", Value{5.5, Bar}},
		{"5½ bar", Value{5.5, Bar}},
		{"½ pint", Value{0.5, USPint}},
		{"-10 C", Value{-10, Celsius}},
		{"\u221210 °C", Value{-10, Celsius}},
		{"18 degC", Value{18, Celsius}},
		{"64 °F", Value{64, Fahrenheit}},
		{"170 PSI", Value{170, PSI}},
		{"170 psig", Value{170, PSI}},
		{"1200 kpa", Value{1200, KPa}},
		{"12 Bar", Value{12, Bar}},
		{"1.2 mpa", Value{1.2, MPa}},
		{"7.4 kgf/cm²", Value{7.4, KgfPerCm2}},
		{"7.4 kg/cm2", Value{7.4, KgfPerCm2}},
		{"7.4 kgf/cm^2", Value{7.4, KgfPerCm2}},
		{"25.1 in. Hg", Value{25.1, InHg}},
		{`18 "Hg`, Value{18, InHg}},
		{"0.040 in", Value{0.040, Inch}},
		{"4.7 L", Value{4.7, Litre}},
		{"500 cc", Value{500, Millilitre}},
		{"16 fl oz", Value{16, USFluidOunce}},
		{"5 min", Value{5, Minute}},
		{"5 m", Value{5, Metre}},
		{"62 deg", Value{62, Degree}},
		{"34%", Value{34, Percent}},
		{"12.6 V", Value{12.6, Volt}},
		{"210 rpm", Value{210, RPM}},
		{"11,2 bar", Value{11.2, Bar}}, // a comma that can only be decimal
		{"8,3", Value{8.3, None}},
		{"0,500 bar", Value{0.5, Bar}},
		{"12. psi", Value{12, PSI}},
		{"170 p.s.i.", Value{170, PSI}},
		{"18 inches of mercury", Value{18, InHg}},
		{"72 degrees F", Value{72, Fahrenheit}},
		{"20 celsius", Value{20, Celsius}},
	}
	for _, tt := range tests {
		got, err := Parse(tt.text)
		if err != nil || got != tt.want {
			t.Errorf("Parse(%q) = %v, %v; want %v", tt.text, got, err, tt.want)
		}
	}
}

func TestEveryUnitReadsBack(t *testing.T) {
	for _, d := range definitions {
		got, err := Parse("7 " + string(d.unit))
		if err != nil || got != (Value{7, d.unit}) {
			t.Errorf("Parse(7 %s) = %v, %v", d.unit, got, err)
		}
		for _, s := range d.spellings {
			if s != foldSpelling(s) {
				t.Errorf("spelling %q of %s can never match: it folds to %q", s, d.unit, foldSpelling(s))
			}
		}
	}
}

func TestParseRefuses(t *testing.T) {
	tests := []struct {
		text string
		hint string
	}{
		{"", ""},
		{"high", ""},
		{"NaN", ""},
		{".nan", ""},
		{"-.inf", ""},
		{"+Inf psi", ""},
		{"1e3 psi", ""},
		{"0x10", ""},
		{"1 10 kPa", ""},
		{"145-155", ""},
		{"300+", ""},
		{"120 furlongs", ""},
		{"120 psi extra", ""},
		{strings.Repeat("9", 400), ""},
		{"1,100 kPa", "write 1100 kPa or 1.1 kPa"},
		{"1,100", "write 1100 or 1.1"},
		{"1,100,000 kPa", "write 1100000 kPa"},
		{"1.100,5 kPa", "write 1100.5 kPa"},
		{"120 lb", "if it is pounds per square inch, write 120 psi"},
		{"120 #", "if it is pounds per square inch, write 120 psi"},
		{"#120", "if it is pounds per square inch, write 120 psi"},
		{"#30 lbs", "if it is pounds per square inch, write 30 psi"},
		{"135 psia", "psia is absolute pressure; a gauge reading is in psi"},
		{"12 kg", "if it is kilograms-force per square centimetre, write 12 kgf/cm2"},
		{"145/148", "145 and 148 may be two readings: write one of them"},
		{"1/180", "1 and 180 may be two readings: write one of them"},
		{"5 3/2 bar", ""},
		{"1/0", "1 and 0 may be two readings: write one of them"},
	}
	for _, tt := range tests {
		got, err := Parse(tt.text)
		var parse *ParseError
		if !errors.As(err, &parse) {
			t.Errorf("Parse(%q) = %v, %v; want a *ParseError", tt.text, got, err)
			continue
		}
		if parse.Hint != tt.hint {
			t.Errorf("Parse(%q): hint %q, want %q", tt.text, parse.Hint, tt.hint)
		}
		if parse.Expected == "" {
			t.Errorf("Parse(%q): nothing expected", tt.text)
		}
	}
}

// Values from NIST SP 811 (2008), appendix B.8, as printed (seven figures),
// and from the exact definitions where the standard marks the factor exact.
func TestConvert(t *testing.T) {
	tests := []struct {
		v        float64
		from, to Unit
		want     float64
		relative float64
	}{
		{1, PSI, KPa, 6.894757, 5e-8},
		{1, PSI, KPa, 6.894757293168, 1e-12},
		{1, InHg, KPa, 3.386389, 2e-7},
		{1, InHg, KPa, 3.386388640341, 1e-13},
		{1, InHg, PSI, 0.491154147, 1e-9},
		{1, Bar, KPa, 100, 0},
		{1, Bar, PSI, 14.5037737730, 1e-11},
		{1, MPa, PSI, 145.037737730, 1e-11},
		{1, KgfPerCm2, KPa, 98.0665, 1e-15},
		{1, KgfPerCm2, PSI, 14.2233433071, 1e-11},
		{101.325, KPa, PSI, 14.6959487755, 1e-11},
		{101.325, KPa, InHg, 29.92125558, 1e-9},
		{1013.25, HPa, KPa, 101.325, 1e-15},
		{100, PSI, KgfPerCm2, 7.03070, 1e-6},
		{150, PSI, KPa, 1034.2136, 1e-7},
		{1, USPint, Millilitre, 473.1765, 1e-7},
		{1, USFluidOunce, Millilitre, 29.57353, 1e-7},
		{1, USQuart, Litre, 0.9463529, 1e-7},
		{1, CubicInch, Millilitre, 16.387064, 0},
		{1, Inch, Millimetre, 25.4, 0},
		{1, Foot, Metre, 0.3048, 1e-15},
		{1, Mile, Kilometre, 1.609344, 0},
		{212, Fahrenheit, Celsius, 100, 1e-12},
		{-40, Celsius, Fahrenheit, -40, 1e-12},
		{0, Celsius, Kelvin, 273.15, 0},
		{2, Minute, Second, 120, 0},
		{5, None, None, 5, 0},
	}
	for _, tt := range tests {
		got, err := Convert(tt.v, tt.from, tt.to)
		if err != nil || math.Abs(got-tt.want) > tt.relative*math.Abs(tt.want) {
			t.Errorf("Convert(%v %s to %s) = %v, %v; want %v", tt.v, tt.from, tt.to, got, err, tt.want)
		}
	}
}

func TestConvertRefuses(t *testing.T) {
	for _, tt := range []struct {
		v        float64
		from, to Unit
	}{
		{1, PSI, Millilitre},
		{1, None, PSI},
		{1, PSI, "stone"},
		{math.NaN(), PSI, PSI},
		{math.Inf(1), PSI, KPa},
		{math.MaxFloat64, MPa, HPa},
	} {
		got, err := Convert(tt.v, tt.from, tt.to)
		var conversion *ConversionError
		if !errors.As(err, &conversion) {
			t.Errorf("Convert(%v %s to %s) = %v, %v; want a *ConversionError", tt.v, tt.from, tt.to, got, err)
		}
	}
}

func TestValueIn(t *testing.T) {
	if got, err := (Value{11, None}).In(Bar); err != nil || got != 11 {
		t.Errorf("a bare 11 in bar = %v, %v", got, err)
	}
	if got, err := (Value{1100, KPa}).In(Bar); err != nil || got != 11 {
		t.Errorf("1100 kPa in bar = %v, %v", got, err)
	}
	if _, err := (Value{5, Millilitre}).In(Bar); err == nil {
		t.Error("5 ml in bar gave no error")
	}
}

func TestFormat(t *testing.T) {
	for _, tt := range []struct {
		v        float64
		decimals int
		want     string
	}{
		{166.5, 0, "167"},
		{89.65, 1, "89.7"},
		{-2.5, 0, "-3"},
		{-0.04, 1, "0.0"},
		{11, 1, "11.0"},
		{1.005, 2, "1.00"}, // the nearest double lies below the half
		{7, -1, "7"},
	} {
		if got := Format(tt.v, tt.decimals); got != tt.want {
			t.Errorf("Format(%v, %d) = %q, want %q", tt.v, tt.decimals, got, tt.want)
		}
	}
}

func TestDecimals(t *testing.T) {
	for division, want := range map[float64]int{
		10: 0, 5: 0, 1: 0, 2.5: 1, 0.5: 1, 0.2: 1, 0.1: 1, 0.25: 2, 0.02: 2, 1.0 / 3: 1, 0: 0, -1: 0, math.Inf(1): 0,
	} {
		if got := DecimalsFor(division); got != want {
			t.Errorf("DecimalsFor(%v) = %d, want %d", division, got, want)
		}
	}
	for unit, want := range map[Unit]int{PSI: 0, KPa: 0, Bar: 1, MPa: 2, KgfPerCm2: 1} {
		if got := DefaultDecimals(unit); got != want {
			t.Errorf("DefaultDecimals(%s) = %d, want %d", unit, got, want)
		}
	}
}

func TestDimensionOf(t *testing.T) {
	for unit, want := range map[Unit]Dimension{
		InHg: Pressure, USQuart: Volume, Mile: Length, Hour: Time, Fahrenheit: Temperature, None: Dimensionless, "stone": Dimensionless,
	} {
		if got := DimensionOf(unit); got != want {
			t.Errorf("DimensionOf(%q) = %q, want %q", unit, got, want)
		}
	}
}
