package pdf

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
)

// Numbers of the library's objects: the list of pages, what a page draws with,
// the page, what it draws.
const (
	pagesNumber     = 1
	resourcesNumber = 2
	pageNumber      = 3
	contentNumber   = 4
)

// cutEnd takes the library's objects out of its file but for the last two, its
// information dictionary and catalog. What the page draws is packed: the library
// would make a compressor of a megabyte for every document. Pictures are the
// next objects.
func cutEnd(file []byte, faces []*usedFace, pictures int) (*tail, error) {
	broken := fmt.Errorf("write the document: the end of the file is not as expected")
	xref := bytes.LastIndex(file, []byte("\nxref\n0 "))
	if xref < 0 || !bytes.HasPrefix(file, []byte("%PDF-1.")) {
		return nil, broken
	}
	lines := strings.Split(string(file[xref+1:]), "\n")
	count, err := strconv.Atoi(strings.TrimPrefix(lines[1], "0 "))
	if err != nil || count <= contentNumber+2 || len(lines) < count+3 {
		return nil, broken
	}
	objects := make([][]byte, count)
	for n, line := range lines[2 : 2+count] {
		at, err := strconv.Atoi(line[:min(10, len(line))])
		head := fmt.Appendf(nil, "%d 0 obj\n", n)
		if n > 0 && (err != nil || at > xref || !bytes.HasPrefix(file[at:], head)) {
			return nil, broken
		}
		if n > 0 {
			objects[n] = file[at+len(head) : xref]
		}
	}
	if !bytes.Contains(dictionary(objects[count-2]), []byte("/CreationDate")) || !bytes.Contains(dictionary(objects[count-1]), []byte("/Type /Catalog")) {
		return nil, broken
	}
	t := &tail{at: make([]int, count-2)}
	t.Grow(len(file)/2 + roomForFaces)
	t.WriteString(header)
	return t, t.takeOver(objects[:count-2], faces, pictures)
}

// dictionary is an object without data, up to its end.
func dictionary(object []byte) []byte {
	d, _, _ := bytes.Cut(object, []byte("endobj"))
	return bytes.TrimSpace(d)
}

// takeOver writes the library's objects anew, but for what stands in for faces.
func (t *tail) takeOver(objects [][]byte, faces []*usedFace, pictures int) error {
	content, err := pageContent(objects[contentNumber])
	if err != nil {
		return err
	}
	t.plain(contentNumber, fmt.Appendf(nil, "<</Filter /FlateDecode /Length %d>>\nstream\n%s\nendstream", len(content), content))

	// In which row of the list of its parts the page has its own, and that one goes
	// through it in their order.
	const kind, parts = "/Type /Page\n", "/StructParents 0 /Tabs /S\n"
	const called = "/XObject <<\n"
	var names strings.Builder
	for i := range pictures {
		fmt.Fprintf(&names, "/%s %d 0 R\n", pictureName(i), len(t.at)+i)
	}
	page, resources := dictionary(objects[pageNumber]), dictionary(objects[resourcesNumber])
	if !bytes.Contains(page, []byte(kind)) || !bytes.Contains(resources, []byte(called)) {
		return fmt.Errorf("write the document: the page is not as expected")
	}
	t.plain(pagesNumber, dictionary(objects[pagesNumber]))
	t.plain(pageNumber, bytes.Replace(page, []byte(kind), []byte(kind+parts), 1))
	for n := contentNumber + 1; n < len(objects); n++ {
		t.standIns = append(t.standIns, numbered{n, dictionary(objects[n])})
	}
	resources, err = t.nameFaces(bytes.Replace(resources, []byte(called), []byte(called+names.String()), 1), faces)
	if err != nil {
		return err
	}
	t.packed(resourcesNumber, resources)
	return nil
}

// plain writes an object as it is, with a number that it has.
func (t *tail) plain(number int, object []byte) {
	t.at[number] = t.Len()
	fmt.Fprintf(t, "%d 0 obj\n%s\nendobj\n", number, object)
}

// pageContent is what the page draws, packed.
func pageContent(object []byte) ([]byte, error) {
	head, rest, ok := bytes.Cut(object, []byte("stream\n"))
	var length int
	if _, err := fmt.Sscanf(string(head), "<</Length %d>>", &length); err != nil || !ok || length > len(rest) {
		return nil, fmt.Errorf("write the document: the page's content is not as expected")
	}
	return compress(rest[:length])
}
