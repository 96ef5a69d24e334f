package cli

import (
	"errors"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"gaugesheet/report/archive"
)

// Unvouched is the exit code of verify for a page that says the same, but of
// which no more can be said.
const Unvouched = 4

func (c *Command) verifyCommand() *cobra.Command {
	var signers string
	cmd := &cobra.Command{
		Use:   "verify SHEET.pdf or FOLDER ... [--signers FILE]",
		Short: "Say whether a sheet still says what its job file says",
		Long: `Draw a sheet again from the job file that it carries, and name the first
difference. This tells whether the page says what the job file in it says, and is
as the program drew it. It does not tell who made it: anyone can change a job
file and draw a new sheet. With --signers it also tells whether one of the keys in
a file signed it ('draw --sign'); that proves a key, and no more.
A sheet may be a page of a longer PDF; a folder stands for the PDFs in and below it.

Exit code 0: the same. 4: says the same, but was rewritten, or something stands
beside it, so that it cannot be vouched for. 1: different, or not signed by one of
the keys. 3: not a sheet, or not readable.`,
		Args: arguments(1, -1, "sheets"),

		ValidArgsFunction: completeFiles("pdf"),
		RunE: func(_ *cobra.Command, args []string) error {
			v := &verifying{Command: c}
			if signers != "" {
				if err := v.readSigners(signers); err != nil {
					return err
				}
			}
			for _, name := range args {
				if err := v.argument(name); err != nil {
					return err
				}
			}
			if err := v.sum(); err != nil {
				return err
			}
			return ended(v.code)
		},
	}
	cmd.Flags().StringVar(&signers, "signers", "", "ask for a signature by one of the keys in this `file`: a line each, as ssh-keygen's allowed signers or public keys")
	return cmd
}

// A verifying is one run over several sheets.
type verifying struct {
	*Command
	signers *archive.Signers // nil where none are asked for
	code    int
	counts  map[int]int
	bad     []string // those that are not the same, with what came of them
	left    int      // PDFs in folders that are no sheets
}

// severity orders the exit codes, the best first.
var severity = map[int]int{Done: 0, Unvouched: 1, BadJob: 2, NoAccess: 3}

func (v *verifying) readSigners(name string) error {
	data, err := v.readInput(name, mostFile)
	if err != nil {
		return err
	}
	if v.signers, err = archive.ReadSigners(data); err != nil {
		return noAccess("%s:%v", called(name), err)
	}
	return nil
}

// argument verifies a file, or the PDFs in a folder and below it.
func (v *verifying) argument(name string) error {
	paths, err := expanded(name)
	if err != nil {
		return err
	}
	for _, p := range paths {
		if info, err := os.Stat(p); p != standard && err == nil && info.IsDir() {
			if err := v.folder(p); err != nil {
				return err
			}
		} else if err := v.file(p, false); err != nil {
			return err
		}
	}
	return nil
}

func (v *verifying) folder(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return noAccess("%s: %v", dir, reason(err))
	}
	for _, e := range entries {
		name := filepath.Join(dir, e.Name())
		switch {
		case strings.HasPrefix(e.Name(), "."):
		case e.IsDir():
			err = v.folder(name)
		case strings.EqualFold(filepath.Ext(name), ".pdf") && isRegular(name):
			err = v.file(name, true)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// file verifies the sheets of one file. One that is found in a folder may be
// no sheet; the error is of standard output.
func (v *verifying) file(name string, found bool) error {
	data, err := v.readInput(name, archive.MostBytes)
	var sheets []*archive.Sheet
	if err == nil {
		if sheets, err = archive.OpenAll(data); err != nil {
			if found && (errors.Is(err, archive.ErrForeign) || errors.Is(err, archive.ErrNotPDF)) {
				v.left++
				return nil
			}
			err = noAccess("%s: %v", called(name), err)
		}
	}
	if err != nil {
		visible{v.Stderr}.Write([]byte(outcome{}.failed(err).messages))
		v.count(called(name), NoAccess)
		return nil
	}
	for _, s := range sheets {
		named := called(name)
		if len(sheets) > 1 {
			named += " (" + oneLineOf(jobName(s)) + ")"
		}
		if err := v.sheet(named, s); err != nil {
			return err
		}
	}
	return nil
}

// sheet says what came of one sheet.
func (v *verifying) sheet(name string, s *archive.Sheet) error {
	verdict, err := s.Verify(v.Version)
	if err != nil {
		v.complain("gaugesheet: %s: %v", name, err)
		v.count(name, NoAccess)
		return nil
	}
	s.CheckSignature(&verdict, v.signers, v.today())
	code, said := Done, "the page says what its job file says"
	more := append(append(verdict.Differences, verdict.Reasons...), verdict.Notes...)
	switch verdict.Outcome() {
	case archive.Different:
		code, said, more = BadJob, more[0], more[1:]
	case archive.Unvouched:
		code, said, more = Unvouched, "the page says what its job file says, but cannot be vouched for: "+more[0], more[1:]
	}
	v.count(name, code)
	if err := v.say("%s: %s", name, said); err != nil {
		return err
	}
	for _, note := range more {
		if err := v.say("  note: %s", note); err != nil {
			return err
		}
	}
	return nil
}

func (v *verifying) count(name string, code int) {
	if v.counts == nil {
		v.counts = map[int]int{}
	}
	v.counts[code]++
	if code != Done {
		v.bad = append(v.bad, name)
	}
	if severity[code] > severity[v.code] {
		v.code = code
	}
}

// sum says what came of several sheets.
func (v *verifying) sum() error {
	total := 0
	for _, n := range v.counts {
		total += n
	}
	switch {
	case v.left == 1:
		v.complain("1 PDF in the folders is no sheet and was left out")
	case v.left > 1:
		v.complain("%d PDFs in the folders are no sheets and were left out", v.left)
	}
	if total == 0 {
		return noAccess("no sheets in these folders")
	}
	if total == 1 {
		return nil
	}
	v.complain("%d sheets: %d the same, %d say the same but cannot be vouched for, %d different, %d not readable",
		total, v.counts[Done], v.counts[Unvouched], v.counts[BadJob], v.counts[NoAccess])
	if len(v.bad) > 0 {
		v.complain("not the same:")
		for _, name := range v.bad {
			v.complain("  %s", name)
		}
	}
	return nil
}
