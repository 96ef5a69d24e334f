package figure

import (
	"strings"

	"gaugesheet/layout"
)

// What a page says to who hears it: what its parts are, what its pictures show.

// heard is a frame as a part of a kind.
func heard(kind layout.TagKind, f layout.Frame) layout.Frame { return layout.Tag{Kind: kind}.Frame(f) }

// pictured is a frame that is heard as words of its own.
func pictured(alt string, f layout.Frame) layout.Frame {
	return layout.Tag{Kind: layout.Picture, Alt: alt}.Frame(f)
}

// listed are frames as the items of a list.
func listed(frames []layout.Frame) []layout.Frame {
	for i := range frames {
		frames[i] = heard(layout.Item, frames[i])
	}
	return frames
}

// Ticked is what the tick in a box says, among the words of signs behind the
// marks.
const Ticked = Declined + 1

// drawSign draws a mark with what another says: nothing for no mark, nor where the
// words beside it say it too.
func drawSign(s layout.Surface, t layout.Theme, m, says Mark, beside string, at layout.Point, size layout.Length) {
	if m == NoMark {
		return
	}
	tag := layout.Tag{Kind: layout.Decoration}
	if says != NoMark && int(says) < len(t.Signs) && !strings.Contains(strings.ToLower(beside), strings.ToLower(t.Signs[says])) {
		tag = layout.Tag{Kind: layout.Picture, Alt: t.Signs[says], Area: layout.Rect{X: at.X - size/2, Y: at.Y - size/2, W: size, H: size}}
	}
	tag.Draw(s, func() { DrawMark(s, t, m, at, size) })
}
