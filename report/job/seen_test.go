package job

import (
	"strings"
	"testing"
)

// TestSeenAndNotSeen: carbon is seen on valves as on a seat, and that there is no
// smoke is an answer.
func TestSeenAndNotSeen(t *testing.T) {
	mustRead(t, "engine: {layout: inline-4}\nborescope: {1: {valves: carbon, seat: carbon}}\n")
	if j := mustRead(t, "engine: {layout: inline-4}\nsmoke: {colour: none}\ncompression: {unit: psi, dry: [150, 151, 149, 150]}\n"); j.Test().History.Smoke.Colour != "none" {
		t.Errorf("smoke %q, expected none", j.Test().History.Smoke.Colour)
	}
	_, problems := Read("job.yaml", []byte("engine: {layout: inline-4}\ncompression: {unit: psi, dry: [150, almost nothing, 149, 151]}\n"), nil)
	if len(problems) != 1 || !strings.Contains(problems[0].Hint, "'no pressure'") {
		t.Errorf("almost nothing: %v, expected one with a hint that offers 'no pressure'", problems)
	}
}

// TestOneWordForAList: where a list of words is asked for, one word will do, and
// is held to the same words.
func TestOneWordForAList(t *testing.T) {
	j := mustRead(t, "engine: {layout: inline-4}\nsmoke: {colour: blue, when: start}\ncompression: {unit: psi, dry: [150, 151, 149, 150]}\n")
	if got := j.Test().History.Smoke.When; len(got) != 1 || got[0] != "start" {
		t.Errorf("when %q, expected start", got)
	}
	_, problems := Read("job.yaml", []byte("engine: {layout: inline-4}\nsmoke: {colour: blue, when: sometimes}\ncompression: {unit: psi, dry: [150, 151, 149, 150]}\n"), nil)
	if len(problems) != 1 || !strings.Contains(problems[0].Message, "sometimes") {
		t.Errorf("another word: %v, expected one problem that names it", problems)
	}
}

// TestGasTestBefore: what was found in the coolant before the work is read with
// the other readings before it.
func TestGasTestBefore(t *testing.T) {
	j := mustRead(t, "engine: {layout: inline-4}\ncoolant-gas-test: negative\nbefore: {done: new head gasket, coolant-gas-test: positive}\ncompression: {unit: psi, dry: [150, 151, 149, 150]}\n")
	if b := j.Test().Before; b == nil || b.Test.CoolantGas != "positive" || j.Test().CoolantGas != "negative" {
		t.Errorf("before %+v, expected positive before and negative now", b)
	}
}
