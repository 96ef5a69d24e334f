package cli

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"gaugesheet/report/archive"
)

// readSheet reads a sheet's PDF.
func (c *Command) readSheet(name string) (*archive.Sheet, error) {
	data, err := c.readInput(name, archive.MostBytes)
	if err != nil {
		return nil, err
	}
	s, err := archive.Open(data)
	if err != nil {
		return nil, noAccess("%s: %v", called(name), err)
	}
	return s, nil
}

func (c *Command) extractCommand() *cobra.Command {
	var output, folder string
	var force bool
	cmd := &cobra.Command{
		Use:   "extract SHEET.pdf [-o JOB.yaml]",
		Short: "Take the job file out of a sheet",
		Long: `Take the job file out of a sheet, byte for byte as it was; to standard output
where -o names no file. With --all, everything that the sheet carries goes into
a folder, so that the job can be drawn again there.`,
		Args: arguments(1, 1, "one sheet"),

		ValidArgsFunction: completeFiles("pdf"),
		RunE: func(_ *cobra.Command, args []string) error {
			if folder != "" && output != "" {
				return wrongUse("-o and --all both say where the job file goes").withHint("give one of them")
			}
			s, err := c.readSheet(args[0])
			switch {
			case err != nil:
				return err
			case folder != "":
				return c.extractAll(s, folder, force)
			case output != "" && output != standard && isFolder(output):
				output = filepath.Join(output, jobName(s))
			}
			return c.putText(output, s.Job.Data, force)
		},
	}
	flags := cmd.Flags()
	flags.StringVarP(&output, "output", "o", "", "write to this `file`; - is standard output")
	flags.StringVar(&folder, "all", "", "write the job file and every other file into this `folder`")
	flags.BoolVar(&force, "force", false, "replace files that are there")
	return cmd
}

// jobName is the job file's name as the sheet has it, free of folders.
func jobName(s *archive.Sheet) string {
	name := path.Base(strings.ReplaceAll(s.Job.Name, `\`, "/"))
	if !filepath.IsLocal(name) || name == "." {
		return "job.yaml"
	}
	return name
}

// extractAll writes everything that a sheet carries into a folder, and nothing
// outside it. Where the job draws on files beside its own folder, the job file
// goes as deep into the folder as is needed for the same paths to lead to
// them.
func (c *Command) extractAll(s *archive.Sheet, folder string, force bool) error {
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return noAccess("%s: cannot be made: %v", folder, reason(err))
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		return noAccess("%s: %v", folder, reason(err))
	}
	defer root.Close()
	deep := strings.Repeat("job/", above(s.Files))
	files := append([]archive.File{{Name: jobName(s), Data: s.Job.Data}}, s.Files...)
	if s.Template != nil {
		files = append(files, *s.Template)
	}
	code := Done
	for _, f := range files {
		name := path.Join(deep, f.Name)
		if path.IsAbs(f.Name) || !filepath.IsLocal(filepath.FromSlash(name)) {
			c.complain("gaugesheet: '%s' was left out, it would be written outside the folder", f.Name)
			code = NoAccess
			continue
		}
		if there, err := root.ReadFile(filepath.FromSlash(name)); err == nil && bytes.Equal(there, f.Data) {
			if err := c.say("%s is there already", filepath.Join(folder, name)); err != nil {
				return err
			}
			continue
		}
		if err := writeIn(root, filepath.FromSlash(name), f.Data, force); err != nil {
			return noAccess("%s: cannot be written: %v", filepath.Join(folder, name), reason(err))
		}
		if err := c.say("wrote %s", filepath.Join(folder, name)); err != nil {
			return err
		}
	}
	return ended(code)
}

// above says how many folders above the job's own the files reach.
func above(files []archive.File) int {
	most := 0
	for _, f := range files {
		n := 0
		for rest := path.Clean(f.Name); strings.HasPrefix(rest, "../"); rest = rest[3:] {
			n++
		}
		most = max(most, n)
	}
	return most
}

func writeIn(root *os.Root, name string, data []byte, force bool) error {
	if err := root.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		return err
	}
	if _, err := root.Lstat(name); err == nil && !force {
		return errors.New("it is there already; replace it with --force")
	} else if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	temporary := name + ".tmp"
	if err := root.WriteFile(temporary, data, 0o666); err != nil {
		return err
	}
	return root.Rename(temporary, name)
}

func (c *Command) verifyCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "verify SHEET.pdf ...",
		Short: "Say whether a sheet still says what its job file says",
		Long: `Draw a sheet again from the job file that it carries, and name the first
difference. Exit code 0: the same; 1: different; 3: not a sheet, or not readable.`,
		Args: arguments(1, -1, "sheets"),

		ValidArgsFunction: completeFiles("pdf"),
		RunE: func(_ *cobra.Command, args []string) error {
			code := Done
			for _, name := range args {
				one, err := c.verify(name)
				if err != nil {
					return err
				}
				code = max(code, one)
			}
			return ended(code)
		},
	}
}

// verify says what came of one sheet; the error is of standard output.
func (c *Command) verify(name string) (int, error) {
	s, err := c.readSheet(name)
	if err != nil {
		visible{c.Stderr}.Write([]byte(outcome{}.failed(err).messages))
		return NoAccess, nil
	}
	verdict, err := s.Verify(c.Version)
	if err != nil {
		c.complain("gaugesheet: %s: %v", called(name), err)
		return NoAccess, nil
	}
	code, said := Done, "the page says what its job file says"
	if !verdict.Same() {
		code, said = BadJob, verdict.Difference
	}
	if err := c.say("%s: %s", called(name), said); err != nil {
		return code, err
	}
	for _, note := range verdict.Notes {
		if err := c.say("  note: %s", note); err != nil {
			return code, err
		}
	}
	return code, nil
}
