package cli

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"
)

// byUse are the commands in the order in which a job comes to them; help lists
// them so.
var byUse = []string{"start", "draw", "check", "explain", "blank", "verify", "extract", "engines", "rules", "schema", "help", "man", "completion", "version"}

// jobTopic is what 'help' and 'man' take beside the commands: the job file.
const jobTopic = "job"

// helpWidth is how wide help is set.
const helpWidth = 80

// ownHelp has the program say its help in its own words.
func (c *Command) ownHelp(root *cobra.Command) {
	root.SetHelpFunc(func(cmd *cobra.Command, _ []string) { // what help cannot write stops nothing
		io.WriteString(visible{cmd.OutOrStdout()}, helpText(cmd))
	})
	root.SetUsageFunc(func(cmd *cobra.Command) error {
		_, err := io.WriteString(visible{cmd.OutOrStderr()}, helpText(cmd))
		return err
	})
	root.SetHelpCommand(c.helpCommand())
	root.Flags().BoolP("version", "v", false, "say which version this is")
	for _, cmd := range append(root.Commands(), root) {
		cmd.Flags().BoolP("help", "h", false, "this text")
	}
}

func (c *Command) helpCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND] or help job [KEY]",
		Short: "Say what a command does, or what a key of the job file means",
		Long: `Say what a command does. 'help job' lists every key of the job file with its
words and an example; with a key, such as 'help job compression' or
'help job compression.dry', only that and what stands below it.`,
		Example: `  gaugesheet help draw
  gaugesheet help job
  gaugesheet help job plugs.looks`,
		Args: arguments(0, 2, "a command, or 'job' and perhaps a key"),
		ValidArgsFunction: func(cmd *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			switch {
			case len(args) == 0:
				return append(commandNames(cmd.Root()), jobTopic), cobra.ShellCompDirectiveNoFileComp
			case len(args) == 1 && args[0] == jobTopic:
				return keyPaths(), cobra.ShellCompDirectiveNoFileComp
			}
			return nil, cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			switch {
			case len(args) == 0:
				return c.write([]byte(helpText(cmd.Root())))
			case args[0] == jobTopic:
				return c.helpJob(args[1:])
			}
			found, err := commandNamed(cmd.Root(), args[0])
			switch {
			case err != nil:
				return err
			case len(args) > 1:
				return wrongUse("'gaugesheet help %s' takes nothing more, found '%s'", args[0], args[1])
			}
			return c.write([]byte(helpText(found)))
		},
	}
}

// commandNamed finds a command.
func commandNamed(root *cobra.Command, name string) (*cobra.Command, error) {
	for _, cmd := range root.Commands() {
		if cmd.Name() == name {
			return cmd, nil
		}
	}
	return nil, unknownCommand(root, name).orHint("'gaugesheet help' lists the commands")
}

// unknownCommand refuses a command that there is not, with one that is spelled
// like it.
func unknownCommand(root *cobra.Command, name string) *failure {
	f := wrongUse("unknown command '%s'", name)
	if near := root.SuggestionsFor(name); len(near) > 0 {
		return f.withHint("did you mean '%s'?", near[0])
	}
	return f
}

// orHint gives a hint where there is none yet.
func (f *failure) orHint(format string, args ...any) *failure {
	if f.hint != "" {
		return f
	}
	return f.withHint(format, args...)
}

// commandNames are the names of the commands in the order of their use.
func commandNames(root *cobra.Command) []string {
	names := slices.Clone(byUse)
	for _, cmd := range root.Commands() {
		if !cmd.Hidden && !slices.Contains(names, cmd.Name()) {
			names = append(names, cmd.Name())
		}
	}
	return names
}

// helpText is the help of a command, or of the program.
func helpText(cmd *cobra.Command) string {
	var b strings.Builder
	if !cmd.HasParent() {
		programHelp(&b, cmd)
		return b.String()
	}
	fmt.Fprintf(&b, "gaugesheet %s\n\n", cmd.Use)
	b.WriteString(strings.TrimSpace(about(cmd)) + "\n")
	if cmd.Example != "" {
		fmt.Fprintf(&b, "\nFor example:\n%s\n", cmd.Example)
	}
	if flags := cmd.LocalFlags().FlagUsagesWrapped(helpWidth); flags != "" {
		fmt.Fprintf(&b, "\nFlags:\n%s", flags)
	}
	b.WriteString("\nExit codes:\n")
	for _, e := range exitsOf(cmd.Name()) {
		b.WriteString(hanging(fmt.Sprintf("  %d  ", e.code), e.means))
	}
	return b.String()
}

func programHelp(b *strings.Builder, root *cobra.Command) {
	fmt.Fprintf(b, "%s\n\nCommands:\n", root.Long)
	width := 0
	for _, name := range commandNames(root) {
		width = max(width, len(name))
	}
	for _, name := range commandNames(root) {
		if cmd, err := commandNamed(root, name); err == nil {
			fmt.Fprintf(b, "  %-*s  %s\n", width, name, cmd.Short)
		}
	}
	b.WriteString("\n'gaugesheet help COMMAND' says more of a command, 'gaugesheet help job' what a job\nfile can hold.\n")
}

// about is what a command does, at length where there is more to say.
func about(cmd *cobra.Command) string {
	if cmd.Long != "" {
		return cmd.Long
	}
	return cmd.Short + "."
}

// hanging sets a text behind a mark, its further lines under its beginning.
func hanging(mark, text string) string {
	var b strings.Builder
	indent := strings.Repeat(" ", len([]rune(mark)))
	line, empty := mark, true
	for _, word := range strings.Fields(text) {
		if !empty && len([]rune(line))+1+len([]rune(word)) > helpWidth {
			b.WriteString(line + "\n")
			line, empty = indent, true
		}
		if !empty {
			line += " "
		}
		line, empty = line+word, false
	}
	b.WriteString(strings.TrimRight(line, " ") + "\n")
	return b.String()
}

// An exit is a code that a command may end with.
type exit struct {
	code  int
	means string
}

// exits are those of the commands that read job files; the others' are these but
// for what is wrong with a job.
var exits = []exit{
	{Done, "done"},
	{BadJob, "a job file has errors, names a file that cannot be read, or does not fit on its page; nothing was written for it, the others were"},
	{WrongUse, "wrong use"},
	{NoAccess, "a file could not be read or written, or one that gaugesheet did not make would have been replaced"},
}

// exitsOf are the codes of a command.
func exitsOf(name string) []exit {
	if name == "verify" {
		return []exit{{Done, "the page says what its job file says"}, {BadJob, "it says something else"}, {WrongUse, "wrong use"},
			{NoAccess, "not a sheet of gaugesheet's, or not readable"}, {4, "it says the same, but cannot be vouched for"}}
	}
	if !slices.Contains([]string{"", "start", "draw", "check", "explain", "blank"}, name) {
		return slices.DeleteFunc(slices.Clone(exits), func(e exit) bool { return e.code == BadJob })
	}
	return exits
}

// needsCommand answers the program's name alone.
func needsCommand(root *cobra.Command, to io.Writer) error {
	_, err := io.WriteString(to, helpText(root))
	return errors.Join(err, ended(WrongUse))
}
