package cli

import (
	"bytes"
	"encoding/csv"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// indexHead names the columns of the index for the filing cabinet.
var indexHead = []string{"job", "date", "vehicle", "engine", "verdict", "urgency", "lowest", "highest", "fingerprint", "file"}

// index is the CSV file with a line for each sheet.
type index struct {
	text bytes.Buffer
	csv  *csv.Writer
}

func newIndex() *index {
	x := &index{}
	x.csv = csv.NewWriter(&x.text)
	x.csv.Write(indexHead)
	return x
}

func (x *index) add(row []string) error { return x.csv.Write(row) }

func (x *index) bytes() []byte {
	x.csv.Flush()
	return x.text.Bytes()
}

// isIndex tells an index of the program's own.
func isIndex(data []byte) bool {
	return bytes.HasPrefix(data, []byte(strings.Join(indexHead, ",")+"\n"))
}

func indexRow(j *job.Job, d *diag.Diagnosis, t task, language string) []string {
	verdict := ""
	if words, err := templates.Words(language); err == nil {
		verdict, _ = words.Of(d.Rotary).Verdict(d.Verdict, templates.Customer)
	}
	lowest, highest := extremes(d)
	row := []string{j.Number.Value, j.Date.Entered.Value, j.Vehicle.Description.Value, j.Test().Engine.Layout,
		verdict, string(d.Urgency), lowest, highest, j.Fingerprint(), t.sheet}
	for i := range row {
		row[i] = cell(row[i])
	}
	return row
}

// cell is a text in a cell: on one line, and one that no spreadsheet takes for
// a formula.
func cell(s string) string {
	s = strings.Join(strings.Fields(strings.ReplaceAll(s, "\u00a0", " ")), " ")
	if s != "" && strings.ContainsRune("=+-@", rune(s[0])) {
		return "'" + s
	}
	return s
}

// extremes are the lowest and the highest reading of the compression test with
// its unit.
func extremes(d *diag.Diagnosis) (lowest, highest string) {
	if c := d.Compression; c != nil && c.N > 0 {
		print := func(v float64) string { return quantity.Format(v, c.Decimals) + " " + string(c.Unit) }
		return print(c.Lowest), print(c.Highest)
	}
	if r := d.Rotors; r != nil {
		var low, high float64
		read := false
		for _, rotor := range r.Rotors {
			for _, v := range rotor.Values {
				if !read {
					low, high, read = v, v, true
				}
				low, high = min(low, v), max(high, v)
			}
		}
		if read {
			print := func(v float64) string { return quantity.Format(v, r.Decimals) + " " + string(r.Unit) }
			return print(low), print(high)
		}
	}
	return "", ""
}
