package layout

import (
	"encoding/binary"
	"math"
	"slices"
)

// A memory is a Measurer that knows what texts were cut to. While a page is
// fitted the same texts are set again and again, in other widths; what they are
// cut to depends on none. It serves one page, on one goroutine.
type memory struct {
	Measurer
	atoms map[string][]atom // by texts and faces
	key   []byte            // room for the next key
	room  []atom            // and for the next text
}

func remembering(m Measurer) Measurer {
	return &memory{Measurer: m, atoms: map[string][]atom{}}
}

// cut gives the atoms of runs, which nobody may change.
func (m *memory) cut(runs []Run) []atom {
	key := m.key[:0]
	for _, r := range runs {
		key = append(key, byte(r.Face.Weight))
		if r.Whole {
			key = append(key, 'w')
		}
		key = binary.BigEndian.AppendUint64(key, math.Float64bits(float64(r.Face.Size)))
		key = binary.BigEndian.AppendUint32(key, uint32(len(r.Text)))
		key = append(key, r.Text...)
	}
	m.key = key
	atoms, known := m.atoms[string(key)]
	if !known {
		m.room = cut(m.Measurer, runs, m.room)
		atoms = slices.Clone(m.room)
		m.atoms[string(key)] = atoms
	}
	return atoms
}
