package layout

// A Turn is how a picture's rows and columns lie on the page, by the numbers of
// a camera's orientation tag (CIPA DC-008-2019, 4.6.4 A): 1 as they are, 6 turned a
// quarter clockwise, as a telephone that was held upright writes it. 0 is 1.
type Turn int

// Aside tells whether rows stand upright on the page, so that width and height
// are exchanged.
func (t Turn) Aside() bool { return t >= 5 && t <= 8 }

// Places map a place in the picture as it is stored to that on the page, both in
// shares of their width and height from the upper left corner:
// x' = p[0] x + p[1] y + p[2], y' = p[3] x + p[4] y + p[5].
func (t Turn) Places() [6]Length {
	switch t {
	case 2:
		return [6]Length{-1, 0, 1, 0, 1, 0}
	case 3:
		return [6]Length{-1, 0, 1, 0, -1, 1}
	case 4:
		return [6]Length{1, 0, 0, 0, -1, 1}
	case 5:
		return [6]Length{0, 1, 0, 1, 0, 0}
	case 6:
		return [6]Length{0, -1, 1, 1, 0, 0}
	case 7:
		return [6]Length{0, -1, 1, -1, 0, 1}
	case 8:
		return [6]Length{0, 1, 0, -1, 0, 1}
	}
	return [6]Length{1, 0, 0, 0, 1, 0}
}
