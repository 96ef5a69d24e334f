package archive

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"gaugesheet/report/archive/pdffile"
)

// What a document has beside its page is judged by lists of what may be there:
// what is on none of them could show or run something that is not read here.

// A worth is what an entry means that the sheet does not have when it is drawn.
type worth int

const (
	harmless worth = iota + 1 // nothing to see, nothing to run
	doubtful                  // it can be seen beside the page, or changes how it is printed
)

// catalogEntries are those that a document may have. What stands for itself is
// judged where it is read.
var catalogEntries = map[pdffile.Name]worth{
	"Type": harmless, "Pages": harmless, "Version": harmless, "Extensions": harmless, "PageLayout": harmless, "PageMode": harmless,
	"ViewerPreferences": harmless, "Lang": doubtful, "AF": harmless, "DSS": harmless, "Perms": harmless, "Dests": harmless,
	"Outlines": doubtful, "PageLabels": doubtful, "Threads": doubtful, "URI": doubtful, "SpiderInfo": doubtful, "PieceInfo": doubtful, "MarkInfo": doubtful, "OCProperties": doubtful, "Metadata": doubtful, "LastModified": harmless,
}

// said is how messages call entries.
var said = map[pdffile.Name]string{
	"Outlines": "bookmarks", "Lang": "another language", "PageLabels": "names for its pages", "StructParents": "another word on its tags", "Threads": "a thread of articles", "URI": "a base for links", "SpiderInfo": "data of a web page",
	"PieceInfo": "another program's data", "OutputIntents": "another meaning of its colors", "MarkInfo": "another word on its tags",
	"OCProperties": "layers", "Metadata": "other metadata", "Thumb": "a small picture of the page for lists", "Group": "how its colors are blended",
	"OpenAction": "something that happens when it is opened", "AA": "something that happens by itself", "Collection": "a cover for other files",
	"NeedsRendering": "a form that draws the page anew", "UserUnit": "another scale of the page", "StructTreeRoot": "tags",
}

func saidOf(key pdffile.Name) string {
	if text, ok := said[key]; ok {
		return text
	}
	return fmt.Sprintf("an entry %s, which no sheet has", quoted(string(key)))
}

// catalogs are the roots of both documents.
func (c *comparison) catalogs() (ours, theirs pdffile.Dict, err error) {
	if ours, err = c.s.file.Catalog(); err != nil {
		return nil, nil, err
	}
	theirs, err = c.again.file.Catalog()
	return ours, theirs, err
}

// catalog compares the document's root.
func (c *comparison) catalog() error {
	ours, theirs, err := c.catalogs()
	if err != nil {
		return err
	}
	for _, key := range slices.Sorted(maps.Keys(ours)) {
		if err := c.catalogEntry(key, ours[key], theirs[key]); err != nil {
			return err
		}
	}
	var gone []string
	for _, key := range []pdffile.Name{"Metadata", "OutputIntents", "StructTreeRoot"} {
		if theirs[key] != nil && ours[key] == nil {
			gone = append(gone, map[pdffile.Name]string{"Metadata": "metadata", "OutputIntents": "what its colors mean", "StructTreeRoot": "tags"}[key])
		}
	}
	if gone != nil {
		c.v.doubts("something that the sheet was drawn with is gone: %s", strings.Join(gone, ", "))
	}
	return nil
}

// catalogEntry compares one entry of the catalog.
func (c *comparison) catalogEntry(key pdffile.Name, ours, theirs pdffile.Object) error {
	switch key {
	case "AcroForm":
		return c.form(ours)
	case "Names":
		return c.names(ours)
	case "OutputIntents":
		return c.colors(ours, theirs)
	case "StructTreeRoot":
		return c.tags(ours, theirs)
	case "NeedsRendering":
		if o, err := c.s.file.Resolve(ours); o == false || err != nil { // as where nothing is said
			return err
		}
	case "OpenAction":
		o, err := c.s.file.Resolve(ours)
		if _, isPlace := o.([]pdffile.Object); err != nil || isPlace { // a place in the document
			return err
		}
	}
	return c.entry(key, ours, theirs, catalogEntries[key])
}

// entry judges one entry of a dictionary beside that of the sheet as it was
// drawn.
func (c *comparison) entry(key pdffile.Name, ours, theirs pdffile.Object, w worth) error {
	if w == harmless {
		return nil
	}
	o, err := c.s.file.Resolve(ours)
	if err != nil || o == nil {
		return err
	}
	same, err := c.pair.alike(ours, theirs)
	switch {
	case err != nil:
		return err
	case same:
	case w == doubtful:
		c.v.doubts("the PDF has %s", saidOf(key))
	default:
		c.v.differs("the PDF has %s", saidOf(key))
	}
	return nil
}

