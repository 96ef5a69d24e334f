package quantity

import (
	"errors"
	"testing"
)

// FuzzParse: whatever is typed, the outcome is a finite number that prints and
// converts, or an error that says what was expected.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{"11.2 bar", "1 100 kPa", "5 1/2 bar", "1,100", "#120", "-.5 °C", "1/0", "½"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := Parse(text)
		if err != nil {
			var parse *ParseError
			if !errors.As(err, &parse) || parse.Expected == "" {
				t.Fatalf("Parse(%q): %#v", text, err)
			}
			return
		}
		if !finite(v.Number) {
			t.Fatalf("Parse(%q) = %v", text, v)
		}
		if _, err := v.In(v.Unit); err != nil {
			t.Fatalf("Parse(%q) = %v: %v", text, v, err)
		}
	})
}
