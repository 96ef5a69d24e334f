package engine

import (
	"fmt"
	"strings"
)

// How an engine sits in its vehicle. For mid and rear engines, and on a stand,
// the direction of the engine's front is not recorded.
const (
	FrontLengthwise     = "front lengthwise"
	FrontCrosswiseLeft  = "front crosswise, engine front left"
	FrontCrosswiseRight = "front crosswise, engine front right"
	Mid                 = "mid"
	Rear                = "rear"
	OnStand             = "on stand"
)

// Mounts lists the accepted words for Spec.Mount.
var Mounts = []string{FrontLengthwise, FrontCrosswiseLeft, FrontCrosswiseRight, Mid, Rear, OnStand}

// Names of banks: sides of the vehicle.
const (
	left  = "left"
	right = "right"
	front = "front"
	rear  = "rear"
)

var opposite = map[string]string{left: right, right: left, front: rear, rear: front}

func (b *builder) checkMount() string {
	given := plainWords(b.spec.Mount)
	if given == "" {
		return ""
	}
	for _, m := range Mounts {
		if given == plainWords(m) {
			return m
		}
	}
	hint := "one of: " + strings.Join(Mounts, "; ")
	if strings.Contains(given, "crosswise") || strings.Contains(given, "transverse") {
		hint = fmt.Sprintf("say which way the engine's front points: '%s' or '%s'", FrontCrosswiseLeft, FrontCrosswiseRight)
	}
	b.report("mount", -1, fmt.Sprintf("unknown mount '%s'", b.spec.Mount), hint)
	return ""
}

// plainWords lowers the case and treats commas and hyphens as spaces, so that
// spelling does not decide.
func plainWords(s string) string {
	s = strings.NewReplacer(",", " ", "-", " ", "_", " ").Replace(strings.ToLower(s))
	return strings.Join(strings.Fields(s), " ")
}

func isCrosswise(mount string) bool {
	return mount == FrontCrosswiseLeft || mount == FrontCrosswiseRight
}

// parseSide reads a vehicle side, "" where it is none.
func parseSide(text string) string {
	side := strings.TrimPrefix(plainWords(text), "vehicle ")
	if _, ok := opposite[side]; ok {
		return side
	}
	return ""
}

// sideProblem says what is wrong with a side that parseSide did not take, or
// that cannot be with the given mount; the message is empty where nothing is.
func sideProblem(text, mount string) (message, hint string) {
	side := parseSide(text)
	switch {
	case side == "":
		return fmt.Sprintf("'%s' is not a side of the vehicle", text), sideHint(text, mount)
	case isCrosswise(mount) && (side == left || side == right):
		return fmt.Sprintf("a crosswise engine has a front and a rear bank, not a %s one", side),
			"front: towards the vehicle's front; rear: towards its rear"
	case mount == FrontLengthwise && (side == front || side == rear):
		return fmt.Sprintf("a lengthwise engine has a left and a right bank, not a %s one", side),
			"left or right of someone who sits in the vehicle and looks forward; for a crosswise engine give 'mount: " +
				FrontCrosswiseLeft + "' or '... right'"
	}
	return "", ""
}

func sideHint(text, mount string) string {
	plain := plainWords(text)
	for _, word := range []string{"driver", "passenger", "nearside", "offside", "near side", "off side"} {
		if strings.Contains(plain, word) {
			return "which side that is depends on the steering wheel or the road: say left or right of someone who sits in the vehicle and looks forward"
		}
	}
	switch {
	case strings.Contains(plain, "port"):
		return "port is left"
	case strings.Contains(plain, "starboard"):
		return "starboard is right"
	case isCrosswise(mount):
		return "front or rear: the side of the vehicle on which the bank lies"
	}
	return "left or right of someone who sits in the vehicle and looks forward; front or rear for a crosswise engine"
}

// sideSign gives the side of the engine, seen from its flywheel end, on which
// a bank lies: -1 left, +1 right. Someone who looks towards an engine front
// that points to the vehicle's left has the vehicle's front on the right hand.
// Where a crosswise engine's direction is not known this takes it to point
// left, which Plan says.
func sideSign(side, mount string) float64 {
	switch {
	case side == left:
		return -1
	case side == right:
		return 1
	case (side == front) == (mount != FrontCrosswiseRight):
		return 1
	}
	return -1
}