// colors compares what the document says its colors mean. Without a profile
// of its own that is a name, with one it can turn black into white.
func (c *comparison) colors(ours, theirs pdffile.Object) error {
	same, err := c.pair.alike(ours, theirs)
	if err != nil || same {
		return err
	}
	list, err := c.s.file.Array(ours)
	if err != nil {
		return err
	}
	for _, o := range list {
		intent, err := c.s.file.Dict(o)
		if err != nil {
			return err
		}
		if intent["DestOutputProfile"] != nil || intent["DestOutputProfileRef"] != nil {
			c.v.differs("the PDF has %s", saidOf("OutputIntents"))
			return nil
		}
	}
	c.v.doubts("the PDF has %s", saidOf("OutputIntents"))
	return nil
}

// group judges how the page's colors are blended: in the plain space of
// red, green and blue that changes nothing of a page without anything to see
// through; grey takes the colors away.
func (c *comparison) group(o pdffile.Object) error {
	group, err := c.s.file.Dict(o)
	if err != nil {
		return err
	}
	space, err := c.s.file.Resolve(group["CS"])
	if err != nil {
		return err
	}
	switch space {
	case nil, pdffile.Name("DeviceRGB"):
		c.v.doubts("the PDF says %s", saidOf("Group"))
	default:
		c.v.differs("the PDF says %s", saidOf("Group"))
	}
	return nil
}

// nodes judges the nodes above the page, which hand down what pages lack.
func (c *comparison) nodes() error {
	for _, node := range c.ours.page.Above {
		for _, key := range slices.Sorted(maps.Keys(node)) {
			switch key {
			case "Type", "Kids", "Count", "Parent", "MediaBox", "CropBox", "Resources", "Rotate", "LastModified":
			default:
				c.v.differs("the list of pages has %s", saidOf(key))
			}
		}
	}
	return nil
}

// names judges the document's lists of names.
func (c *comparison) names(o pdffile.Object) error {
	names, err := c.s.file.Dict(o)
	if err != nil {
		return err
	}
	for _, key := range slices.Sorted(maps.Keys(names)) {
		switch key {
		case "EmbeddedFiles", "Dests":
		case "IDS", "URLS", "AP", "Pages", "Templates":
			c.v.doubts("the PDF has a list %s, which no sheet has", quoted(string(key)))
		default:
			c.v.differs("the PDF has a list %s, which could run something", quoted(string(key)))
		}
	}
	return nil
}

// pageEntries are those that a page may have beside what a sheet's has.
var pageEntries = map[pdffile.Name]worth{
	"Type": harmless, "Parent": harmless, "Contents": harmless, "Resources": harmless, "Annots": harmless, "AF": harmless,
	"LastModified": harmless, "ID": harmless, "StructParents": doubtful, "Tabs": harmless,
	"Thumb": doubtful, "Metadata": doubtful, "PieceInfo": doubtful,
}

// pageEntries compares the page's paper and what it has beside its content.
func (c *comparison) pageEntries() error {
	page, paper := c.ours.page.Dict, c.again.drawn.page.Dict["MediaBox"]
	for _, key := range slices.Sorted(maps.Keys(page)) {
		switch key {
		case "MediaBox", "CropBox", "BleedBox", "TrimBox", "ArtBox":
			if err := c.box(key, page[key], paper); err != nil {
				return err
			}
		case "Group":
			if err := c.group(page[key]); err != nil {
				return err
			}
		case "Rotate", "UserUnit":
			v, err := c.s.file.Resolve(page[key])
			if err != nil {
				return err
			}
			if n, ok := v.(float64); v == nil || ok && (key == "Rotate" && math.Mod(n, 360) == 0 || key == "UserUnit" && n == 1) {
				continue
			}
			if key == "Rotate" {
				c.v.differs("the page is turned")
			} else {
				c.v.differs("the page is shown in another size")
			}
		default:
			if err := c.entry(key, page[key], c.again.drawn.page.Dict[key], pageEntries[key]); err != nil {
				return err
			}
		}
	}
	if page["MediaBox"] == nil {
		c.v.differs("the page has no size")
	}
	return nil
}

// box compares one of a page's areas with the paper.
func (c *comparison) box(key pdffile.Name, o, paper pdffile.Object) error {
	ours, err := c.s.file.Box(o)
	if err != nil {
		return err
	}
	theirs, err := c.again.file.Box(paper)
	if err != nil {
		return err
	}
	if key != "MediaBox" { // what is beyond the paper is not there (ISO 32000-2, 14.11.2.1)
		ours = [4]float64{max(ours[0], theirs[0]), max(ours[1], theirs[1]), min(ours[2], theirs[2]), min(ours[3], theirs[3])}
	}
	for i := range ours {
		if math.Abs(ours[i]-theirs[i]) > coarse {
			if key == "MediaBox" {
				c.v.differs("the paper's size is %g x %g points, its job file gives %g x %g", ours[2]-ours[0], ours[3]-ours[1], theirs[2]-theirs[0], theirs[3]-theirs[1])
			} else {
				c.v.differs("only a part of the page is shown, or meant to be (%s)", key)
			}
			return nil
		}
	}
	return nil
}

