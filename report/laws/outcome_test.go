package laws_test

import (
	"slices"
	"strings"
)

// An outcome is the JSON of a job, as a program elsewhere would decode it.
type outcome struct {
	Engine struct {
		Layout     string     `json:"layout"`
		Cylinders  []string   `json:"cylinders"`
		Rotors     []string   `json:"rotors"`
		Neighbours [][]string `json:"neighbours"`
		Banks      []struct {
			Cylinders []string `json:"cylinders"`
		} `json:"banks"`
	} `json:"engine"`
	Compression  compression `json:"compression"`
	Leakage      leakage     `json:"leakage"`
	Plugs        plugs       `json:"plugs"`
	Rotors       rotors      `json:"rotors"`
	FuelPressure fuel        `json:"fuel_pressure"`
	Findings     []finding   `json:"findings"`
	Notices      []struct {
		Rule      string   `json:"rule"`
		Cylinders []string `json:"cylinders"`
		Says      string   `json:"says"`
	} `json:"notices"`
	Verdict struct {
		Sentence  string     `json:"sentence"`
		Advice    string     `json:"advice"`
		Urgency   string     `json:"urgency"`
		Proven    bool       `json:"proven"`
		NextCheck *nextCheck `json:"next_check"`
		About     *int       `json:"about"`
	} `json:"verdict"`
	NotTested []struct {
		Test   string `json:"test"`
		State  string `json:"state"`
		Reason string `json:"reason"`
	} `json:"not_tested"`
	Cautions []string  `json:"cautions"`
	Stories  []account `json:"stories"`
	Plan     []step    `json:"plan"`
}

type limit struct {
	Rule     string   `json:"rule"`
	Limit    *float64 `json:"limit"`
	Unit     string   `json:"unit"`
	Value    *float64 `json:"value"`
	U        *float64 `json:"uncertainty"`
	Verdict  string   `json:"verdict"`
	Cylinder string   `json:"cylinder"`
}

type compression struct {
	State      string   `json:"state"`
	Complete   *bool    `json:"complete"`
	Unit       string   `json:"unit"`
	Highest    *float64 `json:"highest"`
	Lowest     *float64 `json:"lowest"`
	Mean       *float64 `json:"mean"`
	Difference *float64 `json:"difference"`
	Spread     *float64 `json:"spread_percent_of_highest"`
	Limits     []limit  `json:"limits"`
	Cylinders  []struct {
		Cylinder         string    `json:"cylinder"`
		Dry              *float64  `json:"dry"`
		Entered          string    `json:"entered"`
		DryReadings      []float64 `json:"dry_readings"`
		Kind             string    `json:"kind"`
		Wet              *float64  `json:"wet"`
		WetRise          *float64  `json:"wet_rise"`
		PercentOfHighest *float64  `json:"percent_of_highest"`
		Grade            string    `json:"grade"`
		State            string    `json:"state"`
	} `json:"cylinders"`
	Expected *struct {
		Low  *float64 `json:"low"`
		High *float64 `json:"high"`
	} `json:"expected"`
	AltitudeFactor *float64 `json:"altitude_factor"`
}

type leakage struct {
	State     string   `json:"state"`
	Complete  *bool    `json:"complete"`
	Limit     *float64 `json:"limit"`
	Cylinders []struct {
		Cylinder string   `json:"cylinder"`
		Loss     *float64 `json:"loss_percent"`
		Entered  string   `json:"entered"`
		At       []string `json:"at"`
		Verdict  string   `json:"verdict"`
	} `json:"cylinders"`
}

type plugs struct {
	State     string `json:"state"`
	Cylinders []struct {
		Cylinder   string `json:"cylinder"`
		Look       string `json:"look"`
		GapVerdict string `json:"gap_verdict"`
		State      string `json:"state"`
	} `json:"cylinders"`
}

type rotors struct {
	State    string `json:"state"`
	Complete *bool  `json:"complete"`
	Unit     string `json:"unit"`
	Faces    []struct {
		Rotor   string    `json:"rotor"`
		Values  []float64 `json:"values"`
		Entered []string  `json:"entered"`
		Grades  []string  `json:"grades"`
	} `json:"faces"`
	Limits []limit `json:"limits"`
}

type fuel struct {
	State    string `json:"state"`
	Unit     string `json:"unit"`
	Readings []struct {
		Circuit string   `json:"circuit"`
		Name    string   `json:"name"`
		Value   *float64 `json:"value"`
		Entered string   `json:"entered"`
		Verdict string   `json:"verdict"`
	} `json:"readings"`
	Circuits []struct {
		Name string `json:"name"`
		Hold []struct {
			Minutes *float64 `json:"minutes"`
			Value   *float64 `json:"value"`
			Verdict string   `json:"verdict"`
		} `json:"hold"`
	} `json:"circuits"`
}

type finding struct {
	Rule       string     `json:"rule"`
	Variant    string     `json:"variant"`
	Cylinders  []string   `json:"cylinders"`
	Circuit    string     `json:"circuit"`
	Urgency    string     `json:"urgency"`
	Confidence string     `json:"confidence"`
	Says       string     `json:"says"`
	Because    string     `json:"because"`
	Causes     []string   `json:"causes"`
	CauseNames []string   `json:"cause_names"`
	Against    []string   `json:"against"`
	Doubts     []string   `json:"doubts"`
	NextCheck  *nextCheck `json:"next_check"`
	SaidBy     string     `json:"said_by"`
}

