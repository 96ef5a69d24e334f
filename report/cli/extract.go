package cli

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"gaugesheet/report/archive"
)

// readSheets reads the sheets of a PDF.
func (c *Command) readSheets(name string) ([]*archive.Sheet, error) {
	data, err := c.readInput(name, archive.MostBytes)
	if err != nil {
		return nil, err
	}
	sheets, err := archive.OpenAll(data)
	if err != nil {
		return nil, noAccess("%s: %v", called(name), err)
	}
	return sheets, nil
}

func (c *Command) extractCommand() *cobra.Command {
	var output, folder string
	var force bool
	cmd := &cobra.Command{
		Use:   "extract SHEET.pdf ... [-o JOB.yaml]",
		Short: "Take the job file out of a sheet",
		Long: `Take the job file out of a sheet, byte for byte as it was; to standard output
where -o names no file. With --all, everything that the sheet carries goes into
a folder, so that the job can be drawn again there. The sheet may be a page of a
longer PDF; the job files of several sheets go into a folder, named by -o.`,
		Args: arguments(1, -1, "sheets"),

		ValidArgsFunction: completeFiles("pdf"),
		RunE: func(_ *cobra.Command, args []string) error {
			if folder != "" && output != "" {
				return wrongUse("-o and --all both say where the job file goes").withHint("give one of them")
			}
			var sheets []*archive.Sheet
			for _, name := range args {
				found, err := c.readSheets(name)
				if err != nil {
					return err
				}
				sheets = append(sheets, found...)
			}
			return c.extract(sheets, output, folder, force)
		},
	}
	flags := cmd.Flags()
	flags.StringVarP(&output, "output", "o", "", "write to this `file or folder`; - is standard output")
	flags.StringVar(&folder, "all", "", "write the job file and every other file into this `folder`")
	flags.BoolVar(&force, "force", false, "replace files that are there")
	return cmd
}

// extract writes what sheets carry: into a folder where there are several.
func (c *Command) extract(sheets []*archive.Sheet, output, folder string, force bool) error {
	if len(sheets) > 1 && folder == "" && (output == "" || output == standard || !isFolder(output)) {
		return wrongUse("there are %d sheets", len(sheets)).withHint("name a folder for their job files with -o FOLDER/ or --all FOLDER")
	}
	code := Done
	for _, s := range sheets {
		var err error
		switch {
		case folder != "" && len(sheets) > 1: // each in its own, for their files may have the same names
			err = c.extractAll(s, filepath.Join(folder, strings.TrimSuffix(jobName(s), filepath.Ext(jobName(s)))), force)
		case folder != "":
			err = c.extractAll(s, folder, force)
		case output != "" && output != standard && isFolder(output):
			err = c.putText(filepath.Join(output, jobName(s)), s.Job.Data, force)
		default:
			err = c.putText(output, s.Job.Data, force)
		}
		var f *failure
		if err != nil && (!errors.As(err, &f) || f.message != "") {
			return err
		} else if err != nil {
			code = max(code, f.code)
		}
	}
	return ended(code)
}

// jobName is the job file's name as the sheet has it, free of folders; one that
// no job file is called by is another.
func jobName(s *archive.Sheet) string {
	name := path.Base(strings.ReplaceAll(s.Job.Name, `\`, "/"))
	if !filepath.IsLocal(name) || !harmless(name) || !isYAML(name) && !strings.EqualFold(path.Ext(name), ".json") {
		return "job.yaml"
	}
	return name
}

// carried are the endings of what a sheet carries.
var carried = []string{".yaml", ".yml", ".json", ".png", ".jpg", ".jpeg", ".txt", ".sig"}

// harmless tells whether a name is one of a file that a sheet carries: a sheet
// may come from anyone, and puts no settings or programs into a folder.
func harmless(name string) bool {
	for _, part := range strings.Split(name, "/") {
		if part != ".." && strings.HasPrefix(part, ".") || strings.ContainsFunc(part, steers) || strings.ContainsAny(part, "\n\t:") {
			return false
		}
	}
	return slices.Contains(carried, strings.ToLower(path.Ext(name)))
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
	for _, f := range []*archive.File{s.Template, s.Signed, s.Signature} {
		if f != nil {
			files = append(files, *f)
		}
	}
	code := Done
	for _, f := range files {
		name := path.Join(deep, f.Name)
		if path.IsAbs(f.Name) || !filepath.IsLocal(filepath.FromSlash(name)) {
			c.complain("gaugesheet: '%s' was left out, it would be written outside the folder", f.Name)
			code = NoAccess
			continue
		}
		if !harmless(f.Name) {
			c.complain("gaugesheet: '%s' was left out, no file that a sheet carries is called so", oneLineOf(f.Name))
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
	if info, err := root.Lstat(name); err == nil && !force {
		return errors.New("it is there already; replace it with --force")
	} else if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	} else if err == nil && !info.Mode().IsRegular() {
		return errNoFile
	}
	return writeWhole(root, name, data, 0)
}
