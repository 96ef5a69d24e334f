package pdffile

import (
	"bytes"
	"testing"
	"time"

	"gaugesheet/report/budget"
)

// What could pass for objects, or for a list of them.
func TestLikeObjects(t *testing.T) {
	for data, want := range map[string]bool{
		"5 0 obj": true, "5\n0\nobj<<>>": true, "5 \x00 0\vobj": true, "5 0obj": true, "x 15 65535 obj": true,
		"obj": false, "0 obj": false, " 0 obj": false, "5 0 object": true, "a 0 obj": false, "5. obj": false, "endobj": false,
		"\nxref\n": true, "\r\n  startxref \n12": true, "\ntrailer <<": true, "\ntrailer\n": true,
		"xref 12": false, "the startxref\n": false, "\nxref 12 of the manual": false, "trailer\n": false, "\na trailer\n": false,
	} {
		if got := likeObjects([]byte(data)); got != want {
			t.Errorf("%q: %v, want %v", data, got, want)
		}
	}
}

// It is asked of every byte of a file.
func TestLikeObjectsIsFast(t *testing.T) {
	for _, piece := range []string{"obj", "0 obj ", "\n", " ", "0", "0 ", "xref", "\nxref ", "trailer ", "startxref"} {
		data := bytes.Repeat([]byte(piece), (16<<20)/len(piece))
		start := time.Now()
		likeObjects(data)
		if took := time.Since(start); took > budget.Time/2 {
			t.Errorf("16 MB of %q take %v", piece, took)
		} else {
			t.Logf("%q: %v", piece, took)
		}
	}
}
