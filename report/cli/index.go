package cli

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// indexHead names the columns of the index for the filing cabinet.
// A number stands by itself, its unit in a column of its own.
var indexHead = []string{"job", "date", "customer", "vehicle", "plate", "vin", "odometer", "odometer_unit", "engine", "technician",
	"headline", "urgency", "lowest", "highest", "pressure_unit", "spread_percent", "fingerprint", "file"}

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
	headline := ""
	if words, err := templates.Words(language); err == nil {
		headline, _ = words.Of(d.Chambers).Verdict(d.Verdict, templates.Customer)
	}
	v, p := &j.Vehicle, pressuresOf(d)
	distance, unit := apart(v.Odometer.Value)
	row := []string{j.Number.Value, j.Date.Entered.Value, j.Customer.Name.Value, v.Description.Value, v.Plate.Value, v.VIN.Value, distance, unit,
		j.Test().Engine.Layout, j.Technician.Value, headline, string(d.Urgency), p.lowest, p.highest, p.unit, p.spread, j.Fingerprint(), t.sheet}
	for i := range row {
		row[i] = cell(row[i])
	}
	return row
}

// apart takes a quantity apart into its number and its unit.
func apart(entered string) (number, unit string) {
	v, err := quantity.Parse(entered)
	if err != nil {
		return "", ""
	}
	return strconv.FormatFloat(v.Number, 'f', -1, 64), string(v.Unit)
}

// less says by how much an index has fewer lines than the one that it would
// replace; "" where it has not.
func (x *index) less(name string) string {
	old, err := readFile(name, mostFile)
	if err != nil || !isIndex(old) {
		return ""
	}
	was, is := bytes.Count(old, []byte("\n"))-1, bytes.Count(x.bytes(), []byte("\n"))-1
	if is >= was {
		return ""
	}
	return fmt.Sprintf("it has %s, this run makes %d of them", lines(was), is)
}

func lines(n int) string {
	if n == 1 {
		return "1 line"
	}
	return fmt.Sprintf("%d lines", n)
}

// cell is a text in a cell: on one line, and one that no spreadsheet takes for
// a formula.
func cell(s string) string {
	s = seen(s)
	s = strings.Join(strings.Fields(strings.ReplaceAll(s, "\u00a0", " ")), " ")
	if s != "" && strings.ContainsRune("=+-@", rune(s[0])) {
		return "'" + s
	}
	return s
}

// pressures are the lowest and the highest reading of a compression test, and
// how far they lie apart in percent of the highest, as numbers.
type pressures struct{ lowest, highest, unit, spread string }

func pressuresOf(d *diag.Diagnosis) pressures {
	if c := d.Compression; c != nil && c.N > 0 {
		return extremes([]float64{c.Lowest, c.Highest}, c.Decimals, string(c.Unit))
	}
	if r := d.Rotors; r != nil {
		var faces []float64
		for _, rotor := range r.Rotors {
			faces = append(faces, rotor.Values...)
		}
		return extremes(faces, r.Decimals, string(r.Unit))
	}
	return pressures{}
}

func extremes(values []float64, decimals int, unit string) pressures {
	if len(values) == 0 {
		return pressures{}
	}
	low, high := slices.Min(values), slices.Max(values)
	p := pressures{lowest: quantity.Format(low, decimals), highest: quantity.Format(high, decimals), unit: unit}
	if high > 0 {
		p.spread = quantity.Format(100*(high-low)/high, 1)
	}
	return p
}
