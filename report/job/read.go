package job

import (
	"fmt"
	"path"
	"slices"
	"strings"
	"time"
	"unicode"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// An Opener gives the bytes of a file that a job names. The name is a
// slash-separated path relative to the folder of the job file.
type Opener func(name string) ([]byte, error)

// A Reader reads job files.
type Reader struct {
	Open Opener // nil: no file can be read
	// HasGlyph tells whether the sheet's fonts have a character; nil: all.
	HasGlyph func(rune) bool
	// Today is the day on which the job is read: no date of a job is after it.
	// Where it is zero, dates are not held against it.
	Today time.Time
	// Absolute lets a job name files by absolute paths; else what a job reads
	// stays near it.
	Absolute bool
}

// Read reads a job. The name is that of the file, for problems. Exactly one of
// the job and the problems is empty.
func Read(name string, data []byte, open Opener) (*Job, Problems) {
	return Reader{Open: open}.Read(name, data)
}

// ReadForBlank reads a job for an empty bench sheet: like Read, but it needs
// no readings and no numbering.
func ReadForBlank(name string, data []byte, open Opener) (*Job, Problems) {
	return Reader{Open: open}.ReadForBlank(name, data)
}

// Read reads a job.
func (o Reader) Read(name string, data []byte) (*Job, Problems) { return o.read(name, data, false) }

// ReadForBlank reads a job that needs no readings and no numbering.
func (o Reader) ReadForBlank(name string, data []byte) (*Job, Problems) {
	return o.read(name, data, true)
}

func (o Reader) read(name string, data []byte, blank bool) (*Job, Problems) {
	shared := &run{options: o, jobs: map[string]*loaded{}}
	j := shared.job(name, path.Base(strings.ReplaceAll(name, `\`, "/")), data, blank, 0)
	if len(shared.problems) > 0 {
		return nil, shared.problems.withoutMended().sorted(name)
	}
	return j, nil
}

// A run reads one job and everything that it draws on.
type run struct {
	options  Reader
	problems Problems
	jobs     map[string]*loaded // earlier jobs by path
	chain    []string           // paths and fingerprints of the jobs being read
	files    []File
	bytes    int // of all these files
	texts    int // of those of them that are read as text
	pixels   int // of the pictures among them, by the work that they are
}

// A reader reads one file.
type reader struct {
	*run
	name     string   // of the file, for problems
	dir      string   // of the file, relative to the main job
	main     bool     // the file is the one that the user named: of others no line is shown
	lines    []string // and behind them those of the sources
	sources  []source
	depth    int // 0 for the main job
	blank    bool
	faults   int  // problems in this file
	shopLost bool // the shop profile could not be read
	notices  []diag.Notice

	cylinderNames []string // nil where the engine is not known
	cylinderWord  string   // "cylinder" or "rotor"
	bankList      []engine.Bank

	scales   map[string]*scale   // of the sections being read, by name
	measured map[string][]*scale // of the further tests, by section
	hasPlugs bool                // the job says how spark plugs look
	supplies []supplyOf          // of the leakages read
	// percentsLost: figures with a percent sign among these leakages can only be losses.
	percentsLost bool
	gapUnit      quantity.Unit // of the plug gap by the book; none where not given
}

func (s *run) reader(name, file string, data []byte, depth int) *reader {
	text := strings.TrimPrefix(string(data), "\ufeff")
	return &reader{run: s, name: name, dir: path.Dir(file), lines: strings.Split(text, "\n"), depth: depth, cylinderWord: "cylinder"}
}

// longestLine is how long a line may be to be shown or searched for a
// character; nobody writes longer ones.
const longestLine = 4096

// report notes a problem of this file.
func (r *reader) report(pos Pos, hint, format string, args ...any) {
	r.faults++
	if hint == "" && len(args) > 1 && strings.HasPrefix(format, "'%s' is '%s'") {
		label, isText := args[0].(string)
		if text, also := args[1].(string); isText && also {
			hint = ownForm(label, text)
		}
	}
	p := Problem{File: r.name, Line: max(pos.Line, 1), Col: max(pos.Col, 1),
		Message: visible(fmt.Sprintf(format, args...)), Hint: visible(hint)}
	p.kind = kindOf(format, p.Message, hint, args)
	if r.main && p.Line <= len(r.lines) && len(r.lines[p.Line-1]) <= longestLine {
		p.source = strings.TrimRight(r.lines[p.Line-1], "\r")
	}
	for _, s := range slices.Backward(r.sources) {
		if p.Line > s.from {
			p.File, p.Line, p.source = s.name, p.Line-s.from, ""
			break
		}
	}
	r.problems = append(r.problems, p)
}

func (r *reader) notice(rule, variant string, cylinders []string, facts diag.Facts) {
	r.notices = append(r.notices, diag.Notice{Rule: rule, Variant: variant, Cylinders: cylinders, Facts: facts})
}

// checkCharacters reports characters that cannot be printed: control
// characters, which escapes can smuggle in, and those that no font has.
func (r *reader) checkCharacters(n *node, value string) {
	for _, c := range value {
		switch {
		case c == '\n' || c == '\t' || c == '\r':
		case unicode.IsControl(c):
			r.report(n.pos, "delete it", "found the control character U+%04X, expected text", c)
			r.problems[len(r.problems)-1].spoils = true
			return
		case r.options.HasGlyph != nil && !r.options.HasGlyph(c):
			r.report(r.find(n.pos, c), "write it in other words or letters", "the sheet's fonts have no character '%c' (U+%04X)", c, c)
			r.problems[len(r.problems)-1].spoils = strings.TrimSpace(value) == string(c)
			return
		}
	}
}

// find gives the place of a character at or after a place in the file.
func (r *reader) find(from Pos, c rune) Pos {
	for line := from.Line; line <= len(r.lines) && line < from.Line+200; line++ {
		if len(r.lines[line-1]) > longestLine {
			break
		}
		for col, found := range []rune(r.lines[line-1]) {
			if found == c && (line > from.Line || col+1 >= from.Col) {
				return Pos{line, col + 1}
			}
		}
	}
	return from
}

// job reads one job file. The file is its path relative to the main job.
func (s *run) job(name, file string, data []byte, blank bool, depth int) *Job {
	r := s.reader(name, file, data, depth)
	r.main = depth == 0
	r.blank = blank
	root := r.tree(data)
	if root == nil {
		return nil
	}
	if depth > 0 && !root.hasOneOf(fileKeys) {
		r.report(Pos{1, 1}, "", "the file is no job file: it has none of its keys")
		return nil
	}
	oneSpelling(root, keyNames(fileKeys))
	shopFile := r.openShop(root)
	r.spell(root, fileKeys)
	r.cylinderNames = namesAhead(root) // what is answered to the keys of the file counts them
	top := r.section(root, "", fileKeys)
	r.cylinderNames = nil
	if top == nil {
		return nil
	}
	j := &Job{Name: name, Raw: data, root: root}
	s.chain = append(s.chain, file, j.Fingerprint())
	defer func() { s.chain = s.chain[:len(s.chain)-2] }()

	r.format(top)
	r.identity(j, top)
	shop := r.shop(j, top, shopFile)
	r.test(j, top, shop)
	r.photos(j, top)
	j.test.Earlier = r.earlier(top, j.test.Engine)
	j.Files = s.files
	if r.faults > 0 {
		return nil
	}
	return j
}

// latest is the newest version of the format that is known.
const latest = 1

func (r *reader) format(top *section) {
	n := top.scalar("format")
	if n == nil {
		return
	}
	if v := r.whole(n, "format", 1, 1_000_000); v > latest {
		r.report(n.pos, "a newer version of the program may read it", "the format is %d, this program reads up to %d", v, latest)
	}
}

// languageFor gives the language of the job, of the shop, or that of the paper.
func languageFor(job, shop, paper Text) Text {
	switch {
	case job.Given():
		return job
	case shop.Given():
		return shop
	}
	return Text{Value: LanguageOf(paper.Value)}
}

// LanguageOn is the language of a sheet of the job on a size of paper: the one
// that the job or its shop names, else the paper's.
func (j *Job) LanguageOn(paper string) string {
	if j.Language.Pos != (Pos{}) {
		return j.Language.Value
	}
	return LanguageOf(paper)
}

// LanguageOf gives the language that goes with a size of paper.
func LanguageOf(paper string) string {
	if paper == "a4" {
		return "en-GB"
	}
	return "en"
}

// paperFor gives the paper of the job, of the shop, or letter.
func paperFor(job, shop Text) Text {
	switch {
	case job.Given():
		return job
	case shop.Given():
		return shop
	}
	return Text{Value: "letter"}
}
