package check

import (
	"bytes"
	"encoding/json"
	"math"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// A Result is a job with what its readings say, as other programs take it.
// Numbers are in the unit of their section, lists are never null.
type Result struct {
	Job         any          `json:"job"`         // as given
	Fingerprint string       `json:"fingerprint"` // SHA-256 of the job file in hexadecimal
	Language    string       `json:"language"`    // of the sentences; names and words of lists are the same in each
	Engine      engineResult `json:"engine"`
	readingsResult
	Measured  measuredResults   `json:"-"`      // the further tests, as members of their own
	Before    any               `json:"before"` // what was read before the work
	Stories   []storyResult     `json:"stories"`
	Findings  []findingResult   `json:"findings"` // in the order of the stories
	Notices   []noticeResult    `json:"notices"`
	Verdict   verdictResult     `json:"verdict"`
	Plan      []stepResult      `json:"plan"` // the next check first
	NotTested []notTestedResult `json:"not_tested"`
	Cautions  []string          `json:"cautions"`
}

// Errors stand in the place of a Result where a job file has problems.
type Errors struct {
	File   string  `json:"file"`
	Errors []Error `json:"errors"`
}

// An Error is one problem of a job file at its place, counted from 1.
type Error struct {
	File    string `json:"file"` // which may be one that the job names
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Message string `json:"message"`
	Hint    string `json:"hint"`
}

// Problems are the errors of a job file.
func Problems(file string, problems job.Problems) Errors {
	e := Errors{File: file, Errors: []Error{}}
	for _, p := range problems {
		e.Errors = append(e.Errors, Error{File: p.File, Line: p.Line, Column: p.Col, Message: p.Message, Hint: p.Hint})
	}
	return e
}

type engineResult struct {
	Layout    string       `json:"layout"`
	Cylinders []string     `json:"cylinders"`
	Rotors    []string     `json:"rotors"`
	Banks     []bankResult `json:"banks"`
	Heads     [][]string   `json:"heads"`
	// Neighbours are pairs that stand side by side under one head gasket.
	Neighbours  [][2]string `json:"neighbours"`
	FiringOrder []string    `json:"firing_order"`
}

type bankResult struct {
	Name      string   `json:"name"`
	Side      string   `json:"side"` // of the vehicle; "" where there is one bank
	Cylinders []string `json:"cylinders"`
}

type findingResult struct {
	Rule       string       `json:"rule"`
	Variant    string       `json:"variant"` // which of the rule's wordings; "" the usual one
	Cylinders  []string     `json:"cylinders"`
	Circuit    string       `json:"circuit"`
	Urgency    string       `json:"urgency"`
	Confidence string       `json:"confidence"`
	Says       string       `json:"says"`
	Because    string       `json:"because"`
	Causes     []string     `json:"causes"`
	CauseNames []string     `json:"cause_names"`
	Against    []string     `json:"against"`
	Doubts     []string     `json:"doubts"`
	NextCheck  *checkResult `json:"next_check"`
	// SaidBy is the rule of the finding that leads the story of this one or says
	// it better, and that a sheet prints; "" of a finding that leads.
	SaidBy string `json:"said_by"`
}

type noticeResult struct {
	Rule      string   `json:"rule"`
	Cylinders []string `json:"cylinders"`
	Says      string   `json:"says"`
}

type verdictResult struct {
	Sentence  string       `json:"sentence"`
	Advice    string       `json:"advice"`
	Urgency   string       `json:"urgency"`
	Proven    bool         `json:"proven"`     // the tests show the engine sound, and not only that they found nothing
	About     *int         `json:"about"`      // the story that leads, by its index; null for none
	NextCheck *checkResult `json:"next_check"` // the one of the whole sheet
}

type notTestedResult struct {
	Test   string `json:"test"`
	State  string `json:"state"`
	Reason string `json:"reason"`
	// Part of a test that was made otherwise; empty where the whole was not made.
	Cylinders []string `json:"cylinders"`
	Reading   string   `json:"reading"` // of the fuel pressure
	Circuit   string   `json:"circuit"`
}

// Of makes the result of a job and its diagnosis. The error names words that
// the catalogue lacks.
func Of(j *job.Job, d *diag.Diagnosis) (*Result, error) {
	audience, err := audienceOf(j)
	if err != nil {
		return nil, err
	}
	findings := allFindings(d)
	s, err := speak(j, d, findings, audience)
	if err != nil {
		return nil, err
	}
	r := &Result{
		Job:            j.AsGiven(),
		Fingerprint:    j.Fingerprint(),
		Language:       j.Language.Value,
		Engine:         engineOf(j.Test().Engine),
		readingsResult: readingsOf(j.Test(), d, s.expected),
		Measured:       measuredOf(d),
		Before:         beforeOf(j.Test().Before, s),
		Findings:       []findingResult{},
		Notices:        []noticeResult{},
		Stories:        storiesOf(d, s),
		Verdict:        verdictResult{s.sentence, s.advice, string(d.Urgency), d.Proven, leadOf(d), checkOf(d.Next, s.next)},
		Plan:           planOf(d, s),
		NotTested:      []notTestedResult{},
		Cautions:       list(s.cautions),
	}
	for i, f := range findings {
		said := s.findings[i]
		r.Findings = append(r.Findings, findingResult{
			Rule: f.Rule, Variant: f.Variant, Cylinders: list(f.Cylinders), Circuit: f.Circuit,
			Urgency: string(f.Urgency), Confidence: string(f.Confidence),
			Says: said.Says, Because: said.Because,
			Causes: list(said.Causes), CauseNames: keysOf(f.Causes), Against: list(said.Against), Doubts: list(said.Doubts),
			NextCheck: checkOf(f.Next, said.Next), SaidBy: f.SaidBy,
		})
	}
	for i, n := range d.Notices {
		r.Notices = append(r.Notices, noticeResult{n.Rule, list(n.Cylinders), s.notices[i]})
	}
	for _, u := range d.NotTested {
		r.NotTested = append(r.NotTested, notTestedResult{u.Test, string(u.State), u.Reason, list(u.Cylinders), u.Reading, u.Circuit})
	}
	return r, nil
}

// audienceOf is the reader of the job's own sheet: the result says what that
// sheet says.
func audienceOf(j *job.Job) (templates.Audience, error) {
	kind := j.Sheet.Value
	if kind == "" {
		kind = "customer"
	}
	sheet, err := templates.BuiltIn(kind)
	if err != nil {
		return 0, err
	}
	return sheet.Audience, nil
}

// allFindings are the findings in the order of their stories, the leading one
// of each first.
func allFindings(d *diag.Diagnosis) []diag.Finding {
	var all []diag.Finding
	for _, s := range d.Stories {
		all = append(all, s.Members...)
	}
	return all
}

// JSON is a value as indented JSON with an end of line.
func JSON(v any) ([]byte, error) {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(v)
	return out.Bytes(), err
}

func engineOf(e *engine.Engine) engineResult {
	r := engineResult{
		Layout: e.Layout, Cylinders: []string{}, Rotors: []string{}, Banks: []bankResult{},
		Heads: [][]string{}, Neighbours: e.Neighbours(), FiringOrder: list(e.FiringOrder),
	}
	for _, c := range e.Cylinders {
		r.Cylinders = append(r.Cylinders, c.Name)
	}
	for _, rotor := range e.Rotors {
		r.Rotors = append(r.Rotors, rotor.Name)
	}
	for i, b := range e.Banks {
		r.Banks = append(r.Banks, bankResult{b.Name, e.SideLabel(i), list(b.Cylinders)})
	}
	for _, head := range e.Heads {
		r.Heads = append(r.Heads, list(head))
	}
	return r
}

// list is a list that is never null.
func list[T any](values []T) []T {
	if values == nil {
		return []T{}
	}
	return values
}

// number is a number as other programs take it: free of the last digits that
// arithmetic in binary leaves behind. What is not finite is null.
func number(v float64) *float64 { return significant(v, 10) }

func significant(v float64, digits int) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	if v == 0 {
		return new(float64)
	}
	scale := math.Pow10(digits - 1 - int(math.Floor(math.Log10(math.Abs(v)))))
	if math.IsInf(scale, 0) || scale == 0 {
		return &v
	}
	v = math.Round(v*scale) / scale
	return &v
}

// decimals rounds to a number of decimals.
func decimals(v float64, n int) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	scale := math.Pow10(n)
	v = math.Round(v*scale) / scale
	if v == 0 {
		v = 0 // no minus zero
	}
	return &v
}

// percent rounds to the one decimal that percentages of readings have.
func percent(v float64) *float64 { return decimals(v, 1) }

func optional(v *float64, round func(float64) *float64) *float64 {
	if v == nil {
		return nil
	}
	return round(*v)
}

func numbers(values []float64) []float64 {
	out := []float64{}
	for _, v := range values {
		if n := number(v); n != nil {
			out = append(out, *n)
		}
	}
	return out
}
