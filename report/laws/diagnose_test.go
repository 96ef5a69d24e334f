package laws_test

import (
	"encoding/json"
	"fmt"

	"gaugesheet/diag"
	"gaugesheet/diag/story"
	"gaugesheet/layout/face"
	"gaugesheet/report/check"
	"gaugesheet/report/job"
)

// diagnose and judge are the only places where these tests call the diagnosis; judge
// is for those that ask for no plan.
func diagnose(t *diag.Test) *diag.Diagnosis { return story.Diagnose(t) }
func judge(t *diag.Test) *diag.Diagnosis    { return story.WithoutPlan(t) }

// A subject is a job with all that was said of it.
type subject struct {
	seed  uint64
	tree  *tree
	job   *job.Job
	d     *diag.Diagnosis // handed on to the page, never looked at
	out   *outcome
	raw   []byte
	drawn map[string]*page // by kind of sheet
}

// refused is a job that the reader does not take.
type refused struct{ error }

var reader = job.Reader{HasGlyph: face.Metrics().Has}

// subjectOf reads a job, diagnoses it and decodes its JSON. The error is
// refused where the job file has a problem.
func subjectOf(seed uint64, t *tree) (*subject, error) {
	j, problems := reader.Read("job.yaml", []byte(t.String()))
	if len(problems) > 0 {
		return nil, refused{problems}
	}
	return subjectOfJob(seed, t, j)
}

// subjectOfJob diagnoses a job that was read.
func subjectOfJob(seed uint64, t *tree, j *job.Job) (*subject, error) {
	s := &subject{seed: seed, tree: t, d: diagnose(j.Test())}
	if err := s.put(j); err != nil {
		return nil, err
	}
	return s, nil
}

// put puts what was found into words and decodes its JSON.
func (s *subject) put(j *job.Job) error {
	s.job = j
	result, err := check.Of(j, s.d)
	if err != nil {
		return fmt.Errorf("no words: %w", err)
	}
	if s.raw, err = json.Marshal(result); err != nil {
		return fmt.Errorf("no JSON: %w", err)
	}
	s.out = &outcome{}
	if err := json.Unmarshal(s.raw, s.out); err != nil {
		return fmt.Errorf("the JSON is not as the contract says: %w", err)
	}
	return nil
}

// urgencyOf is the urgency alone, without words: for thousands of engines.
func urgencyOf(text []byte) (string, error) {
	j, problems := reader.Read("job.yaml", text)
	if len(problems) > 0 {
		return "", refused{problems}
	}
	return string(judge(j.Test()).Urgency), nil
}
