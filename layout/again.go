package layout

import (
	"encoding/binary"
	"math"
)

// A rowRecord is what is known of a row: its blocks, and how it came out
// whenever it was laid out. Of a step that is taken or taken back, most rows
// know nothing.
type rowRecord struct {
	blocks []Block
	ahead  []bool // flows of the row that stand in an earlier one
	laid   map[string]laidRow
}

// sameRow is the row, laid out where nothing that it depends on is as it was
// before.
func (f *fitter) sameRow(i int, levels map[string]Detail) laidRow {
	key := f.rowKey(i, levels)
	row, known := f.rows[i].laid[key]
	if !known {
		row = f.row(i, levels)
		f.rows[i].laid[key] = row
	}
	return row
}

// rowKey names all that a row depends on.
func (f *fitter) rowKey(i int, levels map[string]Detail) string {
	key := make([]byte, 0, 64)
	number := func(v float64) { key = binary.BigEndian.AppendUint64(key, math.Float64bits(v)) }
	truth := func(b bool) {
		if b {
			key = append(key, 1)
		} else {
			key = append(key, 0)
		}
	}
	for _, b := range f.rows[i].blocks {
		key = append(key, byte(levels[b.Name()]))
		h, richer := f.richer[b.Name()]
		if truth(richer); richer {
			number(float64(h))
		}
	}
	for _, ahead := range f.rows[i].ahead {
		truth(ahead)
	}
	truth(f.theme.Close)
	truth(f.trade)
	number(f.space)
	number(f.theme.Scale)
	return string(key)
}
