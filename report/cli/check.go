package cli

import (
	"strings"

	"github.com/spf13/cobra"

	"gaugesheet/diag/story"
	"gaugesheet/report/check"
)

func (c *Command) checkCommand() *cobra.Command {
	var asJSON bool
	var language string
	cmd := &cobra.Command{
		Use:   "check JOB.yaml or FOLDER ... [--json] [--language en/en-GB]",
		Short: "Say in words what a job file's readings say, without a sheet",
		Long: `Check job files: their problems with line and column, then what the readings
say, in words or as JSON. What the engine is like never changes the exit code.`,
		Args: arguments(1, -1, "job files"),
		RunE: func(_ *cobra.Command, args []string) error {
			if err := knownLanguage(&language); err != nil {
				return err
			}
			inputs, several, err := c.inputs(args)
			if err != nil {
				return err
			}
			jobs := make([]string, len(inputs))
			for i, in := range inputs {
				jobs[i] = in.path
			}
			if asJSON {
				return c.checkJSON(jobs, several, language)
			}
			return c.checkText(jobs, language)
		},
	}
	c.jobFlags(cmd)
	cmd.Flags().BoolVar(&asJSON, "json", false, "write JSON, and nothing else, to standard output")
	languageFlag(cmd, &language)
	cmd.ValidArgsFunction = completeFiles("yaml", "yml")
	return cmd
}

// checkText writes the words of all jobs, and the problems of those that have
// some.
func (c *Command) checkText(jobs []string, language string) error {
	code := Done
	for i, name := range jobs {
		if len(jobs) > 1 {
			title := called(name)
			if i > 0 {
				title = "\n" + title
			}
			if err := c.write([]byte(title + "\n" + strings.Repeat("=", len([]rune(called(name)))) + "\n")); err != nil {
				return err
			}
		}
		j, problems, err := c.readJob(name, false)
		if o := (outcome{}); err != nil || len(problems) > 0 {
			if err != nil {
				o = o.failed(err)
			} else {
				o = o.problems(problems)
			}
			visible{c.Stderr}.Write([]byte(o.messages))
			code = max(code, o.code)
			continue
		}
		inLanguage(j, language)
		var text strings.Builder
		if err := check.Text(&text, j, story.Diagnose(j.Test())); err != nil {
			return noSheet(name, err)
		}
		if err := c.write([]byte(text.String())); err != nil {
			return err
		}
	}
	return ended(code)
}

// noSheet is a job that cannot be put in words or on its page.
func noSheet(name string, err error) *failure {
	return &failure{code: BadJob, message: called(name) + ":1:1: " + err.Error()}
}

// checkJSON writes one object, or an array of one for each job. The problems
// also go to standard error.
func (c *Command) checkJSON(jobs []string, several bool, language string) error {
	code := Done
	results := []any{}
	for _, name := range jobs {
		result, one, err := c.checkOne(name, language)
		if err != nil {
			return err
		}
		code = max(code, one)
		results = append(results, result)
	}
	var all any = results
	if !several {
		all = results[0]
	}
	text, err := check.JSON(all)
	if err != nil {
		return noSheet(jobs[0], err)
	}
	if err := c.write(text); err != nil {
		return err
	}
	return ended(code)
}

// checkOne gives a job's result, or its errors, and the code that goes with
// it.
func (c *Command) checkOne(name, language string) (any, int, error) {
	j, problems, err := c.readJob(name, false)
	switch {
	case err != nil:
		o := outcome{}.failed(err)
		visible{c.Stderr}.Write([]byte(o.messages))
		return check.Errors{File: name, Errors: []check.Error{{File: name, Line: 1, Column: 1, Message: err.Error()}}}, NoAccess, nil
	case len(problems) > 0:
		visible{c.Stderr}.Write([]byte(outcome{}.problems(problems).messages))
		return check.Problems(name, problems), BadJob, nil
	}
	inLanguage(j, language)
	result, err := check.Of(j, story.Diagnose(j.Test()))
	if err != nil {
		return nil, 0, noSheet(name, err)
	}
	return result, Done, nil
}

func (c *Command) explainCommand() *cobra.Command {
	var language string
	cmd := &cobra.Command{
		Use:   "explain JOB.yaml [CYLINDER] [--language en/en-GB]",
		Short: "Say how the findings of a job file came about",
		Long: `Say how the findings of a job file came about: its readings, every rule that
was tried, why it fired or did not, and what overrode what. With a cylinder,
only what concerns it.`,
		Args: arguments(1, 2, "a job file and perhaps a cylinder"),

		ValidArgsFunction: completeFiles("yaml", "yml"),
		RunE: func(_ *cobra.Command, args []string) error {
			if err := knownLanguage(&language); err != nil {
				return err
			}
			j, problems, err := c.readJob(args[0], false)
			if err != nil {
				return err
			}
			if len(problems) > 0 {
				return c.refuse(problems)
			}
			inLanguage(j, language)
			cylinder := ""
			if len(args) > 1 {
				cylinder = args[1]
			}
			var text strings.Builder
			if err := check.Explain(&text, j, cylinder); err != nil {
				if _, unknown := err.(*check.UnknownCylinder); unknown {
					return wrongUse("%v", err)
				}
				return noSheet(args[0], err)
			}
			return c.write([]byte(text.String()))
		},
	}
	languageFlag(cmd, &language)
	c.jobFlags(cmd)
	return cmd
}
