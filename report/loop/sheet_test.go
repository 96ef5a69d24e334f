package loop_test

import (
	"encoding/json"
	"fmt"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/story"
	"gaugesheet/layout/face"
	"gaugesheet/report/check"
	"gaugesheet/report/job"
)

// diagnose is the only place where these tests call the diagnosis.
func diagnose(t *diag.Test) *diag.Diagnosis { return story.Diagnose(t) }

// A sheet is what the JSON says, as far as the loop follows it.
type sheet struct {
	Findings []finding `json:"findings"`
	Notices  []struct {
		Rule string `json:"rule"`
		Says string `json:"says"`
	} `json:"notices"`
	Stories []struct {
		CauseNames []string `json:"cause_names"`
		Urgency    string   `json:"urgency"`
	} `json:"stories"`
	Verdict struct {
		Sentence string     `json:"sentence"`
		Advice   string     `json:"advice"`
		Urgency  string     `json:"urgency"`
		About    *int       `json:"about"`
		Next     *nextCheck `json:"next_check"`
	} `json:"verdict"`
}

type finding struct {
	Rule       string   `json:"rule"`
	Urgency    string   `json:"urgency"`
	CauseNames []string `json:"cause_names"`
	SaidBy     string   `json:"said_by"`
}

type nextCheck struct {
	Name      string    `json:"name"`
	Cylinders []string  `json:"cylinders"`
	Minutes   float64   `json:"minutes"`
	Do        string    `json:"do"`
	IfSo      string    `json:"if_so"`
	IfNot     string    `json:"if_not"`
	Outcomes  []outcome `json:"outcomes"`
}

type outcome struct {
	If   string `json:"if"`
	Then string `json:"then"`
	Name string `json:"name"`
}

const (
	noAction = "no action"
	doNotRun = "do not run until checked"
)

var reader = job.Reader{HasGlyph: face.Metrics().Has}

// read gives the sheet of a job file; refused are the problems that the reader
// has with it.
func read(text string) (s *sheet, refused job.Problems, err error) {
	j, problems := reader.Read("job.yaml", []byte(text))
	if len(problems) > 0 {
		return nil, problems, nil
	}
	d := diagnose(j.Test())
	result, err := check.Of(j, d)
	if err != nil {
		return nil, nil, fmt.Errorf("no words: %w", err)
	}
	raw, err := json.Marshal(result)
	if err != nil {
		return nil, nil, err
	}
	s = &sheet{}
	if err := json.Unmarshal(raw, s); err != nil {
		return nil, nil, fmt.Errorf("the JSON is not as the contract says: %w", err)
	}
	return s, nil, nil
}

// lead gives the causes of what the sheet says first: of the story that the
// verdict is about, else of the first finding that names any, before all of one
// that asks for something.
func (s *sheet) lead() []string {
	if a := s.Verdict.About; a != nil && *a >= 0 && *a < len(s.Stories) && len(s.Stories[*a].CauseNames) > 0 {
		return s.Stories[*a].CauseNames
	}
	for _, f := range s.Findings {
		if f.SaidBy == "" && f.Urgency != noAction && len(f.CauseNames) > 0 {
			return f.CauseNames
		}
	}
	for _, f := range s.Findings {
		if f.SaidBy == "" && len(f.CauseNames) > 0 {
			return f.CauseNames
		}
	}
	return nil
}

// noticed reports a notice by one of these rules.
func (s *sheet) noticed(rules []string) bool {
	for _, n := range s.Notices {
		if slices.Contains(rules, n.Rule) {
			return true
		}
	}
	return false
}

// named reports that a cause stands anywhere on the sheet.
func (s *sheet) named(causes []string) bool {
	for _, f := range s.Findings {
		if slices.ContainsFunc(f.CauseNames, func(c string) bool { return slices.Contains(causes, c) }) {
			return true
		}
	}
	return false
}
