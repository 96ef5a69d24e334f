// Package engine describes the cylinders of an engine in their places: which
// bank and which head each belongs to, which of them share a head gasket side
// by side, how they are numbered and how the engine sits in the vehicle; it knows
// nothing of readings or files.
//
// Numbers are never derived for an engine of two banks, because the numbering
// of such engines differs between makers and even within one maker's range;
// whoever describes the engine has to say it.
//
// # Coordinates
//
// A cylinder's X and Y are in cylinder pitches (the distance between two bore
// centres of one row) in the engine's own frame, seen from above: X grows to
// the right-hand side of someone at the flywheel end who looks towards the
// engine's front, Y grows from the engine's front to its rear, as one reads
// down a page with the engine's front at the top. Left and right are thereby
// the sides judged from the flywheel end (US Army TM 5-3895-382-24), which in
// a lengthwise front engine are the vehicle's sides. [Engine.Plan] turns this
// into the view with the vehicle's front up.
//
// A radial engine is the exception: it is seen from the rear, cylinder 1 at
// the top, the numbers running clockwise (aviation usage).
//
// # Banks
//
// The banks of V, flat and W engines are named "left" and "right", or "front"
// and "rear" where the engine lies crosswise, always by vehicle side. An
// engine of one row has one bank, named by its kind: "single",
// "inline", "narrow V" or "ring". Custom and rotary engines have no banks.
package engine
