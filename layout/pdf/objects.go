package pdf

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"strconv"
)

// Many small objects are packed together, and so is the list of where objects
// are (ISO 32000-1, 7.5.7 and 7.5.8): the structure tree would else be larger
// than the page.

// pack is objects that stand in one stream.
type pack struct {
	objects bytes.Buffer
	places  bytes.Buffer // of each, its number and where it begins
	count   int
	stream  int // its number
}

// packed adds an object with a number that reserve gave.
func (t *tail) packed(number int, object []byte) {
	p := &t.pack
	p.count++
	t.at[number] = -p.count
	place := append(strconv.AppendInt(p.places.AvailableBuffer(), int64(number), 10), ' ')
	p.places.Write(append(strconv.AppendInt(place, int64(p.objects.Len()), 10), ' '))
	p.objects.Write(object)
	p.objects.WriteByte('\n')
}

// reserve gives the number of an object that is written later.
func (t *tail) reserve() int {
	t.at = append(t.at, 0)
	return len(t.at) - 1
}

// writePack writes the packed objects.
func (t *tail) writePack() (err error) {
	p := &t.pack
	entries := fmt.Sprintf("/Type /ObjStm /N %d /First %d", p.count, p.places.Len())
	p.stream, err = t.data(entries, append(p.places.Bytes(), p.objects.Bytes()...))
	return err
}

// end writes the list of objects, which is the trailer too. The file's identity
// is the fingerprint of all that stands before.
func (t *tail) end(root, info int) error {
	id := sha256.Sum256(t.Bytes())
	start := t.Len()
	n := t.reserve()
	t.at[n] = start
	// A row for each object: its kind, where it is, its rank in the pack. Rows are
	// packed as their differences to the row before.
	const columns = 7
	rows := make([]byte, 0, (columns+1)*len(t.at))
	var before, row [columns]byte
	for number, at := range t.at {
		switch {
		case number == 0:
			row = [columns]byte{5: 0xff, 6: 0xff}
		case at < 0:
			row[0] = 2
			binary.BigEndian.PutUint32(row[1:], uint32(t.pack.stream))
			binary.BigEndian.PutUint16(row[5:], uint16(-at-1))
		default:
			row = [columns]byte{1}
			binary.BigEndian.PutUint32(row[1:], uint32(at))
		}
		rows = append(rows, 2) // the difference to the row above
		for i := range row {
			rows = append(rows, row[i]-before[i])
		}
		before = row
	}
	data, err := compress(rows)
	if err != nil {
		return err
	}
	fmt.Fprintf(t, "%d 0 obj\n<</Type /XRef /Size %d /W [1 4 2] /Root %d 0 R /Info %d 0 R /ID [<%x> <%x>]\n", n, len(t.at), root, info, id[:16], id[:16])
	fmt.Fprintf(t, "/Filter /FlateDecode /DecodeParms <</Predictor 12 /Columns %d>> /Length %d>>\nstream\n", columns, len(data))
	t.Write(data)
	fmt.Fprintf(t, "\nendstream\nendobj\nstartxref\n%d\n%%%%EOF\n", start)
	return nil
}
