package diag

// LeastForShares is how many cylinders have to be read running before one of
// them is compared with the middle of the others.
const LeastForShares = 3

// A RunningShare is what a cylinder reads with the engine running, as a part of
// what the same cylinder reads on the starter: the gauge, the size of the
// chamber and the seal lower both alike, so that what is left is how the
// cylinder breathes.
type RunningShare struct {
	Name string
	Idle *float64 // percent of its own cranking reading; nil where not read
	Snap *float64
}

// RunningShares gives the shares of the cylinders that were read both ways, in
// the engine's order. One without pressure to speak of, and one of which only a
// bound is known, has none.
func RunningShares(t *Test, r *CompressionResult) []RunningShare {
	if t.Compression == nil || r == nil || len(t.Compression.Running) == 0 {
		return nil
	}
	var list []RunningShare
	for i := range r.Cylinders {
		c := &r.Cylinders[i]
		running, ok := t.Compression.Running[c.Name]
		if !ok || c.Dry == nil || *c.Dry <= 0 || c.Kind == AtLeast || c.Grade == NoPressure {
			continue
		}
		share := RunningShare{c.Name, shareOf(running.Idle, *c.Dry), shareOf(running.Snap, *c.Dry)}
		if share.Idle != nil || share.Snap != nil {
			list = append(list, share)
		}
	}
	return list
}

func shareOf(r *Reading, cranking float64) *float64 {
	if r == nil {
		return nil
	}
	v, read := r.Value()
	if !read || r.Kind == AtLeast {
		return nil
	}
	return ref(percentOf(v, cranking))
}

// OverOthers is by how many points a cylinder's share stands above the median
// of the others', and that median; nil where fewer than LeastForShares were
// read. of picks the share.
func OverOthers(list []RunningShare, name string, of func(RunningShare) *float64) (points, middle *float64) {
	own := -1
	var others []float64
	for i, s := range list {
		v := of(s)
		switch {
		case v == nil:
		case s.Name == name:
			own = i
		default:
			others = append(others, *v)
		}
	}
	if own < 0 || len(others)+1 < LeastForShares {
		return nil, nil
	}
	between := median(others)
	return ref(*of(list[own]) - between), ref(between)
}

// MedianShare is the median of the shares, 0 for none, and how many there are.
func MedianShare(list []RunningShare, of func(RunningShare) *float64) (middle float64, n int) {
	var values []float64
	for _, s := range list {
		if v := of(s); v != nil {
			values = append(values, *v)
		}
	}
	return median(values), len(values)
}

// AtIdle is the share at idle.
func AtIdle(s RunningShare) *float64 { return s.Idle }

// OnSnap is the share on a quick opening of the throttle.
func OnSnap(s RunningShare) *float64 { return s.Snap }
