package archive

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"math/rand/v2"
	"strings"
)

// A spoiler damages files, at random and as people with bad intentions would.
type spoiler struct {
	*rand.Rand
	others [][]byte // files of the same kind, parts of which are put in
}

func (s spoiler) one(list []string) string { return list[s.IntN(len(list))] }

// place is a part of data.
func (s spoiler) place(data []byte, longest int) (from, to int) {
	from = s.IntN(len(data) + 1)
	return from, min(len(data), from+s.IntN(longest+1))
}

func put(data []byte, from, to int, what []byte) []byte {
	return append(append(append([]byte{}, data[:from]...), what...), data[to:]...)
}

// bytes damages any file: bytes changed, cut out, doubled, cut off, or taken from
// another.
func (s spoiler) bytes(data []byte) []byte {
	from, to := s.place(data, 40)
	switch s.IntN(7) {
	case 0:
		return data[:from]
	case 1:
		return put(data, from, to, nil)
	case 2:
		other := s.others[s.IntN(len(s.others))]
		a, b := s.place(other, 2000)
		return put(data, from, to, other[a:b])
	case 3:
		return put(data, from, from, bytes.Repeat(data[from:to], 1+s.IntN(3000)))
	case 4:
		return put(data, from, to, bytes.Repeat([]byte{byte(s.IntN(256))}, s.IntN(100)))
	}
	out := bytes.Clone(data)
	for range 1 + s.IntN(8) {
		if len(out) > 0 {
			out[s.IntN(len(out))] = byte(s.IntN(256))
		}
	}
	return out
}

// What people and programs type that is no reading, or none that can be.
var (
	odd = []string{"1e999", "-0", "999999999999999999999999", ".nan", "-.inf", "0x7f", "1:60", "1_0", "", "~", "null", "{}", "[]", "!!binary aGk=", "*x", "&x 1", "<<", "|", ">-",
		"'", "\"", "\x00", "\x1b[31m", "\u202e", "\ufeff", "\u00bd", "١٢٣", "１２０", "é́́́", "%n%s", "../../../etc/passwd", "/dev/zero", "self.yaml", "C:\\x.yaml", "a\tb",
		"150 psi of 160 after 5 ml", "150 +/- 150", "over under 9", "1/0", "999999-1", "not tested (", "- - -"}
	large = []string{"[", "{a: ", "- ", "? ", "  ", "a: ", "&a [", "*a, ", "x", "1, ", "\n", "\t", "#", "🙂", "\"", "!!str "}
)

// text damages a file of lines, as a hand does that slips, or a program.
func (s spoiler) text(data []byte) []byte {
	lines := strings.SplitAfter(string(data), "\n")
	at := s.IntN(len(lines))
	fields := strings.FieldsFunc(lines[at], func(r rune) bool { return strings.ContainsRune(" ,:[]{}\n", r) })
	switch s.IntN(8) {
	case 0:
		return s.bytes(data)
	case 1:
		lines[at] = ""
	case 2:
		lines[at] = strings.Repeat(lines[at], min(2+s.IntN(3)*s.IntN(3000), 2+mostDamaged/(len(lines[at])+1)))
	case 3:
		lines[at] = strings.Repeat(" ", s.IntN(6)) + strings.TrimLeft(lines[at], " ")
	case 4:
		other := strings.SplitAfter(string(s.others[s.IntN(len(s.others))]), "\n")
		lines[at] += other[s.IntN(len(other))]
	case 5:
		lines[at] += strings.Repeat(s.one(large), 1+s.IntN(1+s.IntN(200_000)))
	default:
		if len(fields) > 0 {
			word := s.one(odd)
			if s.IntN(4) == 0 {
				word = s.one(fields) + s.one(odd)
			}
			lines[at] = strings.Replace(lines[at], s.one(fields), word, 1)
		}
	}
	return []byte(strings.Join(lines, ""))
}

// picture damages a picture, or says that it is another.
func (s spoiler) picture(data []byte) []byte {
	if !bytes.HasPrefix(data, []byte("\x89PNG")) || len(data) < 33 || s.IntN(2) == 0 {
		return s.bytes(data)
	}
	out := bytes.Clone(data)
	head := out[16:29] // width, height, depth, kind of color, packing, filter, order
	switch s.IntN(4) {
	case 0:
		binary.BigEndian.PutUint32(head, []uint32{0, 1, 20_000, 65_536, 1 << 31, 4_000_000_000}[s.IntN(6)])
	case 1:
		binary.BigEndian.PutUint32(head[4:], []uint32{0, 1, 20_000, 65_536, 1 << 31, 4_000_000_000}[s.IntN(6)])
	case 2:
		head[8] = []byte{0, 1, 2, 4, 8, 16, 255}[s.IntN(7)]
	default:
		head[9+s.IntN(4)] = byte(s.IntN(8))
	}
	binary.BigEndian.PutUint32(out[29:], crc32.ChecksumIEEE(out[12:29]))
	return out
}

// mostDamaged is how large a damaged file may be: more is refused unread.
const mostDamaged = 4 << 20

// times damages a file once, or a few times over.
func (s spoiler) times(data []byte, damage func([]byte) []byte) []byte {
	for range 1 + s.IntN(3) {
		if data = damage(data); len(data) > mostDamaged {
			data = bytes.Clone(data[:mostDamaged])
		}
	}
	return data
}