// info compares what the document says of itself.
func (c *comparison) info() error {
	ours, err := c.s.file.Dict(c.s.file.Trailer["Info"])
	if err != nil {
		return err
	}
	theirs, err := c.again.file.Dict(c.again.file.Trailer["Info"])
	if err != nil {
		return err
	}
	if who := c.byWhom(); who != "" {
		c.v.notes("the file was saved again%s", who)
	}
	var other []string
	for _, key := range []pdffile.Name{"Title", "Author", "Subject", "Keywords", "Creator", "CreationDate"} {
		a, err := c.s.file.Text(ours[key])
		if err != nil {
			return err
		}
		b, err := c.again.file.Text(theirs[key])
		if err != nil {
			return err
		}
		if raw, _ := ours[key].(pdffile.String); strings.HasPrefix(string(raw), "\xef\xbb\xbf") { // letters to readers of older versions
			other = append(other, strings.ToLower(string(key)))
			continue
		}
		if a != b && key == "CreationDate" {
			c.v.notes("the file says that it was made at %s, the sheet's own date is %s", quoted(a), quoted(b))
			continue
		}
		if a != b && !(key == "Keywords" && c.s.Fingerprint != "" && c.s.Fingerprint != c.s.JobFingerprint()) { // that is said by itself
			other = append(other, strings.ToLower(string(key)))
		}
	}
	known := []pdffile.Name{"Title", "Author", "Subject", "Keywords", "Creator", "Producer", "CreationDate", "ModDate", "Trapped"}
	for _, key := range slices.Sorted(maps.Keys(ours)) {
		if !slices.Contains(known, key) {
			other = append(other, quoted(string(key)))
		}
	}
	if len(other) > 0 {
		c.v.doubts("what the document says of itself is not as the sheet was drawn: %s", strings.Join(other, ", "))
	}
	return nil
}

// attachments compares what the file carries with what the page was drawn
// from.
func (c *comparison) attachments() error {
	for _, d := range c.s.doubtful {
		c.v.differs("the PDF carries a file that readers do not agree on, %s", d)
	}
	for _, n := range c.s.strangers {
		c.v.doubts("the PDF carries another file, %s", quoted(n))
	}
	for _, n := range c.s.elsewhere {
		c.v.differs("the PDF names a file that it does not carry, %s", quoted(n))
	}
	for _, n := range c.s.twice() {
		c.v.differs("the PDF carries two files of the name %s", quoted(n))
	}
	used, err := c.again.file.Attached()
	if err != nil {
		return err
	}
	if err := c.descriptions(used); err != nil {
		return err
	}
	for _, f := range c.s.Files {
		if !slices.ContainsFunc(used, func(a pdffile.Attached) bool { return a.Name == f.Name }) {
			c.v.differs("the PDF carries %s, which its job file does not draw on", quoted(f.Name))
		}
	}
	if (c.s.Signed == nil) != (c.s.Signature == nil) {
		c.v.differs("the PDF carries a part of a signature only")
	}
	return nil
}

// descriptions compares what the document says of the files that it carries:
// their kinds, dates and sizes, and what else goes with them.
func (c *comparison) descriptions(used []pdffile.Attached) error {
	ours, err := c.s.file.Attached()
	if err != nil {
		return err
	}
	last, unlisted := pdffile.String(""), false
	for _, a := range ours {
		if key, isName := a.Key.(pdffile.String); isName && key < last { // looked up in halves, as in a dictionary
			c.v.doubts("its list of attached files is not in order")
		} else if isName {
			last = key
		}
		unlisted = unlisted || !a.Listed
		at := slices.IndexFunc(used, func(b pdffile.Attached) bool { return b.Name == a.Name })
		if at < 0 {
			continue
		}
		same, err := c.pair.alike(a.Spec, used[at].Spec)
		if err != nil {
			return err
		}
		listed, err := c.pair.alike(a.Key, used[at].Key)
		if err != nil {
			return err
		}
		if !same || !listed && a.Key != nil {
			c.v.doubts("the PDF says other things of a file that it carries, %s", quoted(a.Name))
		}
	}
	if unlisted {
		c.v.doubts("the PDF carries a file that is not on its list of attached files")
	}
	return nil
}

// twice are names that two of the files have which the sheet carries: a reader
// takes out one of them.
func (s *Sheet) twice() []string {
	names := append([]string{s.Job.Name}, s.strangers...)
	for _, f := range s.Files {
		names = append(names, f.Name)
	}
	for _, f := range []*File{s.Template, s.Signed, s.Signature} {
		if f != nil {
			names = append(names, f.Name)
		}
	}
	slices.Sort(names)
	var twice []string
	for i, n := range names[1:] {
		if n == names[i] {
			twice = append(twice, n)
		}
	}
	return slices.Compact(twice)
}