type result struct {
	If   string   `json:"if"`
	Then string   `json:"then"`
	Name string   `json:"name"`
	Next *string  `json:"next"`
	On   []string `json:"next_cylinders"`
}

type nextCheck struct {
	Do        string   `json:"do"`
	IfSo      string   `json:"if_so"`
	IfNot     string   `json:"if_not"`
	Name      string   `json:"name"`
	Cylinders []string `json:"cylinders"`
	Minutes   float64  `json:"minutes"`
	Outcomes  []result `json:"outcomes"`
}

// An account is one story of the JSON.
type account struct {
	About      string     `json:"about"`
	System     string     `json:"system"`
	Part       string     `json:"part"`
	Cylinders  []string   `json:"cylinders"`
	Urgency    string     `json:"urgency"`
	Confidence string     `json:"confidence"`
	Says       string     `json:"says"`
	Because    string     `json:"because"`
	Causes     []string   `json:"causes"`
	CauseNames []string   `json:"cause_names"`
	For        []string   `json:"for"`
	Against    []string   `json:"against"`
	Doubts     []string   `json:"doubts"`
	NextCheck  *nextCheck `json:"next_check"`
	Repair     string     `json:"repair"`
}

type step struct {
	Check     string   `json:"check"`
	Cylinders []string `json:"cylinders"`
	Minutes   float64  `json:"minutes"`
	Outcomes  []result `json:"outcomes"`
}

// The urgencies in their order.
const (
	noAction   = "no action"
	checkAgain = "check again"
	actSoon    = "act soon"
	doNotRun   = "do not run until checked"
)

func rank(urgency string) int {
	return slices.Index([]string{noAction, checkAgain, actSoon, doNotRun}, urgency)
}

// A proposal is a check that is proposed somewhere, with the place.
type proposal struct {
	*nextCheck
	at string
}

// proposals are the checks proposed in the verdict, the findings and the
// stories.
func (o *outcome) proposals() []proposal {
	var all []proposal
	add := func(c *nextCheck, at string) {
		if c != nil {
			all = append(all, proposal{c, at})
		}
	}
	add(o.Verdict.NextCheck, "the verdict")
	for _, f := range o.Findings {
		add(f.NextCheck, "finding "+f.Rule)
	}
	for _, s := range o.Stories {
		add(s.NextCheck, "the story about "+s.About+" "+strings.Join(s.Cylinders, ", "))
	}
	return all
}

// proposed are the names of all checks proposed, those of the plan too.
func (o *outcome) proposed() map[string]string {
	names := map[string]string{}
	for _, p := range o.proposals() {
		if p.Name != "" {
			names[p.Name] = p.at
		}
	}
	for _, s := range o.Plan {
		names[s.Check] = "the plan"
		for _, r := range s.Outcomes {
			if r.Next != nil && *r.Next != "" {
				names[*r.Next] = "the plan, after " + s.Check
			}
		}
	}
	return names
}

// texts are the outcomes of a check in words, today's two or as many as there
// are.
func (c *nextCheck) results() []result {
	if len(c.Outcomes) > 0 {
		return c.Outcomes
	}
	return []result{{If: "if so", Then: c.IfSo, Name: "so"}, {If: "if not", Then: c.IfNot, Name: "not"}}
}

// said are all sentences of a job that speak of the engine, with their places.
func (o *outcome) said() []sentence {
	list := []sentence{{"the verdict", o.Verdict.Sentence}, {"the advice", o.Verdict.Advice}}
	for _, n := range o.Notices {
		list = append(list, sentence{"notice " + n.Rule, n.Says})
	}
	for _, f := range o.Findings {
		at := "finding " + f.Rule
		list = append(list, sentence{at, f.Says}, sentence{at, f.Because})
		for _, more := range slices.Concat(f.Causes, f.Against, f.Doubts) {
			list = append(list, sentence{at, more})
		}
	}
	for _, s := range o.Stories {
		at := "the story about " + s.About
		list = append(list, sentence{at, s.Says}, sentence{at, s.Because})
		for _, more := range slices.Concat(s.Causes, s.Against) {
			list = append(list, sentence{at, more})
		}
	}
	return list
}

// asked are all sentences that ask for something to be done, and what their
// outcomes say.
func (o *outcome) asked() []sentence {
	list := []sentence{{"the advice", o.Verdict.Advice}}
	for _, p := range o.proposals() {
		list = append(list, sentence{p.at + ": " + p.Name, p.Do})
		for _, r := range p.results() {
			list = append(list, sentence{p.at + ": outcome of " + p.Name, r.Then})
		}
	}
	for _, s := range o.Plan {
		for _, r := range s.Outcomes {
			list = append(list, sentence{"the plan: outcome of " + s.Check, r.Then})
		}
	}
	return list
}

type sentence struct{ at, text string }

// told tells whether the JSON tells its findings as stories: not there yet
// where there are findings and no story.
func (o *outcome) told() bool {
	return o.Stories != nil && (len(o.Stories) > 0 || len(o.Findings) == 0)
}

// rulesOfNotices names the remarks on the test.
func (o *outcome) rulesOfNotices() []string {
	var list []string
	for _, n := range o.Notices {
		list = append(list, n.Rule)
	}
	return list
}

// lead are the findings that are said: not folded into another.
func (o *outcome) lead() []finding {
	var out []finding
	for _, f := range o.Findings {
		if f.SaidBy == "" {
			out = append(out, f)
		}
	}
	return out
}

func overlap(a, b []string) bool {
	return slices.ContainsFunc(a, func(s string) bool { return slices.Contains(b, s) })
}
