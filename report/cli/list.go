package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"gaugesheet/diag/engine"
	"gaugesheet/diag/rule"
	"gaugesheet/report/job"
	"gaugesheet/report/licences"
	"gaugesheet/templates"
)

func (c *Command) enginesCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "engines [ENGINE]",
		Short: "List the engine layouts and numberings, with small drawings",

		Args:              cobra.ArbitraryArgs,
		ValidArgsFunction: completeEngines,
		RunE: func(_ *cobra.Command, args []string) error {
			presets := engine.Known()
			if len(args) > 0 {
				name := strings.Join(args, " ") // V8, bank by bank
				meant, _ := job.EngineMeant(name)
				p, ok := engine.Find(meant)
				if !ok {
					_, problem := engine.SpecFor(name)
					if problem == nil {
						return wrongUse("unknown engine '%s'", name).withHint("'gaugesheet engines' lists the engines")
					}
					return unknownEngine(*problem, name)
				}
				presets = []engine.Preset{p}
			}
			var b strings.Builder
			fmt.Fprintf(&b, "Numberings, first banks and firing orders are %s.\n", engine.CheckManual)
			for _, p := range presets {
				fmt.Fprintf(&b, "\n%s\n", p.Name)
				for line := range strings.Lines(strings.Trim(p.Drawing, "\n")) {
					fmt.Fprintf(&b, "    %s\n", strings.TrimRight(line, "\n "))
				}
				for _, f := range p.Firing {
					fmt.Fprintf(&b, "  firing order %s (%s)\n", f.Order, f.Source)
				}
			}
			return c.write([]byte(b.String()))
		},
	}
}

func (c *Command) rulesCommand() *cobra.Command {
	return &cobra.Command{
		Use:               "rules [NAME]",
		Short:             "List the rules of the diagnosis: what triggers each, why, and its source",
		Args:              arguments(0, 1, "at most one rule"),
		ValidArgsFunction: completeRules,
		RunE: func(_ *cobra.Command, args []string) error {
			rules := rule.All()
			if len(args) == 1 {
				one, err := ruleNamed(rules, args[0])
				if err != nil {
					return err
				}
				rules = []rule.Rule{one}
			}
			var b strings.Builder
			for i, r := range rules {
				if i > 0 {
					b.WriteString("\n")
				}
				writeRule(&b, r)
			}
			return c.write([]byte(b.String()))
		},
	}
}

func ruleNamed(rules []rule.Rule, name string) (rule.Rule, error) {
	var names []string
	for _, r := range rules {
		if r.Name == name {
			return r, nil
		}
		names = append(names, r.Name)
	}
	f := wrongUse("unknown rule '%s'", name)
	if near := templates.Nearest(name, names); near != "" {
		return rule.Rule{}, f.withHint("did you mean '%s'?", near)
	}
	return rule.Rule{}, f.withHint("'gaugesheet rules' lists the rules")
}

func writeRule(b *strings.Builder, r rule.Rule) {
	fmt.Fprintf(b, "%s: %s\n", r.Name, r.Title)
	write := func(what, text string) {
		if text != "" {
			fmt.Fprintf(b, "  %-18s%s\n", what, text)
		}
	}
	var needs []string
	for _, n := range r.Needs {
		needs = append(needs, string(n))
	}
	write("needs", strings.Join(needs, ", "))
	write("trigger", r.Trigger())
	write("why", r.Why)
	write("source", r.Source)
	write("says better than", strings.Join(r.SaysBetterThan, ", "))
	write("stands instead of", strings.Join(r.InsteadOf, ", "))
}

func (c *Command) versionCommand() *cobra.Command {
	var texts bool
	cmd := &cobra.Command{
		Use:   "version [--licences]",
		Short: "Say which version this is",
		Args:  arguments(0, 0, "no arguments"),
		RunE: func(*cobra.Command, []string) error {
			if texts {
				return c.write([]byte(licenceTexts()))
			}
			return c.say("gaugesheet %s", c.Version)
		},
	}
	cmd.Flags().BoolVar(&texts, "licences", false, "print the licences of the embedded type and of the libraries in the program")
	return cmd
}

func licenceTexts() string {
	var b strings.Builder
	for i, l := range licences.All() {
		if i > 0 {
			b.WriteString("\n")
		}
		fmt.Fprintf(&b, "%s\n%s\n\n%s", l.Part, strings.Repeat("=", len(l.Part)), l.Text)
	}
	return b.String()
}

func (c *Command) schemaCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "schema",
		Short: "Print the JSON Schema of the job file, for editors",
		Args:  arguments(0, 0, "no arguments"),
		RunE:  func(*cobra.Command, []string) error { return c.write(job.Schema()) },
	}
}
