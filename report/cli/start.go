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
	var full, force bool
	cmd := &cobra.Command{
		Use:   "start ENGINE [-o JOB.yaml]",
		Short: "Write a job file to fill in for an engine",
		Long: `Write a commented job file to fill in, for an engine that 'gaugesheet engines'
lists; to standard output where -o names no file.`,
		Example: `  gaugesheet start inline-4 -o job.yaml
  gaugesheet start 'V8, bank by bank' -o job.yaml`,
		Args: arguments(1, -1, "an engine"),
		RunE: func(_ *cobra.Command, args []string) error {
			name := strings.Join(args, " ")
			text, err := job.Starter(name, full)
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
	flags.BoolVar(&full, "full", false, "every key that a job file can have, not only the usual ones")
	flags.BoolVar(&force, "force", false, "replace a file that is there")
	cmd.ValidArgsFunction = completeEngines
	return cmd
}

// profileName is the shop profile that start looks for.
const profileName = "shop.yaml"
