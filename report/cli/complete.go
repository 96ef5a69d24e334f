package cli

import (
	"bytes"
	"strings"

	"github.com/spf13/cobra"

	"gaugesheet/diag/engine"
	"gaugesheet/diag/rule"
)

// What the shell completes: words of flags, files by their ending, engines and
// rules by name.

func completeWords(cmd *cobra.Command, flag string, words []string) {
	err := cmd.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp))
	if err != nil {
		panic(err) // the flag is missing or has completions already
	}
}

func completeFiles(endings ...string) cobra.CompletionFunc {
	return cobra.FixedCompletions(endings, cobra.ShellCompDirectiveFilterFileExt)
}

func completeNothing(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return nil, cobra.ShellCompDirectiveNoFileComp
}

// completeEngines gives the layouts, and with their numberings those that have
// several.
func completeEngines(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	var names []string
	for _, p := range engine.Known() {
		if len(names) == 0 || p.Spec.Numbering != "" && names[len(names)-1] != p.Spec.Layout && !strings.HasPrefix(names[len(names)-1], p.Spec.Layout+",") {
			names = append(names, p.Spec.Layout)
		}
		if names[len(names)-1] != p.Name {
			names = append(names, p.Name)
		}
	}
	return names, cobra.ShellCompDirectiveDefault
}

func completeRules(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	var names []string
	for _, r := range rule.All() {
		names = append(names, r.Name)
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}

// shells are those that can complete the program's words, each with what has
// it do so from now on.
var shells = []struct{ name, use string }{
	{"bash", "gaugesheet completion bash > ~/.local/share/bash-completion/completions/gaugesheet"},
	{"zsh", "gaugesheet completion zsh > \"${fpath[1]}/_gaugesheet\""},
	{"fish", "gaugesheet completion fish > ~/.config/fish/completions/gaugesheet.fish"},
	{"powershell", "gaugesheet completion powershell >> $PROFILE"},
}

func (c *Command) completionCommand() *cobra.Command {
	var names, uses []string
	for _, s := range shells {
		names, uses = append(names, s.name), append(uses, "  "+s.use)
	}
	return &cobra.Command{
		Use:   "completion " + strings.Join(names, "/"),
		Short: "Print what has the shell complete commands, files and words",
		Long: `Print a script that has the shell complete commands, flags, job files, engines,
rules, sheets, papers and languages when the tab key is pressed. It works from
the next shell on:`,
		Example:           strings.Join(uses, "\n"),
		Args:              arguments(1, 1, "the name of a shell"),
		ValidArgsFunction: cobra.FixedCompletions(names, cobra.ShellCompDirectiveNoFileComp),
		RunE: func(cmd *cobra.Command, args []string) error {
			var script bytes.Buffer
			var err error
			switch args[0] {
			case "bash":
				err = cmd.Root().GenBashCompletionV2(&script, true)
			case "zsh":
				err = cmd.Root().GenZshCompletion(&script)
			case "fish":
				err = cmd.Root().GenFishCompletion(&script, true)
			case "powershell":
				err = cmd.Root().GenPowerShellCompletionWithDesc(&script)
			default:
				return wrongUse("unknown shell '%s', expected one of: %s", args[0], strings.Join(names, ", "))
			}
			if err != nil {
				return err
			}
			return c.put(standard, script.Bytes())
		},
	}
}
