package quantity

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

// said writes a phrase in one way, so that rows can be compared.
func said(p Phrase) string {
	joins := [...]string{To: " to ", PlusMinus: " +/- ", Slash: " / ", Of: " of ", In: " in ", After: " after ", At: " at ", And: " and ", Bracket: " ( ", Next: " , "}
	var b strings.Builder
	for i, part := range p.Parts {
		if i > 0 {
			b.WriteString(joins[p.Joins[i-1]])
		}
		if part.Bound != Exact {
			fmt.Fprintf(&b, "%v ", part.Bound)
		}
		fmt.Fprintf(&b, "%v%s", part.Value.Number, part.Value.Unit)
	}
	return b.String()
}

func TestScan(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"150", "150"}, {"150.", "150"}, {"about 120", "about 120"}, {"~120 psi", "about 120psi"}, {"~ 120", "about 120"}, {"approx. 90", "about 90"}, {"c. 90", "about 90"},
		{"89'ish", "about 89"}, {"89ish", "about 89"}, {"around 120 psi", "about 120psi"}, {"120 or so", "about 120"},
		{"over 300", "at least 300"}, {"300+", "at least 300"}, {"300+ psi", "at least 300psi"}, {"300 psi+", "at least 300psi"}, {">300", "at least 300"}, {">= 300 kPa", "at least 300kPa"},
		{"at least 30 psi after 5 min", "at least 30psi after 5min"}, {"30 psi min", "at least 30psi"}, {"30 min", "30min"}, {"45 psi max", "at most 45psi"}, {"max 45", "at most 45"},
		{"under 30", "at most 30"}, {"< 30", "at most 30"}, {"no more than 5 psi", "at most 5psi"},
		{"145-155", "145 to 155"}, {"145–155", "145 to 155"}, {"145..155 psi", "145 to 155psi"}, {"145 psi - 155 psi", "145psi to 155psi"}, {"145 to 155", "145 to 155"}, {"11.2-11.4", "11.2 to 11.4"},
		{"13 1/2-14 1/2 bar", "13.5 to 14.5bar"}, {"-10 C", "-10C"}, {"-3 to -1", "-3 to -1"}, {"0-300 psi", "0 to 300psi"},
		{"39 psi +/- 3", "39psi +/- 3"}, {"1.1 mm ± 0.1", "1.1mm +/- 0.1"}, {"1.1mm+-0.1mm", "1.1mm +/- 0.1mm"}, {"39 plus or minus 3", "39 +/- 3"},
		{"72/80", "72 / 80"}, {"72 of 80 psi", "72 of 80psi"}, {"72 out of 80", "72 of 80"}, {"145/148", "145 / 148"}, {"1/2 in", "0.5in"}, {"5 1/2 bar", "5.5bar"},
		{"500 ml in 30 s", "500ml in 30s"}, {"0.040 in", "0.04in"}, {"500 ml per minute", "500ml in 1min"}, {"2 pints over 30 sec", "2US pint in 30s"}, {"500 cc a minute", ""},
		{"16 psi at 750 rpm", "16psi at 750rpm"}, {"120 at 121", "120 at 121"}, {"10psi@2000rpm", "10psi at 2000rpm"},
		{"24 bar (348 psi)", "24bar ( 348psi"}, {"145 and 148", "145 and 148"},
		{"150 148 110", "150 , 148 , 110"}, {"150, 148, 110", "150 , 148 , 110"}, {"150; 148", "150 , 148"}, {"145-150-160", "145 to 150 to 160"},
		{"1 100 kPa", "1100kPa"}, {"8,3 bar", "8.3bar"}, {"12,6 V", "12.6V"}, {"7.4 kgf/cm2", "7.4kgf/cm2"}, {"1.1 1/m", "1.1per m"}, {"4.1 m3/h at 2000 rpm", "4.1m3/h at 2000rpm"},
		{"16 fl oz", "16US fl oz"}, {"0.4 %", "0.4%"}, {"18 \"Hg", "18inHg"}, {"20 thou", "0.02in"}, {"72psi/80psi", "72psi / 80psi"},
	} {
		p, err := Scan(tt.text)
		if got := said(p); err == nil && got != tt.want || err != nil && tt.want != "" {
			t.Errorf("Scan(%q) = %q, %v; want %q", tt.text, got, err, tt.want)
		}
	}
}

// In the place of a pressure pounds can only be those on a square inch.
func TestScanAsPressure(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"150#", "150psi"}, {"#150", "150psi"}, {"150 lbs", "150psi"}, {"about 150 lb", "about 150psi"}, {"145 lbs - 155 lbs", "145psi to 155psi"}, {"12 kg", "12kgf/cm2"}, {"18 Hg", "18inHg"},
	} {
		p, err := ScanAs(tt.text, Pressure)
		if got := said(p); err != nil || got != tt.want {
			t.Errorf("ScanAs(%q) = %q, %v; want %q", tt.text, got, err, tt.want)
		}
	}
}

// A fault has the place at which it stands.
func TestScanPlaces(t *testing.T) {
	for _, tt := range []struct {
		text string
		at   int
	}{
		{"", 0}, {"good", 0}, {"about good", 6}, {"120 furlongs", 4}, {"145-155 furlongs", 8}, {"5½ furlongs", 3}, {"120 psi extra", 8}, {"24 bar (360 psi", 15},
		{"24 bar (good)", 8}, {"24 bar (360 psi) cold", 17}, {"145 to 1,100", 7}, {"about 145 lb", 10}, {"39 +/- some", 3},
	} {
		_, err := Scan(tt.text)
		var parse *ParseError
		if !errors.As(err, &parse) || parse.At != tt.at || parse.Expected == "" {
			t.Errorf("Scan(%q): %#v, want a fault at %d", tt.text, err, tt.at)
		}
	}
}

// FuzzScan: whatever is typed, the outcome is numbers that are finite, with a
// join between each two, or a fault inside the text.
func FuzzScan(f *testing.F) {
	for _, seed := range []string{"about 120", "145-155 psi", "39 +/- 3", "72 of 80", "500 ml in 30 s", "24 bar (348 psi)", "1,100", "300+ psi", "5½-6", "#110 lbs", "1 100 1 110"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, expected := range []Dimension{Dimensionless, Pressure, Length} {
			p, err := ScanAs(text, expected)
			var parse *ParseError
			switch {
			case err != nil && (!errors.As(err, &parse) || parse.Expected == "" || parse.At < 0 || parse.At > len([]rune(text))):
				t.Fatalf("Scan(%q): %#v", text, err)
			case err != nil:
				continue
			case len(p.Parts) == 0 || len(p.Joins) != len(p.Parts)-1:
				t.Fatalf("Scan(%q) = %#v", text, p)
			}
			for _, part := range p.Parts {
				if !finite(part.Value.Number) || part.At < 0 || part.At >= len([]rune(text)) {
					t.Fatalf("Scan(%q) = %#v", text, p)
				}
			}
		}
	})
}
