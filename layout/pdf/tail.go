package pdf

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"strconv"
	"strings"
)

// The PDF library ends a file with its list of objects (the cross-reference),
// after the catalog as the last object. It cannot say an attachment's type or
// date, its relation to the document, that readers should show the title, what
// its colours mean, or the file's identity. So the file is put together anew
// here: the library's objects that draw the page, then attachments, what the
// document says of itself, a catalog, the list of objects, the trailer
// (ISO 32000-1, 7.5.4, 7.5.5, 7.7.2, 7.11.4), as ISO 19005-3 (PDF/A-3) wants
// them.

// tail is the end of a file in the making: what goes before, where each
// object starts.
type tail struct {
	bytes.Buffer
	at  []int // by object number; 0 is no object, less than 0 the rank from -1 down in the pack
	opt Options
	pack
	standIns []numbered
}

// A numbered is an object with its number: what the library wrote for a face.
type numbered struct {
	number int
	object []byte
}

// finish gives the library's file another end.
func (d *Doc) finish(file []byte) ([]byte, error) {
	t, err := cutEnd(file, d.faces[:], len(d.pictures))
	if err != nil {
		return nil, err
	}
	t.opt = d.opt
	if err := t.pictures(d.pictures); err != nil {
		return nil, err
	}
	for _, f := range d.faces {
		if f == nil {
			continue
		}
		if err := t.embed(f); err != nil {
			return nil, err
		}
	}
	var specs []int
	for _, a := range d.opt.Attachments {
		spec, err := t.attach(a)
		if err != nil {
			return nil, err
		}
		specs = append(specs, spec)
	}
	srgb, err := packedProfile()
	if err != nil {
		return nil, err
	}
	profile := t.object()
	fmt.Fprintf(t, "<</N 3 /Filter /FlateDecode /Length %d>>\nstream\n%s\nendstream\nendobj\n", len(srgb), srgb)
	metadata, err := t.metadata()
	if err != nil {
		return nil, err
	}
	root := t.catalog(specs, profile, metadata, t.tree(&d.parts))
	if err := t.writePack(); err != nil {
		return nil, err
	}
	if err := t.end(root, t.info()); err != nil {
		return nil, err
	}
	return t.Bytes(), nil
}

// header begins the file: the version, and a comment by which programs see
// that it is no text (ISO 19005-3, 6.1.2).
const header = "%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"

// roomForFaces is about what two faces and the end of a file take.
const roomForFaces = 40 << 10

// object starts a new object and gives its number.
func (t *tail) object() int {
	t.at = append(t.at, t.Len())
	n := len(t.at) - 1
	fmt.Fprintf(t, "%d 0 obj\n", n)
	return n
}

// level is how hard a file is packed: a page takes a sixth less than at the
// fastest level in a quarter more time, and little less at any higher. The many
// small objects, which are alike, take a fifteenth less at the highest, for which
// they would take four times as long, a thirtieth of the sheet's time.
const level = 4

// packers are compressors to use again, one for each page that is written at
// once: a new one costs a megabyte, and a pool that the collector empties would
// make one for every other page.
var packers = make(chan *zlib.Writer, 16)

func packer() *zlib.Writer {
	select {
	case z := <-packers:
		return z
	default:
		z, _ := zlib.NewWriterLevel(nil, level) // fails for an unknown level only
		return z
	}
}

func compress(data []byte) ([]byte, error) {
	var packed bytes.Buffer
	packed.Grow(len(data)/4 + 512)
	z := packer()
	defer func() {
		select {
		case packers <- z:
		default: // more than are kept
		}
	}()
	z.Reset(&packed)
	if _, err := z.Write(data); err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return packed.Bytes(), nil
}

// data writes data, packed, as an object with the given entries, in which a
// verb %d stands for the length before packing, and gives the object's number.
func (t *tail) data(entries string, data []byte) (int, error) {
	d, err := deflate(data)
	if err != nil {
		return 0, err
	}
	return t.stream(entries, d), nil
}

// deflated is data that is packed, and how long it was before.
type deflated struct {
	packed []byte
	length int
}

func deflate(data []byte) (deflated, error) {
	packed, err := compress(data)
	return deflated{packed, len(data)}, err
}

// stream writes packed data as an object, as data does.
func (t *tail) stream(entries string, d deflated) int {
	n := t.object()
	entries = strings.Replace(entries, "%d", strconv.Itoa(d.length), 1)
	fmt.Fprintf(t, "<<%s /Filter /FlateDecode /Length %d>>\nstream\n", entries, len(d.packed))
	t.Write(d.packed)
	t.WriteString("\nendstream\nendobj\n")
	return n
}

// attach writes a file and its description, and gives the number of the
// latter.
func (t *tail) attach(a Attachment) (int, error) {
	date := date(t.opt.Created)
	file, err := t.data("/Type /EmbeddedFile /Subtype /"+name(a.Type)+
		"\n/Params <</Size %d /CreationDate "+date+" /ModDate "+date+">>", a.Data)
	if err != nil {
		return 0, err
	}
	spec := t.reserve() // not packed: programs that take an attachment away leave it in a pack
	t.plain(spec, fmt.Appendf(nil, "<</Type /Filespec /F %s /UF %s /Desc %s /AFRelationship /Source /EF <</F %d 0 R /UF %d 0 R>>>>",
		text(a.Name), text(a.Name), text(a.Description), file, file))
	return spec, nil
}

// catalog writes the root of the document: 1 is the library's list of pages.
func (t *tail) catalog(specs []int, profile, metadata, tree int) int {
	root := t.object()
	fmt.Fprintf(t, "<</Type /Catalog /Pages 1 0 R /PageLayout /SinglePage /Metadata %d 0 R\n", metadata)
	fmt.Fprintf(t, "/MarkInfo <</Marked true>> /StructTreeRoot %d 0 R\n", tree)
	t.WriteString("/OutputIntents [<</Type /OutputIntent /S /GTS_PDFA1 /OutputConditionIdentifier (sRGB)\n")
	fmt.Fprintf(t, "/RegistryName (http://www.color.org) /Info (sRGB) /DestOutputProfile %d 0 R>>]\n", profile)
	if t.opt.Lang != "" {
		fmt.Fprintf(t, "/Lang %s\n", text(t.opt.Lang))
	}
	if t.opt.Title != "" {
		t.WriteString("/ViewerPreferences <</DisplayDocTitle true>>\n")
	}
	if len(specs) > 0 {
		t.WriteString("/Names <</EmbeddedFiles <</Names [")
		for i, spec := range specs {
			// The keys only have to be sorted; readers show the names of the files.
			fmt.Fprintf(t, "(%04d) %d 0 R ", i, spec)
		}
		t.WriteString("]>>>>\n/AF [")
		for _, spec := range specs {
			fmt.Fprintf(t, "%d 0 R ", spec)
		}
		t.WriteString("]\n")
	}
	t.WriteString(">>\nendobj\n")
	return root
}

// name is a name object: what is not a letter, digit or plain mark is escaped.
func name(s string) string {
	var b strings.Builder
	for i := range len(s) {
		switch c := s[i]; {
		case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c >= '0' && c <= '9', c == '-', c == '.', c == '+':
			b.WriteByte(c)
		default:
			fmt.Fprintf(&b, "#%02X", c)
		}
	}
	return b.String()
}
