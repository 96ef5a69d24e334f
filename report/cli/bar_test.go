package cli

import (
	"strings"
	"testing"
)

func TestBarCountsToTheEndOnOneLine(t *testing.T) {
	var out strings.Builder
	b := &bar{w: &out, total: 250}
	for range 250 {
		b.add()
	}
	drawn := strings.Split(out.String(), "\r")
	last := drawn[len(drawn)-1]
	if want := "[" + strings.Repeat("#", barWidth) + "] 250 of 250 sheets"; last != want {
		t.Errorf("the bar ends as %q, want %q", last, want)
	}
	if strings.Contains(out.String(), "\n") || len(drawn) > 100 {
		t.Errorf("the bar was drawn %d times", len(drawn))
	}
	out.Reset()
	b.clear()
	if blank := strings.Trim(out.String(), "\r"); strings.TrimSpace(blank) != "" || len(blank) < len(last) {
		t.Errorf("clear leaves some of the bar: %q", out.String())
	}
}
