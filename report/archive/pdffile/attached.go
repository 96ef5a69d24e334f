package pdffile

// An Attached file travels in the document.
type Attached struct {
	Name, Description string
	Data              []byte
	Spec              Object // how the document describes it
	Key               Object // under which its list has it, nil where it is not listed
	Place             Object // what stands there in the list: a reference to the description
	// Listed tells whether the document's list of attached files has it, which
	// is where readers look first.
	Listed bool
	// Doubtful says why readers may take different files out, "" where they
	// take the same.
	Doubtful string
	// Elsewhere tells that the document names the file and does not carry it.
	Elsewhere bool
}

const mostAttached = 1000

// Attached are the files that travel in the document: those of its list of
// names in their order, then those that the document, a page or a note on a
// page names beside that.
func (f *File) Attached() ([]Attached, error) {
	root, err := f.Catalog()
	if err != nil {
		return nil, err
	}
	names, err := f.Dict(root["Names"])
	if err != nil {
		return nil, err
	}
	c := &collector{f: f, seen: map[Ref]bool{}, listed: true}
	if err := c.nameTree(names["EmbeddedFiles"], visits{}); err != nil {
		return nil, err
	}
	c.listed = false
	if err := c.array(root["AF"]); err != nil {
		return nil, err
	}
	pages, err := f.Pages()
	if err != nil {
		return nil, err
	}
	for _, page := range pages {
		if err := c.page(page); err != nil {
			return nil, err
		}
	}
	return c.files, nil
}

// A collector collects attached files, each once.
type collector struct {
	f      *File
	seen   map[Ref]bool
	listed bool
	files  []Attached
}

func (c *collector) nameTree(o Object, seen visits) error {
	if o == nil {
		return nil
	}
	if !seen.enter(o) || len(seen) > mostAttached {
		return damaged("its list of attached files is not in order")
	}
	node, err := c.f.Dict(o)
	if err != nil || node == nil {
		return err
	}
	names, err := c.f.Array(node["Names"])
	if err != nil {
		return err
	}
	for i := 1; i < len(names); i += 2 {
		had := len(c.files)
		if err := c.add(names[i]); err != nil {
			return err
		}
		for ; had < len(c.files); had++ {
			c.files[had].Key = names[i-1]
		}
	}
	kids, err := c.f.Array(node["Kids"])
	if err != nil {
		return err
	}
	for _, kid := range kids {
		if err := c.nameTree(kid, seen); err != nil {
			return err
		}
	}
	return nil
}

func (c *collector) array(o Object) error {
	list, err := c.f.Array(o)
	if err != nil {
		return err
	}
	for _, spec := range list {
		if err := c.add(spec); err != nil {
			return err
		}
	}
	return nil
}

func (c *collector) page(page Page) error {
	if err := c.array(page.Dict["AF"]); err != nil {
		return err
	}
	notes, err := c.f.Array(page.Dict["Annots"])
	if err != nil {
		return err
	}
	for _, o := range notes {
		note, err := c.f.Dict(o)
		if err != nil {
			return err
		}
		if note["Subtype"] == Name("FileAttachment") {
			if err := c.add(note["FS"]); err != nil {
				return err
			}
		}
	}
	return nil
}

// add adds a file by its description in the document.
func (c *collector) add(o Object) error {
	if ref, ok := o.(Ref); ok {
		if c.seen[ref] {
			return nil
		}
		c.seen[ref] = true
	}
	spec, err := c.f.Resolve(o)
	if err != nil || spec == nil {
		return err
	}
	if len(c.files) >= mostAttached {
		return damaged("it has more than %d attached files", mostAttached)
	}
	named, _ := spec.(Dict)
	if named["EF"] == nil {
		name, err := c.f.Text(named["F"])
		if s, ok := spec.(String); ok {
			name, err = c.f.Text(s)
		}
		c.files = append(c.files, Attached{Name: name, Elsewhere: true})
		return err
	}
	file, err := c.f.attached(named)
	file.Listed, file.Spec, file.Place = c.listed, named, o
	c.files = append(c.files, file)
	return err
}

// attached reads one file: a description may name it twice, in an old and a
// new way, and readers choose.
func (f *File) attached(spec Dict) (a Attached, err error) {
	old, err := f.Text(spec["F"])
	if err != nil {
		return a, err
	}
	if a.Name, err = f.Text(spec["UF"]); err != nil {
		return a, err
	}
	if a.Name == "" {
		a.Name = old
	}
	if a.Description, err = f.Text(spec["Desc"]); err != nil {
		return a, err
	}
	embedded, err := f.Dict(spec["EF"])
	if err != nil {
		return a, err
	}
	var found *Stream
	for _, key := range []Name{"UF", "F", "Unix", "DOS", "Mac"} {
		s, err := f.Stream(embedded[key])
		switch {
		case err != nil:
			return a, err
		case s == nil:
		case found == nil:
			found = s
		case found != s:
			a.Doubtful = "it is there twice, and readers choose"
		}
	}
	if found == nil {
		return a, damaged("the attached file %q has no contents", a.Name)
	}
	if old != "" && old != a.Name {
		a.Doubtful = "it has two names"
	}
	a.Data, err = f.unpack(found, mostUnpack, true)
	return a, err
}
