package cli

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"gaugesheet/diag/engine"
	"gaugesheet/report/job"
)

func (c *Command) startCommand() *cobra.Command {
	var output string
	var full, force, asking bool
	cmd := &cobra.Command{
		Use:   "start --ask or start ENGINE [-o JOB.yaml]",
		Short: "Ask for the readings and write the job file, or write one to fill in",
		Long: `With --ask: ask for an engine's readings one by one, in the order of the bench,
say what was understood of each, write the job file and offer to draw it.
Without: write a commented job file to fill in, for an engine that
'gaugesheet engines' lists; to standard output where -o names no file.
Where a shop.yaml stands in the folder or above it, the job file names it.`,
		Example: `  gaugesheet start --ask
  gaugesheet start V8 --ask -o job.yaml
  gaugesheet start inline-4 -o job.yaml
  gaugesheet start 'V8, bank by bank' -o job.yaml`,
		Args: cobra.ArbitraryArgs,
		RunE: func(_ *cobra.Command, args []string) error {
			name := strings.Join(args, " ")
			switch {
			case asking && full:
				return wrongUse("--full is for a job file to fill in, and --ask fills it in")
			case asking:
				return c.askFor(name, output, force)
			case name == "":
				return wrongUse("'gaugesheet start' takes an engine, found none").
					withHint("'gaugesheet start --ask' asks for the engine and its readings; 'gaugesheet engines' lists the engines")
			}
			text, err := job.Starter(name, full, profileFor(output))
			var problem engine.Problem
			switch {
			case errors.As(err, &problem):
				return unknownEngine(problem, name)
			case err != nil:
				return wrongUse("%v", err)
			}
			return c.putText(output, text, force)
		},
	}
	flags := cmd.Flags()
	flags.StringVarP(&output, "output", "o", "", "write to this `file`; - is standard output")
	flags.BoolVar(&asking, "ask", false, "ask for the readings at the terminal, check each and write the job file")
	flags.BoolVar(&full, "full", false, "every key that a job file can have, not only the usual ones")
	flags.BoolVar(&force, "force", false, "replace a file that is there")
	cmd.ValidArgsFunction = completeEngines
	return cmd
}
