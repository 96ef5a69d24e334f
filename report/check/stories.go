package check

import (
	"gaugesheet/diag"
	"gaugesheet/templates"
)

type storyResult struct {
	About      string       `json:"about"`
	Cylinders  []string     `json:"cylinders"`
	Circuit    string       `json:"circuit"`
	System     string       `json:"system"` // the section of the test that looks at it; "" of other stories
	Part       string       `json:"part"`   // of that system, where it is judged by itself: "cap"
	Urgency    string       `json:"urgency"`
	Confidence string       `json:"confidence"`
	Says       string       `json:"says"`
	Because    string       `json:"because"`
	Causes     []string     `json:"causes"`
	CauseNames []string     `json:"cause_names"`
	For        []string     `json:"for"` // the rules that it was made of, the leading one first
	Against    []string     `json:"against"`
	Doubts     []string     `json:"doubts"`
	Explains   []string     `json:"explains"` // the complaints of the job that its causes explain
	NextCheck  *checkResult `json:"next_check"`
	Repair     string       `json:"repair"` // what is done about it where no check comes next, by name; "" for nothing yet
}

type checkResult struct {
	Name      string          `json:"name"`
	Do        string          `json:"do"`
	IfSo      string          `json:"if_so"`
	IfNot     string          `json:"if_not"`
	Cylinders []string        `json:"cylinders"`
	Minutes   int             `json:"minutes"`
	Outcomes  []outcomeResult `json:"outcomes"`
}

type outcomeResult struct {
	Name string `json:"name"`
	If   string `json:"if"`
	Then string `json:"then"`
}

type stepResult struct {
	Check     string       `json:"check"`
	Cylinders []string     `json:"cylinders"`
	Minutes   int          `json:"minutes"`
	Outcomes  []leadResult `json:"outcomes"`
}

type leadResult struct {
	If   string   `json:"if"`
	Then string   `json:"then"`
	Next *string  `json:"next"`           // the check that comes next then; null for none
	On   []string `json:"next_cylinders"` // that it is made on; none for the engine or the fuel
}

func storiesOf(d *diag.Diagnosis, said *spoken) []storyResult {
	results := []storyResult{}
	for i, s := range d.Stories {
		words := said.stories[i]
		results = append(results, storyResult{
			About: string(s.About), Cylinders: list(s.Cylinders), Circuit: s.Circuit, System: s.System, Part: s.Part, Urgency: string(s.Urgency), Confidence: string(s.Confidence),
			Says: words.Says, Because: words.Because, Causes: list(words.Causes), CauseNames: keysOf(s.Causes), For: rulesOf(s),
			Against: list(words.Against), Doubts: list(words.Doubts), Explains: list(s.Explains), NextCheck: checkOf(s.Next, words.Next), Repair: s.Repair,
		})
	}
	return results
}

// rulesOf names the rules of a story: those of its findings, or of its notices.
func rulesOf(s diag.Story) []string {
	names := []string{}
	for _, f := range s.Members {
		names = append(names, f.Rule)
	}
	for _, n := range s.Notices {
		names = append(names, n.Rule)
	}
	return names
}

// leadOf is the index of the story that leads the sheet, nil for none.
func leadOf(d *diag.Diagnosis) *int {
	if len(d.Stories) == 0 || d.Lead < 0 {
		return nil
	}
	return &d.Lead
}

func planOf(d *diag.Diagnosis, said *spoken) []stepResult {
	results := []stepResult{}
	for i, step := range d.Plan {
		words := said.plan[i]
		r := stepResult{Check: step.Check.Key, Cylinders: onWhich(step.Check), Minutes: step.Check.Minutes, Outcomes: []leadResult{}}
		for j, lead := range step.Leads {
			one := leadResult{If: words.Leads[j].If, Then: words.Leads[j].Then, On: []string{}}
			if lead.Next != nil {
				one.Next, one.On = &lead.Next.Key, onWhich(lead.Next)
			}
			r.Outcomes = append(r.Outcomes, one)
		}
		results = append(results, r)
	}
	return results
}

func checkOf(c *diag.Check, said *templates.SaidCheck) *checkResult {
	if c == nil || said == nil {
		return nil
	}
	r := &checkResult{Name: c.Key, Do: said.Do, IfSo: said.IfSo, IfNot: said.IfNot, Cylinders: list(c.Cylinders), Minutes: c.Minutes, Outcomes: []outcomeResult{}}
	for _, o := range said.Outcomes {
		r.Outcomes = append(r.Outcomes, outcomeResult{Name: o.Name, If: o.If, Then: o.Then})
	}
	return r
}

func keysOf(phrases []diag.Phrase) []string {
	keys := []string{}
	for _, p := range phrases {
		keys = append(keys, p.Key)
	}
	return keys
}

// onWhich are the cylinders that a check is made on, none where the check before it has to
// show them.
func onWhich(c *diag.Check) []string {
	if c.Shown {
		return []string{}
	}
	return list(c.Cylinders)
}
