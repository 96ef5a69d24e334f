package cli

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"gaugesheet/report/sheet"
	"gaugesheet/templates"
)

// papers are the sizes of paper, as flags have them.
var papers = []string{"letter", "a4", "legal"}

// drawing is what the flags say about how sheets are drawn and where to.
type drawing struct {
	options sheet.Options
	output  string // file, folder, standard, or "" for beside the job file
	force   bool
	picture bool    // a picture of the page instead of the page
	index   string  // a CSV file with a line for each sheet; "" none
	opened  *opened // the files that the jobs draw on, where these are watched
}

// drawCall is what the flags of 'draw' itself say.
type drawCall struct {
	drawing
	template, key string // files, "" for none
	watch         bool
}

func (c *Command) drawCommand() *cobra.Command {
	var d drawCall
	cmd := &cobra.Command{
		Use:   "draw JOB.yaml or FOLDER ... [-o FILE or FOLDER] [--sheet KIND] [--paper letter/a4/legal] [--language en/en-GB] [--watch] [--sign KEY]",
		Short: "Draw a sheet for each job file, as a PDF",
		Long: `Draw a sheet for each job file, as a PDF beside it unless -o says otherwise.
A folder stands for the job files in it and in the folders below; a pattern such
as '2026-*.yaml' for the files that it fits, where the shell leaves it as it is.
'-' reads a job from standard input, '-o -' writes the sheet to standard output.
With --picture, or where -o names a .png, a picture of the page is made instead.
Many jobs are drawn on all cores. With --watch, sheets are drawn again whenever
their job, its shop profile or an earlier job changes, and what that changed in
the verdict is said; the picture or sheet can stay open beside the editor.`,
		Example: `  gaugesheet draw job.yaml
  gaugesheet draw job.yaml --sheet workshop -o job-workshop.pdf
  gaugesheet draw job.yaml --watch
  gaugesheet draw season/ -o printed/ --index printed/index.csv`,
		Args: arguments(1, -1, "job files"),
		RunE: func(_ *cobra.Command, args []string) error { return c.drawn(args, &d) },
	}
	flags := cmd.Flags()
	d.flags(cmd)
	c.jobFlags(cmd)
	flags.StringVar(&d.options.Kind, "sheet", "", "`kind` of sheet: "+strings.Join(templates.Kinds(), ", ")+" (the job file's own where not given)")
	flags.StringVar(&d.template, "template", "", "a template `file` of your own instead of a kind of sheet")
	flags.BoolVar(&d.options.NoAttach, "no-attach", false, "leave the job file out of the sheet; nothing can then be extracted or verified")
	flags.StringVar(&d.key, "sign", "", "sign the sheets by the private SSH key in this `file`; 'verify --signers' tells")
	flags.StringVar(&d.index, "index", "", "write a CSV `file` with a line for each sheet")
	flags.BoolVar(&d.watch, "watch", false, "draw again on every change, and say what changed in the verdict; Ctrl-C ends it")
	completeWords(cmd, "sheet", templates.Kinds())
	cmd.ValidArgsFunction = completeFiles("yaml", "yml")
	return cmd
}

// drawn draws sheets as 'draw' was asked to.
func (c *Command) drawn(args []string, d *drawCall) error {
	if err := c.prepare(&d.drawing, d.template); err != nil {
		return err
	}
	if d.key != "" {
		if err := c.signBy(&d.drawing, d.key); err != nil {
			return err
		}
	}
	if d.watch {
		return c.watch(args, d.template, d.drawing)
	}
	tasks, err := c.plan(args, d.drawing)
	if err != nil {
		return err
	}
	return c.draw(tasks, d.drawing)
}

// flags are those of every command that draws sheets.
func (d *drawing) flags(cmd *cobra.Command) {
	flags := cmd.Flags()
	flags.StringVarP(&d.output, "output", "o", "", "write to this `file or folder`; - is standard output")
	flags.StringVar(&d.options.Paper, "paper", "", "`size` of the paper: letter, a4 or legal (the job file's own where not given)")
	languageFlag(cmd, &d.options.Language)
	flags.BoolVar(&d.picture, "picture", false, "a picture of the page (PNG) instead of the PDF, for a message; it carries no job file")
	flags.BoolVar(&d.options.Boxes, "boxes", false, "outline every block of the page")
	flags.BoolVar(&d.force, "force", false, "replace a file that gaugesheet did not make")
	completeWords(cmd, "paper", papers)
}

// prepare checks the flags and reads the template.
func (c *Command) prepare(d *drawing, template string) error {
	d.options.Version = c.Version
	if d.index == standard {
		return wrongUse("--index names a file, not standard output")
	}
	d.options.Kind, d.options.Paper = strings.ToLower(d.options.Kind), strings.ToLower(d.options.Paper)
	if err := known("sheet", d.options.Kind, templates.Kinds()); err != nil {
		return err
	}
	if err := known("paper", d.options.Paper, papers); err != nil {
		return err
	}
	if err := knownLanguage(&d.options.Language); err != nil {
		return err
	}
	if err := d.chooseFormat(); err != nil {
		return err
	}
	if template != "" {
		return c.readTemplate(d, template)
	}
	return nil
}

// readTemplate reads a template of the user's.
func (c *Command) readTemplate(d *drawing, template string) error {
	if d.options.Kind != "" {
		return wrongUse("--sheet and --template both say what goes on the page").withHint("give one of them")
	}
	data, err := readFile(template, mostFile)
	if err != nil {
		return noAccess("%s: cannot be read: %v", template, reason(err))
	}
	if _, problems := sheet.ReadTemplate(data); len(problems) > 0 {
		for _, p := range problems {
			c.complain("%s:%s", template, p)
			if p.Hint != "" {
				c.complain("  hint: %s", p.Hint)
			}
		}
		return ended(NoAccess)
	}
	d.options.Template, d.options.TemplateName = data, template
	return nil
}

// known checks a word of a flag.
func known(flag, word string, words []string) error {
	if word == "" || slices.Contains(words, word) {
		return nil
	}
	f := wrongUse("--%s is '%s', expected one of: %s", flag, word, strings.Join(words, ", "))
	if near := templates.Nearest(word, words); near != "" {
		return f.withHint("did you mean '%s'?", near)
	}
	return f
}
