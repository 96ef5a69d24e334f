package cli

import (
	"fmt"
	"regexp"
	"runtime/debug"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"gaugesheet/report/job"
)

func (c *Command) manCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "man [COMMAND or job]",
		Short: "Print a manual page, to be read with man -l -",
		Long: `Print the manual page of the program, of a command, or of the job file with
every key, in man's own format.`,
		Example: `  gaugesheet man | man -l -
  gaugesheet man job > gaugesheet-job.5`,
		Args: arguments(0, 1, "at most one command"),
		ValidArgsFunction: func(cmd *cobra.Command, _ []string, _ string) ([]string, cobra.ShellCompDirective) {
			return append(commandNames(cmd.Root()), jobTopic), cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			page := manual{version: c.Version, date: versionDate(c.Version, vcsTime())}
			switch {
			case len(args) == 0:
				return c.write([]byte(page.program(cmd.Root())))
			case args[0] == jobTopic:
				return c.write([]byte(page.jobFile()))
			}
			found, err := commandNamed(cmd.Root(), args[0])
			if err != nil {
				return err
			}
			return c.write([]byte(page.command(found)))
		},
	}
}

// A manual is a page in man's format being written. Its date is that of the
// version, so that the same build prints the same page.
type manual struct {
	strings.Builder
	version, date string
}

func (m *manual) title(title, section, name, what string) {
	fmt.Fprintf(m, ".TH %q %q %q %q %q\n.SH NAME\n%s \\- %s\n", title, section, m.date, "gaugesheet "+m.version, "gaugesheet", roff(name), roff(what))
}

func (m *manual) section(title, text string) {
	if text != "" {
		fmt.Fprintf(m, ".SH %s\n%s\n", title, strings.TrimRight(text, "\n"))
	}
}

func (m *manual) program(root *cobra.Command) string {
	m.title("GAUGESHEET", "1", "gaugesheet", root.Short)
	m.section("SYNOPSIS", ".B gaugesheet\n.I COMMAND\n[arguments]")
	m.section("DESCRIPTION", paragraphs(root.Long))
	m.WriteString(".SH COMMANDS\n")
	var also []string
	for _, name := range commandNames(root) {
		if cmd, err := commandNamed(root, name); err == nil {
			fmt.Fprintf(m, ".TP\n.B %s\n%s\n", name, roff(cmd.Short))
			also = append(also, "gaugesheet-"+name+"(1)")
		}
	}
	m.end("", append(also, "gaugesheet-job(5)"))
	return m.String()
}

func (m *manual) command(cmd *cobra.Command) string {
	name := "gaugesheet-" + cmd.Name()
	m.title(strings.ToUpper(name), "1", name, cmd.Short)
	m.section("SYNOPSIS", ".B gaugesheet "+roff(cmd.Use))
	m.section("DESCRIPTION", paragraphs(about(cmd)))
	m.flags(cmd)
	if cmd.Example != "" {
		m.section("EXAMPLES", ".nf\n"+roff(cmd.Example)+"\n.fi")
	}
	m.end(cmd.Name(), []string{"gaugesheet(1)", "gaugesheet-job(5)"})
	return m.String()
}

func (m *manual) flags(cmd *cobra.Command) {
	m.WriteString(".SH OPTIONS\n")
	cmd.LocalFlags().VisitAll(func(f *pflag.Flag) {
		value, text := pflag.UnquoteUsage(f)
		name := "--" + f.Name
		if f.Shorthand != "" {
			name = "-" + f.Shorthand + ", " + name
		}
		fmt.Fprintf(m, ".TP\n.B %s", roff(name))
		if value != "" {
			fmt.Fprintf(m, " \\fI%s\\fR", roff(value))
		}
		fmt.Fprintf(m, "\n%s\n", roff(text))
	})
}

// end writes what the pages of the commands have in common.
func (m *manual) end(name string, also []string) {
	m.WriteString(".SH EXIT STATUS\n")
	for _, e := range exitsOf(name) {
		fmt.Fprintf(m, ".TP\n.B %d\n%s\n", e.code, roff(e.means))
	}
	m.files()
	m.section("SEE ALSO", strings.Join(roffAll(also), ",\n"))
}

// filesUsed are the files that the program reads and writes.
var filesUsed = []exitFile{
	{"JOB.yaml", "an engine's test readings: see gaugesheet-job(5)"},
	{"JOB.pdf, JOB.png", "the sheet drawn from it, which carries it, and a picture of the sheet, which does not"},
	{profileName, "the shop profile, in the folder of the job file or above it; a job file names it under 'shop'"},
}

// An exitFile is a file with what it is.
type exitFile struct{ name, is string }

func (m *manual) files() {
	m.WriteString(".SH FILES\n")
	for _, f := range filesUsed {
		fmt.Fprintf(m, ".TP\n.I %s\n%s\n", roff(f.name), roff(f.is))
	}
}

func (m *manual) jobFile() string {
	m.title("GAUGESHEET-JOB", "5", "gaugesheet-job", "the job file: an engine's test readings")
	m.section("DESCRIPTION", paragraphs(jobIntroduction))
	m.WriteString(".SH KEYS\n")
	keysAsManual(&m.Builder, job.Keys())
	m.files()
	m.section("SEE ALSO", strings.Join(roffAll([]string{"gaugesheet(1)", "gaugesheet-start(1)", "gaugesheet-schema(1)"}), ",\n"))
	return m.String()
}

// roff writes a text so that man shows it as it is.
func roff(s string) string {
	s = strings.NewReplacer(`\`, `\e`, "-", `\-`).Replace(s)
	lines := strings.Split(s, "\n")
	for i, line := range lines {
		if strings.HasPrefix(line, ".") || strings.HasPrefix(line, "'") {
			lines[i] = `\&` + line
		}
	}
	return strings.Join(lines, "\n")
}

func roffAll(texts []string) []string {
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = roff(t)
	}
	return out
}

// paragraphs sets texts between empty lines as paragraphs.
func paragraphs(text string) string {
	var out []string
	for part := range strings.SplitSeq(strings.TrimSpace(text), "\n\n") {
		out = append(out, roff(strings.TrimSpace(part)))
	}
	return strings.Join(out, "\n.PP\n")
}

// pseudoVersion is a version made of the time of its commit.
var pseudoVersion = regexp.MustCompile(`[-.](\d{14})-[0-9a-f]{12}`)

// versionDate is the day of a version: that in its name where there is one,
// else that of its commit; "" where the build knows neither.
func versionDate(version, commit string) string {
	if m := pseudoVersion.FindStringSubmatch(version); m != nil {
		if t, err := time.Parse("20060102150405", m[1]); err == nil {
			return t.Format(time.DateOnly)
		}
	}
	if t, err := time.Parse(time.RFC3339, commit); err == nil {
		return t.UTC().Format(time.DateOnly)
	}
	return ""
}

// vcsTime is when the source that this was built from was committed.
func vcsTime() string {
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.time" {
				return s.Value
			}
		}
	}
	return ""
}
