package cli

import (
	"bytes"
	"runtime/debug"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

func (c *Command) manCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "man [COMMAND]",
		Short: "Print the manual page, to be read with man -l -",
		Args:  arguments(0, 1, "at most one command"),
		RunE: func(cmd *cobra.Command, args []string) error {
			page := cmd.Root()
			if len(args) == 1 {
				found, _, err := page.Find(args)
				if err != nil || found == page {
					return wrongUse("unknown command '%s'", args[0]).withHint("'gaugesheet help' lists the commands")
				}
				page = found
			}
			text, err := c.manual(page)
			if err != nil {
				return err
			}
			return c.write(text)
		},
	}
}

// manual is a command's manual page in man's own format. Its date is that of
// the source, so that the same build prints the same page.
func (c *Command) manual(page *cobra.Command) ([]byte, error) {
	page.DisableAutoGenTag = true
	date := sourceDate()
	var text bytes.Buffer
	err := doc.GenMan(page, &doc.GenManHeader{
		Title:   strings.ToUpper(strings.ReplaceAll(page.CommandPath(), " ", "-")),
		Section: "1",
		Source:  "gaugesheet " + c.Version,
		Date:    &date,
	}, &text)
	return text.Bytes(), err
}

// sourceDate is when the source that this was built from was committed; the
// year 2000 where the build does not know.
func sourceDate() time.Time {
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.time" {
				if t, err := time.Parse(time.RFC3339, s.Value); err == nil {
					return t
				}
			}
		}
	}
	return time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
}
