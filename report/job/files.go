package job

import (
	"bytes"
	"errors"
	"image"
	_ "image/jpeg" // the two formats of pictures
	_ "image/png"
	"io/fs"
	"path"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
)

const (
	mostEarlier = 12 // how long a chain of earlier jobs may be
	mostFiles   = 200
)

// resolve gives a file's path relative to the main job.
func (r *reader) resolve(name string) string {
	name = strings.ReplaceAll(name, `\`, "/")
	if path.IsAbs(name) {
		return path.Clean(name)
	}
	return path.Join(r.dir, name)
}

// open reads a file that the job names, and keeps it for the archive.
func (r *reader) open(name Text, role string) []byte {
	file := r.resolve(name.Value)
	for _, f := range r.files {
		if f.Name == file {
			return f.Data
		}
	}
	if !r.allowed(name, role) {
		return nil
	}
	if len(r.files) >= mostFiles {
		r.report(name.Pos, "", "the job draws on more than %d files", mostFiles)
		return nil
	}
	data, err := r.fetch(file)
	if err != nil {
		var at *fs.PathError
		switch {
		case errors.Is(err, fs.ErrNotExist):
			r.report(name.Pos, "it is looked for beside the file that names it", "file '%s' was not found", short(name.Value))
		case errors.As(err, &at):
			r.report(name.Pos, "", "file '%s' cannot be read: %v", short(name.Value), at.Err)
		default:
			r.report(name.Pos, "", "file '%s' cannot be read: %v", short(name.Value), err)
		}
		r.problems[len(r.problems)-1].names = file
		return nil
	}
	if data == nil {
		data = []byte{}
	}
	if r.bytes += len(data); r.bytes > mostBytes {
		r.report(name.Pos, "", "the files that the job draws on have more than %d MB together", mostBytes>>20)
		return nil
	}
	if role == RoleShop || role == RoleEarlier {
		if r.texts += len(data); r.texts > mostTexts {
			r.report(name.Pos, "", "the profiles and earlier jobs of the job have more than %d MB together", mostTexts>>20)
			return nil
		}
	}
	r.files = append(r.files, File{Name: file, Role: role, Data: data})
	return data
}

// endings are those of the files that a job may name, by what they are.
var endings = map[string][]string{
	RoleShop: {".yaml", ".yml"}, RoleEarlier: {".yaml", ".yml"},
	RoleLogo: {".png", ".jpg", ".jpeg"}, RolePhoto: {".png", ".jpg", ".jpeg"},
}

// allowed tells whether a job may name a file so: by a path near itself, and
// only what it can be. A job may come from anyone, and reads no other files.
func (r *reader) allowed(name Text, role string) bool {
	file := strings.ReplaceAll(name.Value, `\`, "/")
	of, what := endings[role], role
	switch role {
	case RoleEarlier:
		what = "earlier job"
	case RoleShop:
		what = "shop profile"
	}
	switch {
	case !slices.Contains(of, strings.ToLower(path.Ext(file))):
		hint := ""
		if what == "shop profile" && !strings.ContainsAny(name.Value, "./\\") { // the shop's name
			hint = "write 'shop: {name: " + short(name.Value) + "}' if that is the shop's name"
		}
		r.report(name.Pos, hint, "the file of the %s, '%s', does not end in %s", what, short(name.Value), inWords(of, "or"))
	case (path.IsAbs(file) || len(file) > 1 && file[1] == ':') && !r.options.Absolute:
		r.report(name.Pos, "name it by its path from the job file, or draw with --absolute", "the %s '%s' is named by an absolute path", what, short(name.Value))
	case role == RolePhoto && strings.HasPrefix(path.Clean(file), "../"):
		r.report(name.Pos, "photos stand beside the job file or below it", "the %s '%s' is outside the job's folder", what, short(name.Value))
	default:
		return true
	}
	return false
}

func (r *reader) fetch(file string) ([]byte, error) {
	if r.options.Open == nil {
		return nil, fs.ErrNotExist
	}
	return r.options.Open(file)
}

// below gives the name, for problems, of a file that this one names.
func (r *reader) below(name string) string {
	if path.IsAbs(name) {
		return name
	}
	return path.Join(path.Dir(strings.ReplaceAll(r.name, `\`, "/")), name)
}

// shop reads the shop profile, from a file or from the job itself, and gives
// its gauges.
func (r *reader) shop(j *Job, top *section, profile shopFile) map[string]*node {
	defer func() {
		j.Paper = paperFor(top.word("paper"), j.Shop.Paper)
		j.Language = languageFor(top.word("language"), j.Shop.Language, j.Paper)
	}()
	if profile.root == nil {
		return nil
	}
	before := profile.file.faults
	gauges := profile.file.profile(j, profile.root)
	if profile.file != r {
		r.faults += profile.file.faults - before
	}
	return gauges
}

// A shopFile is the shop's profile with the reader of its file, which is that of
// the job where the profile stands in it; the root is nil where there is none.
type shopFile struct {
	file *reader
	root *node
}

// openShop reads the file of the shop's profile, and takes the defaults of a
// job from it.
func (r *reader) openShop(root *node) shopFile {
	n := root.get("shop")
	switch {
	case n == nil || isEmpty(n):
		return shopFile{}
	case n.kind == mapping:
		r.defaults(root, n, r)
		return shopFile{r, n}
	case n.kind == list:
		return shopFile{r, n}
	}
	data := r.open(Text{n.text, n.pos}, RoleShop)
	r.shopLost = true
	if data == nil {
		return shopFile{}
	}
	file := r.reader(r.below(n.text), r.resolve(n.text), data, r.depth)
	profile := file.tree(data)
	switch {
	case profile != nil && !profile.hasOneOf(shopKeys):
		r.report(n.pos, "", "the shop file '%s' is no shop profile: it has none of its keys", short(n.text))
		r.problems[len(r.problems)-1].names = r.resolve(n.text)
		return shopFile{}
	case profile != nil:
		r.shopLost = false
		r.defaults(root, profile, file)
	}
	r.faults += file.faults
	return shopFile{file, profile}
}

// hasOneOf tells whether a file has a key of its kind. Of one that has none,
// messages say nothing of what is in it.
func (n *node) hasOneOf(keys []key) bool {
	return slices.ContainsFunc(n.entries, func(e entry) bool {
		return slices.ContainsFunc(keys, func(k key) bool { return k.name == e.key })
	})
}

func (r *reader) profile(j *Job, n *node) map[string]*node {
	s := r.section(n, "shop", shopKeys)
	shop := &j.Shop
	shop.Name, shop.Address, shop.Phone, shop.Email = s.text("name"), s.text("address"), s.text("phone"), s.text("email")
	shop.Registration, shop.Disclaimer, shop.Font = s.text("registration"), s.text("disclaimer"), s.text("font")
	shop.Paper, shop.Language = s.word("paper"), s.word("language")
	shop.Accent, shop.Logo = r.accent(s), s.text("logo")
	if shop.Logo.Given() && r.depth == 0 {
		shop.LogoData = r.logo(shop.Logo)
	}
	return r.shopGauges(s)
}

// accent reads a colour as six hexadecimal figures.
func (r *reader) accent(s *section) Text {
	t := s.text("accent")
	if !t.Given() {
		return t
	}
	figures := strings.TrimPrefix(t.Value, "#")
	if len(figures) != 6 || strings.Trim(strings.ToLower(figures), "0123456789abcdef") != "" {
		r.report(t.Pos, `such as "#2e6b57", in quotes`, "'shop.accent' is '%s', expected a colour of six hexadecimal figures", short(t.Value))
		return Text{}
	}
	t.Value = "#" + strings.ToLower(figures)
	return t
}

// mostLogoBytes and mostPhotoBytes bound what is drawn on every sheet, and what
// a camera gives.
const (
	mostLogoBytes  = 5 << 20
	mostPhotoBytes = 20 << 20
	// mostBytes bounds all files of a job together, mostPixels all its pictures;
	// a pixel of a PNG is four times the work of one of a JPEG.
	mostBytes  = 40 << 20
	mostPixels = 80_000_000
	mostTexts  = 2 << 20 // of profiles and earlier jobs together
)

func (r *reader) logo(name Text) []byte { return r.picture(name, RoleLogo, mostLogoBytes) }

// picture reads a file that is drawn on a page.
func (r *reader) picture(name Text, role string, most int) []byte {
	data := r.open(name, role)
	switch {
	case data == nil:
	case len(data) > most:
		r.report(name.Pos, "make the picture smaller", "the %s has %d bytes, the limit is %d", role, len(data), most)
	case !bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")) && !bytes.HasPrefix(data, []byte("\xff\xd8\xff")):
		r.report(name.Pos, "", "the %s '%s' is no picture in PNG or JPEG", role, short(name.Value))
	case !r.affords(name, role, data):
	default:
		return data
	}
	return nil
}

// affords tells whether a picture's pixels can still be drawn.
func (r *reader) affords(name Text, role string, data []byte) bool {
	c, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil || c.Width <= 0 || c.Height <= 0 { // who draws it says so
		return true
	}
	work := 1
	if kind == "png" {
		work = 4
	}
	if c.Width > mostPixels || c.Height > mostPixels/c.Width || r.pixels+work*c.Width*c.Height > mostPixels {
		r.report(name.Pos, "make the picture smaller", "the %s '%s' has %d x %d pixels; with the other pictures that is more than is drawn", role, short(name.Value), c.Width, c.Height)
		return false
	}
	r.pixels += work * c.Width * c.Height
	return true
}

// loaded is an earlier job that was read; nil where it has problems.
type loaded struct{ job *Job }

// earlier reads the earlier jobs, oldest first.
func (r *reader) earlier(top *section, e *engine.Engine) []diag.Earlier {
	var out []diag.Earlier
	seen := map[string]bool{}
	for _, name := range top.texts("earlier") {
		file := r.resolve(name.Value)
		if seen[file] {
			r.report(name.Pos, "", "the earlier job '%s' is listed twice", short(name.Value))
			continue
		}
		seen[file] = true
		if j := r.earlierJob(name, file); j != nil && r.sameEngine(name, e, j.test.Engine) {
			out = append(out, diag.Earlier{Label: label(j), Date: j.Date.Time, Test: j.test})
		}
	}
	slices.SortStableFunc(out, func(a, b diag.Earlier) int { return a.Date.Compare(b.Date) })
	return out
}

// sameEngine reports an earlier job whose engine has other cylinders.
func (r *reader) sameEngine(name Text, now, then *engine.Engine) bool {
	if now == nil || then == nil || !now.Numbered || !then.Numbered { // to be filled in
		return true
	}
	same := now.Layout == then.Layout && len(now.Names()) == len(then.Names())
	for _, one := range then.Names() {
		same = same && slices.Contains(now.Names(), one)
	}
	if !same {
		r.report(name.Pos, "earlier jobs are of the same engine", "the earlier job '%s' is of another engine: found %s, expected %s",
			short(name.Value), cylindersOf(then), cylindersOf(now))
	}
	return same
}

// cylindersOf says an engine's layout and the names of its cylinders.
func cylindersOf(e *engine.Engine) string {
	names := e.Names()
	if len(names) == 1 {
		return e.Layout
	}
	what := "cylinders "
	if e.Kind == engine.Rotary {
		what = "rotors "
	}
	return e.Layout + " with " + what + allOf(names)
}

// label names an earlier job by its date, its number or its file.
func label(j *Job) string {
	switch {
	case j.Date.Entered.Given():
		return j.Date.Entered.Value
	case j.Number.Given():
		return j.Number.Value
	}
	return path.Base(j.Name)
}

func (r *reader) earlierJob(name Text, file string) *Job {
	if slices.Contains(r.chain, file) {
		r.report(name.Pos, "an earlier job cannot lead back to a later one", "the earlier job '%s' leads back to itself", short(name.Value))
		return nil
	}
	if done, ok := r.jobs[file]; ok {
		return done.job
	}
	if r.depth >= mostEarlier {
		r.report(name.Pos, "", "earlier jobs lead to more than %d jobs one behind the other", mostEarlier)
		return nil
	}
	data := r.open(name, RoleEarlier)
	if data == nil {
		return nil
	}
	if slices.Contains(r.chain, (&Job{Raw: data}).Fingerprint()) {
		r.report(name.Pos, "it has the same contents", "the earlier job '%s' is the job that names it", short(name.Value))
		return nil
	}
	before := len(r.problems)
	j := r.job(r.below(name.Value), file, data, false, r.depth+1)
	r.faults += len(r.problems) - before
	r.jobs[file] = &loaded{j}
	return j
}
