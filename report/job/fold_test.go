package job

import (
	"strings"
	"testing"
)

// TestFold: what is as it should be is told apart from what is not, without going
// through it again.
func TestFold(t *testing.T) {
	for _, s := range []string{"", " ", "a", "a b", "a  b", " a", "a ", "A", "a\tb", "é", "É x", "a\u00a0b", "no idea", "\x7f", "a\nb", "1/2"} {
		if want := strings.Join(strings.Fields(strings.ToLower(s)), " "); fold(s) != want {
			t.Errorf("%q is folded to %q, expected %q", s, fold(s), want)
		}
	}
}
