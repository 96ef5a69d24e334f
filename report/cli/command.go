// Package cli is the program's commands: it reads what the command line names,
// hands it on and writes what comes back, and knows nothing of how a page or a
// diagnosis is made.
package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"strings"
	"time"

	"github.com/spf13/cobra"
)

// Exit codes.
const (
	Done     = 0
	BadJob   = 1 // a job file has errors, or its page does not fit; of verify: the page differs
	WrongUse = 2
	NoAccess = 3 // a path could not be read or written, or an output was refused
)

// Command is the program with what it is connected to.
type Command struct {
	Stdin   io.Reader
	Stdout  io.Writer
	Stderr  io.Writer
	Now     func() time.Time // the clock, that no job is dated after; nil for none
	Version string

	absolute bool // jobs may name files by absolute paths
}

// today is the day by the command's clock, zero where it has none.
func (c *Command) today() time.Time {
	if c.Now == nil {
		return time.Time{}
	}
	return c.Now()
}

// Main runs the program with its arguments (without the program's name) and
// gives its exit code.
func (c *Command) Main(args []string) int {
	root := c.root()
	root.SetArgs(append([]string{}, args...))
	err := root.Execute()
	if err == nil {
		return Done
	}
	var f *failure
	if !errors.As(err, &f) { // the command library's own: flags and arguments
		f = wrongUse("%s", firstLine(err.Error()))
	}
	if f.message != "" && f.code == BadJob { // it begins with its place
		c.complain("%s", f.message)
	} else if f.message != "" {
		c.complain("gaugesheet: %s", f.message)
	}
	if f.hint != "" {
		c.complain("  hint: %s", f.hint)
	}
	return f.code
}

// BuildVersion is the version that the build carries.
func BuildVersion() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" || info.Main.Version == "(devel)" {
		return "devel"
	}
	return info.Main.Version
}

// A failure ends the program with a code. A message that is empty was already
// given.
type failure struct {
	code          int
	message, hint string
}

func (f *failure) Error() string { return f.message }

func wrongUse(format string, args ...any) *failure {
	return &failure{code: WrongUse, message: sentence(format, args)}
}

func noAccess(format string, args ...any) *failure {
	return &failure{code: NoAccess, message: sentence(format, args)}
}

// sentence is a message on one line, whatever names it holds.
func sentence(format string, args []any) string {
	for i, a := range args {
		if s, ok := a.(string); ok {
			args[i] = oneLineOf(s)
		}
	}
	return fmt.Sprintf(format, args...)
}

func (f *failure) withHint(format string, args ...any) *failure {
	f.hint = fmt.Sprintf(format, args...)
	return f
}

// ended gives a code to the program whose messages were already given.
func ended(code int) error {
	if code == Done {
		return nil
	}
	return &failure{code: code}
}

// complain writes a message to standard error.
func (c *Command) complain(format string, args ...any) {
	io.WriteString(visible{c.Stderr}, sentence(format, args)+"\n")
}

// say writes a line to standard output.
func (c *Command) say(format string, args ...any) error {
	return c.write([]byte(sentence(format, args) + "\n"))
}

// write writes a text to standard output.
func (c *Command) write(text []byte) error {
	if _, err := (visible{c.Stdout}).Write(text); err != nil {
		return noAccess("standard output: %v", reason(err))
	}
	return nil
}

func firstLine(s string) string {
	line, _, _ := strings.Cut(s, "\n")
	return line
}

// reason is an error without the operation and the path, which the message
// has already.
func reason(err error) error {
	var path *os.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}

const long = `gaugesheet makes a one-page sheet for a customer from an engine's test readings.
'gaugesheet start --ask' asks for them and draws the sheet; where a job file is
there already, 'gaugesheet draw job.yaml' does.`

func (c *Command) root() *cobra.Command {
	root := &cobra.Command{
		Use:           "gaugesheet",
		Short:         "Engine test sheets from a job file",
		Long:          long,
		Version:       c.Version,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return needsCommand(cmd, visible{c.Stderr})
			}
			hint := "'gaugesheet help' lists the commands"
			if isJob(args[0]) {
				hint += "; a job file is drawn by 'gaugesheet draw " + args[0] + "'"
			}
			return unknownCommand(cmd, args[0]).orHint("%s", hint)
		},
		CompletionOptions: cobra.CompletionOptions{DisableDefaultCmd: true},
	}
	root.SetIn(c.Stdin)
	root.SetOut(c.Stdout)
	root.SetErr(c.Stderr)
	root.SuggestionsMinimumDistance = 2
	root.AddCommand(c.drawCommand(), c.checkCommand(), c.blankCommand(), c.startCommand(), c.enginesCommand(), c.rulesCommand(), c.schemaCommand(),
		c.extractCommand(), c.verifyCommand(), c.explainCommand(), c.versionCommand(), c.manCommand(), c.completionCommand())
	root.SetVersionTemplate("gaugesheet {{.Version}}\n")
	c.ownHelp(root)
	for _, cmd := range root.Commands() {
		cmd.DisableFlagsInUseLine = true
		if cmd.ValidArgsFunction == nil {
			cmd.ValidArgsFunction = completeNothing
		}
	}
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		return wrongUse("%s", err).withHint("see '%s --help'", cmd.CommandPath())
	})
	return root
}

// jobFlags are those of every command that reads jobs.
func (c *Command) jobFlags(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&c.absolute, "absolute", false, "let the job file name other files by absolute paths")
}

// arguments checks how many arguments a command has; more than most (where it
// is not negative) or fewer than least is wrong use.
func arguments(least, most int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) >= least && (most < 0 || len(args) <= most) {
			return nil
		}
		return wrongUse("'%s' takes %s, found %d arguments", cmd.CommandPath(), what, len(args)).
			withHint("gaugesheet %s", cmd.Use)
	}
}
