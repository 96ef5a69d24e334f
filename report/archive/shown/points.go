package shown

import "encoding/binary"

// pointsOf is the area in which the points of a letter lie, in units of its
// type, whatever the letter says of its area. It is not known of letters made
// of others, and of those whose instructions move points.
func pointsOf(data []byte) (Box, bool) {
	contours := int(int16(binary.BigEndian.Uint16(data)))
	if contours <= 0 {
		return Box{}, false
	}
	used, hinted, err := simpleLength(data, contours)
	if err != nil || hinted {
		return Box{}, false
	}
	flags, places := flagsOf(data[:used], contours)
	x, places := along(flags, places, 2, 16)
	y, _ := along(flags, places, 4, 32)
	return Box{x[0], y[0], x[1], y[1]}, true
}

// flagsOf are the flags of a letter's points, each by itself, and what follows
// them.
func flagsOf(data []byte, contours int) (flags, rest []byte) {
	at := 10 + 2*contours
	points := int(binary.BigEndian.Uint16(data[at-2:])) + 1
	at += 2 // of instructions there are none
	for len(flags) < points {
		f := data[at]
		at++
		flags = append(flags, f)
		if f&8 != 0 {
			for range data[at] {
				flags = append(flags, f)
			}
			at++
		}
	}
	return flags[:points], data[at:]
}

// along follows the points one way, by the flags' bits for a short step and for
// the same place or a step forward: the least and the greatest place, and what
// follows.
func along(flags, data []byte, short, same byte) ([2]float64, []byte) {
	var ends [2]float64
	at := 0.0
	for i, f := range flags {
		switch {
		case f&short != 0 && f&same != 0:
			at += float64(data[0])
			data = data[1:]
		case f&short != 0:
			at -= float64(data[0])
			data = data[1:]
		case f&same == 0:
			at += float64(int16(binary.BigEndian.Uint16(data)))
			data = data[2:]
		}
		if i == 0 {
			ends = [2]float64{at, at}
		}
		ends = [2]float64{min(ends[0], at), max(ends[1], at)}
	}
	return ends, data
}
