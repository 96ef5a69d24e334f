package cli

import (
	"github.com/spf13/cobra"

	"gaugesheet/diag/engine"
)

// What the shell completes: words of flags, files by their ending, engines by
// name.

func completeWords(cmd *cobra.Command, flag string, words []string) {
	err := cmd.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp))
	if err != nil {
		panic(err) // the flag is missing or has completions already
	}
}

func completeFiles(endings ...string) cobra.CompletionFunc {
	return cobra.FixedCompletions(endings, cobra.ShellCompDirectiveFilterFileExt)
}

func completeEngines(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	var names []string
	for _, p := range engine.Known() {
		names = append(names, p.Name)
	}
	return names, cobra.ShellCompDirectiveDefault
}
