package job

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"
)

// TestLargeFiles: files made to take long are read, or refused, in a moment.
func TestLargeFiles(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	engine := "engine: {layout: inline-4}\n"
	many := func(s string) string { return strings.Repeat(s, (MaxBytes-1000)/len(s)) }
	for name, text := range map[string]string{
		"brackets":     many("["),
		"dashes":       many("- "),
		"indentation":  many(" "),
		"quotes":       many("'"),
		"unknown keys": engine + numbered(10_000, "key%d: 1\n"),
		"one line":     engine + "findings: [" + strings.Repeat("☃, ", 10_000) + "x]\n",
		"repeats":      engine + "compression: {unit: psi, dry: {1: [" + strings.Repeat("85.90, ", 20_000) + "1 bar]}}\n",
		"one text":     engine + "compression:\n  unit: psi\n  dry: " + many("1, ") + "\n",
		"spaces":       engine + "compression:\n  unit: psi\n  dry: " + many("1 2 ") + "\n",
		"no keys":      many("1, ") + "\n" + engine,
		"circuits":     engine + "fuel-pressure:\n  unit: psi\n  circuits:\n" + numbered(5_000, "    c%d: {key-on: 85.90, idle: 6 bar}\n"),
		"one word":     engine + "notes: " + many("x") + "\n",
		"one key":      engine + many("x") + ": 1\n",
		"layout":       "engine: {layout: " + many("V8 ") + "}\n",
		"engine words": "engine: " + many("V8 gas ") + "\n",
		"looks":        engine + "plugs: {looks: " + many("ok 3 oily ") + "}\n",
		"conditions":   engine + "conditions: " + many("cold ") + "\n",
		"open quotes":  numbered(80_000, "k%d: 'x\n") + "x'\n\ty: 1\n",
		"no colons":    many("unit psi\n"),
		"readings":     engine + "compression: {unit: psi, dry: " + many("140 ") + "}\n",
		"other words":  engine + "compression: {unit: psi, dry: {1: " + many("o l ") + "}}\n",
		"by bank":      "engine: {layout: V8, numbering: across banks, first-bank: left}\ncompression: {unit: psi, dry: {" + numbered(20_000, "L%d: 140, ") + "1: 1}}\n",
		"anchors":      "a: &a [" + strings.Repeat("x,", 1000) + "]\n" + numbered(20_000, "k%d: *a\n"),
	} {
		start := time.Now()
		_, problems := Reader{HasGlyph: latin}.Read("job.yaml", []byte(text))
		var b bytes.Buffer
		if err := problems.Print(&b, true); err != nil {
			t.Fatal(err)
		}
		// A hundred times what it takes; what must not be is a square.
		if took := time.Since(start); took > 20*time.Second {
			t.Errorf("%s: %v", name, took)
		}
	}
}

func numbered(n int, format string) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, format, i)
	}
	return b.String()
}
