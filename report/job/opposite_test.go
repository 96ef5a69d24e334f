package job

import "testing"

// A hint never offers a word that says the opposite of what was typed.
func TestNearestNeverOpposite(t *testing.T) {
	for _, tt := range []struct {
		typed string
		words []string
		want  string
	}{
		{"drops irregularly", needles, ""},
		{"drops regulary", needles, "drops regularly"},
		{"not connected", []string{"connected", "off"}, ""},
		{"disconnected", []string{"connected", "off"}, ""},
		{"conected", []string{"connected", "off"}, "connected"},
		{"unregulated", []string{"regulated", "stuck"}, ""},
		{"not watchd", needles, "not watched"},
		{"unwatched", needles, "not watched"},
		{"not testd", []string{"not tested", "could not test"}, "not tested"},
		{"inverted", []string{"inverted", "upright"}, "inverted"},
		{"nosy", []string{"noisy"}, "noisy"},
	} {
		if got := nearest(tt.typed, tt.words); got != tt.want {
			t.Errorf("nearest(%q) = %q, want %q", tt.typed, got, tt.want)
		}
	}
}
