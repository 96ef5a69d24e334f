package check

import (
	"bytes"
	"encoding/json"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/report/job"
	"gaugesheet/report/readings"
)

// measuredResults are the further tests, each under its own key of the result,
// those that the job lacks too.
type measuredResults []namedSection

type namedSection struct {
	name  string // "oil_pressure"
	value any
}

// MarshalJSON puts the further tests among the other members.
func (r *Result) MarshalJSON() ([]byte, error) {
	type plain Result
	return withMembers((*plain)(r), r.Measured)
}

// withMembers is a struct as JSON, with further tests as members of their own.
func withMembers(v any, tests measuredResults) ([]byte, error) {
	data, err := json.Marshal(v)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	out.Write(bytes.TrimSuffix(data, []byte("}")))
	for _, s := range tests {
		value, err := json.Marshal(s.value)
		if err != nil {
			return nil, err
		}
		out.WriteString(`,"` + s.name + `":`)
		out.Write(value)
	}
	out.WriteByte('}')
	return out.Bytes(), nil
}

type measuredResult struct {
	section
	Unit      quantity.Unit     `json:"unit,omitempty"`
	Readings  []measuredReading `json:"readings"`
	Cylinders []map[string]any  `json:"cylinders"`
	Words     map[string]string `json:"words"` // what was seen or ticked, of the engine as a whole
	Published []publishedResult `json:"published_rules,omitempty"`
}

type measuredReading struct {
	Name           string        `json:"name"`
	At             string        `json:"at"` // the speed, time or bank; "" for none
	Value          *float64      `json:"value"`
	Unit           quantity.Unit `json:"unit"`
	Entered        string        `json:"entered"`
	LimitLow       *float64      `json:"limit_low"`
	LimitHigh      *float64      `json:"limit_high"`
	LimitAsEntered string        `json:"limit_as_entered"`
	Source         string        `json:"source"`
	Uncertainty    *float64      `json:"uncertainty"`
	Verdict        string        `json:"verdict"`
}

// measuredOf are the further tests of a job in bench order.
func measuredOf(d *diag.Diagnosis) measuredResults {
	var out measuredResults
	for _, name := range append(job.MeasuredNames(), diag.OtherReadings) {
		key := strings.ReplaceAll(name, "-", "_")
		found := false
		for i := range d.Measured {
			if r := &d.Measured[i]; r.Name == name {
				out, found = append(out, namedSection{key, measuredSectionOf(r)}), true
			}
		}
		if !found {
			out = append(out, namedSection{key, absent})
		}
	}
	return out
}

func measuredSectionOf(r *diag.MeasuredResult) any {
	if r.State != diag.Tested {
		return section{State: string(r.State), Reason: r.Reason}
	}
	out := measuredResult{section: section{State: string(r.State)}, Unit: r.Unit,
		Readings: []measuredReading{}, Cylinders: []map[string]any{}, Words: map[string]string{}}
	at := map[string]map[string]any{}
	of := func(cylinder string) map[string]any {
		if at[cylinder] == nil {
			at[cylinder] = map[string]any{"cylinder": cylinder}
			out.Cylinders = append(out.Cylinders, at[cylinder])
		}
		return at[cylinder]
	}
	for _, m := range r.Readings {
		if m.Cylinder == "" {
			out.Readings = append(out.Readings, measuredReadingOf(m))
			continue
		}
		one := of(m.Cylinder)
		name := strings.NewReplacer(" ", "_", "-", "_").Replace(m.Name)
		one[name], one[name+"_verdict"] = number(m.Value), string(m.Verdict)
	}
	for _, w := range r.Words {
		if w.Cylinder == "" {
			out.Words[w.Name] = w.Value
			continue
		}
		of(w.Cylinder)[strings.NewReplacer(" ", "_", "-", "_").Replace(w.Name)] = w.Value
	}
	out.Published = publishedOf(r.Published, 2)
	if r.Name == "exhaust-gas" {
		return gasSectionOf(r, out)
	}
	return out
}

// bySpeed are the readings that go by the speed alone.
var bySpeed = map[string]bool{"at-speed": true, "pressure": true, "readings": true}

func measuredReadingOf(m diag.MeasuredReading) measuredReading {
	out := measuredReading{Name: m.Name, At: m.At, Value: number(m.Value), Unit: m.Unit, Entered: m.Entered,
		LimitLow: optional(m.LimitLow, number), LimitHigh: optional(m.LimitHigh, number), LimitAsEntered: m.LimitEntered, Source: m.Source,
		Uncertainty: decimals(m.Uncertainty, m.Decimals+1), Verdict: string(m.Verdict)}
	if bySpeed[m.Name] {
		out.Name = m.At
	}
	return out
}

// A gasResult is the exhaust gas at one speed, with the lambda that follows.
type gasResult struct {
	Name   string   `json:"name"` // the speed
	CO     *float64 `json:"co"`
	HC     *float64 `json:"hc"`
	CO2    *float64 `json:"co2"`
	O2     *float64 `json:"o2"`
	NOx    *float64 `json:"nox"`
	Lambda *float64 `json:"lambda"` // null where the gases say nothing of it
}

type gasSectionResult struct {
	section
	Readings []gasResult       `json:"readings"`
	Gases    []measuredReading `json:"gases"` // each with its limit
	Words    map[string]string `json:"words"`
}

// gasSectionOf puts the gases of one speed together.
func gasSectionOf(r *diag.MeasuredResult, flat measuredResult) gasSectionResult {
	out := gasSectionResult{section: flat.section, Readings: []gasResult{}, Gases: flat.Readings, Words: flat.Words}
	for _, speed := range r.Speeds() {
		gas := func(name string) *float64 {
			if m := r.ReadingAt("gas "+name, speed); m != nil {
				return number(m.Value)
			}
			return nil
		}
		one := gasResult{Name: speed, CO: gas("co"), HC: gas("hc"), CO2: gas("co2"), O2: gas("o2"), NOx: gas("nox")}
		if m := r.ReadingAt(diag.LambdaReading, speed); m != nil {
			one.Lambda = decimals(m.Value, 3)
		}
		out.Readings = append(out.Readings, one)
	}
	return out
}

// asRead is a reading with its unit, marked where it is an estimate or a bound.
func asRead(m *diag.MeasuredReading) string {
	if m.UpTo {
		return m.Told()
	}
	figure := m.Number()
	unit := figure.Unit // a temperature's own, as it was read
	figure.Unit = ""
	return strings.TrimSpace(readings.Marked(m.Kind, figure.String()) + " " + string(unit))
}

// further prints what the further tests read, a line to a reading.
func (p *printer) further(d *diag.Diagnosis) {
	rows := [][]string{}
	for i := range d.Measured {
		r := &d.Measured[i]
		if r.State != diag.Tested {
			continue
		}
		for _, m := range r.Readings {
			limit, uncertain := m.LimitEntered, ""
			if m.Limited() {
				uncertain = quantity.Format(m.Uncertainty, m.Decimals+1)
			}
			rows = append(rows, []string{r.Name, m.Name, strings.TrimSpace(m.Cylinder + " " + m.At), asRead(&m), limit, uncertain, p.term("judged", string(m.Verdict))})
		}
		for _, w := range r.Words {
			rows = append(rows, []string{r.Name, w.Name, w.Cylinder, w.Value, "", "", ""})
		}
	}
	if len(rows) == 0 {
		return
	}
	p.title(p.say("terminal.further", nil))
	p.table([]string{"test", "reading", "at", "value", "limit", "uncertain", "verdict"}, rows)
}
