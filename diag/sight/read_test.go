package sight_test

import (
	"slices"
	"testing"

	"gaugesheet/diag/sight"
)

// TestRead: part and damage are put together by the table, denials and what is sound say
// nothing, and what is not known is given back.
func TestRead(t *testing.T) {
	for _, tt := range []struct {
		text string
		says string // "" for nothing
		open bool   // something in it is not made out
	}{
		{text: "top land broken away on the intake side", says: sight.BrokenLand},
		{text: "bit of ring sticking out of the groove", says: sight.RingPiece},
		{text: "ring land of one piston broken", says: sight.BrokenLand},
		{text: "crack across the crown", says: sight.CrackedPist},
		{text: "hairline crack from seat to seat", says: sight.CrackedHead},
		{text: "crack in the valve seat", says: "seat burned"},
		{text: "liner pitted through from the water side", says: sight.CrackedWall},
		{text: "rusty ring at mid bore", says: "wall rusty"},
		{text: "chunk missing from the exhaust valve", says: "valve chipped"},
		{text: "the intake valve has lost its head", says: sight.BrokenValve},
		{text: "valve: green on one edge", says: sight.HotValve},
		{text: "fire ring of the gasket burned through", says: sight.BlownGasket},
		{text: "gasket washed out at a coolant passage", says: sight.BlownGasket},
		{text: "small piece lying on the piston crown", says: sight.LooseThing},
		{text: "piece of the piston missing", says: "piston broken"},
		{text: "crosshatch gone", says: "wall glazed"},
		{text: "no hone marks left", says: "wall glazed"},
		{text: "gouge in the wall at the pin boss", says: "wall scored"},
		{text: "light scuffing", says: sight.LightScore},
		{text: "wall fine but exhaust valve burnt", says: "valve burned"},
		{text: "no scoring, rust on the wall", says: "wall rusty"},
		{text: "no scoring, rust or pits"},
		{text: "cracks: none"},
		{text: "valves: not cracked"},
		{text: "checked for cracks"},
		{text: "fine hone marks, seats good"},
		{text: "light vertical marks"},
		{text: "valve burned, replaced"},
		{text: "valve cover gasket torn", open: true},
		{text: "bright ring at the top of the wall, nothing else"},
		{text: "6 mm camera, poor light"},
		{text: "plug hole thread cleaned"},
		{text: "wall good and exhaust valve frabbled", open: true},
		{text: "frabbled", open: true},
		{text: "wall not good", open: true},
		{text: "piston looks odd", open: true},
	} {
		look := sight.Read(tt.text, true)
		if tt.says == "" && len(look.Says) > 0 || tt.says != "" && !slices.Contains(look.Says, tt.says) {
			t.Errorf("%q says %q, expected %q", tt.text, look.Says, tt.says)
		}
		if open := len(look.Unread) > 0; open != tt.open {
			t.Errorf("%q leaves %q open, expected that it is: %v", tt.text, look.Unread, tt.open)
		}
	}
}

// TestReadOfLines: of a line that is no look into a cylinder only what names its parts counts.
func TestReadOfLines(t *testing.T) {
	for text, says := range map[string]bool{"ring of 3 broken": true, "3 retested with oil": false, "injector 3 failed": false, "cam sensor of 2 bad": false, "exhaust rocker of 3 broken": false, "intake gasket of 1 blown": false} {
		if look := sight.Read(text, false); len(look.Says) > 0 != says {
			t.Errorf("%q says %q, expected any: %v", text, look.Says, says)
		}
	}
}

// TestNear: the part is known, and where a letter is wrong the word that was meant.
func TestNear(t *testing.T) {
	if of, meant := sight.Near("exhaust valve brunt"); of != "valve" || meant != "burnt" {
		t.Errorf("near %q, %q, expected a valve and burnt", of, meant)
	}
	if of, meant := sight.Near("frabbled"); of != "" || meant != "" {
		t.Errorf("frabbled is near %q, %q, expected nothing", of, meant)
	}
}

// What is said of a part outside, whatever cylinder it is at, says nothing of that cylinder's
// inside; what lies in one, or is a part of it, does.
func TestWithin(t *testing.T) {
	for line, want := range map[string]string{
		"Exhaust gasket at cylinder 3 burnt through":                  "",
		"intake gasket of cylinder 4 torn":                            "",
		"washer under injector 4 burnt through, piston 4 holed":       "piston 4 holed",
		"exhaust cover gasket burnt through at cylinder 1":            "",
		"baffle by cylinder 6 cracked":                                "",
		"valve stem seal of cylinder 4 torn":                          "",
		"plug hole gasket of cylinder 2 torn":                         "",
		"a washer lies in cylinder 3":                                 "a washer lies in cylinder 3",
		"piece of the filter housing on the piston of 2":              "piece of the filter housing on the piston of 2",
		"exhaust valve of cylinder 3 burnt":                           "exhaust valve of cylinder 3 burnt",
		"with the cover off the exhaust valve of 3 is seen to hang":   "with the cover off the exhaust valve of 3 is seen to hang",
		"head gasket blown between 2 and 3":                           "head gasket blown between 2 and 3",
		"cylinder head cracked between the seats; manifold bolt gone": "cylinder head cracked between the seats",
	} {
		if got := sight.Within(line); got != want {
			t.Errorf("%q: %q is of the inside, want %q", line, got, want)
		}
	}
}
