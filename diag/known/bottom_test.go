package known

import "testing"

// Parts of the bottom end with words of ruin, and what only sounds like them.
func TestRuinedBelow(t *testing.T) {
	for text, want := range map[string]string{
		"number three conrod bearing gone": "bearings", "shells of number 4 black and flaking": "bearings", "gudgeon pin 1 blue from heat": "bearings", "thrust washer fallen out": "bearings",
		"crankshaft end float 50 thou": "bearings", "the crank is bent": "bottom-end", "rod 2 has snapped": "bottom-end", "con rod bolt stretched on 3": "bottom-end", "balance shaft seized": "bottom-end",
		"camshaft snapped in two": "valve-gear", "oil pump drive hex rounded": "oil-pump", "oil pick up fell off": "oil-strainer", "no oil at the rockers": "oil-way", "flexplate bolts sheared": "drive-plate",
		"timing chain guides in bits in the pan": "chain",

		"long crank and missing on 2": "", "rod bearings like new": "", "bearing noise gone with the belt off": "", "wheel bearing failed": "", "valve guide broken": "", "main bearing oil seal gone": "", "flywheel key sheared": "",
		"main bearing lightly scored": "", "crankshaft magnafluxed, no cracks": "", "no oil at the valve cover": "", "crankshaft end float 8 thou": "", "looked for a cracked crankshaft": "",
	} {
		if got := ruinedBelow(text); got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}
