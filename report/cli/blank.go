package cli

import (
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"gaugesheet/diag/engine"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
)

// usualEngine is the engine of a bench sheet that is asked for without one.
const usualEngine = "inline-4"

func (c *Command) blankCommand() *cobra.Command {
	var d drawing
	var fuel string
	cmd := &cobra.Command{
		Use:   "blank [ENGINE or JOB.yaml] [-o FILE] [--language en/en-GB]",
		Short: "Draw an empty bench sheet for an engine",
		Long: `Draw an empty sheet to write on at the bench, for an engine that
'gaugesheet engines' lists or for that of a job file, which needs no readings.
Where the numbering is not given, the number boxes are empty too. The sheet of
a diesel has other boxes: say so with --fuel, or in the job file.`,
		Example: `  gaugesheet blank V8
  gaugesheet blank inline-6 --fuel diesel
  gaugesheet blank 'V8, bank by bank' -o bench.pdf`,
		Args: cobra.ArbitraryArgs,
		RunE: func(_ *cobra.Command, args []string) error {
			if err := c.prepare(&d, ""); err != nil {
				return err
			}
			what := usualEngine
			if len(args) > 0 {
				what = strings.Join(args, " ") // V8, bank by bank
			} else {
				c.complain("no engine was named: the sheet is for an %s; 'gaugesheet engines' lists the others", usualEngine)
			}
			if isJob(what) {
				if fuel != "" {
					return wrongUse("--fuel is for an engine without a job file, which says its own")
				}
				return c.blankJob(what, d)
			}
			return c.blankOf(what, fuel, d)
		},
	}
	d.flags(cmd)
	c.jobFlags(cmd)
	cmd.Flags().StringVar(&fuel, "fuel", "", "what the engine burns: a `fuel` of the job file, such as petrol or diesel")
	cmd.ValidArgsFunction = completeEngines
	return cmd
}

// isJob tells a job file from the name of an engine.
func isJob(what string) bool {
	if what == standard || isYAML(what) {
		return true
	}
	info, err := os.Stat(what)
	return err == nil && info.Mode().IsRegular()
}

func (c *Command) blankJob(name string, d drawing) error {
	j, problems, err := c.readJob(name, true)
	if err != nil {
		return err
	}
	if len(problems) > 0 {
		return c.refuse(problems)
	}
	page, err := sheet.Blank(j.Test().Engine, j, d.options)
	usual := standard
	if name != standard {
		usual = withExtension(name, "-blank"+d.ending())
	}
	return c.putBlank(page, err, name, usual, d)
}

// blankOf draws the sheet of an engine that was named, which may say its fuel too.
func (c *Command) blankOf(what, fuel string, d drawing) error {
	meant, more := job.EngineMeant(what)
	for _, said := range more { // V8 diesel
		if said[0] == "fuel" && fuel == "" {
			fuel = said[1]
		}
	}
	if fuel != "" {
		var err error
		if d.options.Engine, err = job.Burning(fuel); err != nil {
			return wrongUse("--fuel: %v", err)
		}
	}
	return c.blankEngine(what, meant, d)
}

// blankEngine draws the sheet of an engine that was named so, by what is meant.
func (c *Command) blankEngine(name, meant string, d drawing) error {
	spec, problem := engine.SpecFor(meant)
	if problem != nil {
		return unknownEngine(*problem, name)
	}
	spec.Unnumbered = spec.Numbering == "" && spec.FirstBank == ""
	e, problems := engine.New(spec)
	if len(problems) > 0 {
		return unknownEngine(problems[0], name)
	}
	page, err := sheet.Blank(e, nil, d.options)
	if err != nil {
		return &failure{code: BadJob, message: e.Layout + ": " + err.Error()}
	}
	return c.putBlank(page, err, name, e.Layout+"-blank"+d.ending(), d)
}

// unknownEngine refuses the name of an engine.
func unknownEngine(p engine.Problem, name string) error {
	f := wrongUse("%s", p.Message)
	if hint := job.LayoutHint(p, name); hint != "" {
		return f.withHint("%s", hint)
	}
	return f.withHint("'gaugesheet engines' lists the engines")
}

// putBlank writes a bench sheet where -o says, or under its usual name.
func (c *Command) putBlank(page *sheet.Sheet, err error, what, usual string, d drawing) error {
	if err != nil {
		return noSheet(what, err)
	}
	data, err := d.file(page)
	if err != nil {
		return noSheet(what, err)
	}
	output := usual
	switch {
	case d.output != "" && d.output != standard && isFolder(d.output):
		if err := os.MkdirAll(d.output, 0o777); err != nil {
			return noAccess("%s: cannot be made: %v", d.output, reason(err))
		}
		output = filepath.Join(d.output, filepath.Base(usual))
	case d.output != "" && d.output != standard:
		if err := oneFile(d.output); err != nil {
			return err
		}
		output = d.output
	case d.output == standard:
		output = standard
	}
	if output == standard {
		if isTerminal(c.Stdout) {
			return wrongUse("standard output is a terminal, which shows no sheet").withHint("send it into a file, or name one with -o")
		}
		return c.put(output, data)
	}
	if err := mayReplace(output, d.force, drawnHere); err != nil {
		return err
	}
	if err := c.put(output, data); err != nil {
		return err
	}
	return c.say("wrote %s", output)
}
