package engine

import "math"

// nearby is how much further than the closest another cylinder may be and
// still be a neighbour: beyond a pitch, short of the diagonal of a square (1.41).
const nearby = 1.3

// Neighbours lists the pairs of cylinders that stand side by side under one
// head gasket, each pair once, bank by bank and front to rear. In a narrow V
// that includes pairs across the two rows. Separate barrels have none.
func (e *Engine) Neighbours() [][2]string {
	pairs := [][2]string{}
	reach := e.reach()
	for k, i := range e.order {
		for _, j := range e.order[k+1:] {
			if e.sideBySide(i, j, reach) {
				pairs = append(pairs, [2]string{e.Cylinders[i].Name, e.Cylinders[j].Name})
			}
		}
	}
	return pairs
}

// reach gives for each head the largest distance between neighbours, in
// pitches. In a custom layout it goes by the closest two under that head.
func (e *Engine) reach() []float64 {
	reach := make([]float64, len(e.Heads))
	for h, head := range e.Heads {
		reach[h] = nearby
		if e.Kind == Custom {
			reach[h] *= smallestGap(len(head), func(a, b int) float64 {
				return e.distance(e.Index(head[a]), e.Index(head[b]))
			})
		}
	}
	return reach
}

func (e *Engine) distance(i, j int) float64 {
	a, b := e.Cylinders[i], e.Cylinders[j]
	return math.Hypot(a.X-b.X, a.Y-b.Y)
}

func (e *Engine) sideBySide(i, j int, reach []float64) bool {
	head := e.Cylinders[i].Head
	return i != j && head >= 0 && head == e.Cylinders[j].Head && e.distance(i, j) <= reach[head]
}

// AreNeighbours reports whether two cylinders stand side by side under one
// head gasket.
func (e *Engine) AreNeighbours(a, b string) bool {
	i, j := e.Index(a), e.Index(b)
	return i >= 0 && j >= 0 && e.sideBySide(i, j, e.reach())
}

// NeighbourRuns divides the named cylinders into runs of neighbours: in each
// run one can go from any cylinder to any other over pairs of neighbours that
// are themselves in the set. A cylinder without a neighbour in the set is a
// run of one. Runs and their members are in the order of places; names that
// the engine does not have are left out.
func (e *Engine) NeighbourRuns(set []string) [][]string {
	inSet := make([]bool, len(e.Cylinders))
	for _, name := range set {
		if i := e.Index(name); i >= 0 {
			inSet[i] = true
		}
	}
	reach := e.reach()
	run := make([]int, len(e.Cylinders)) // 0: not reached yet
	count := 0
	var visit func(i int)
	visit = func(i int) {
		run[i] = count
		for _, j := range e.order {
			if inSet[j] && run[j] == 0 && e.sideBySide(i, j, reach) {
				visit(j)
			}
		}
	}
	runs := [][]string{}
	for _, i := range e.order {
		if inSet[i] && run[i] == 0 {
			count++
			visit(i)
			runs = append(runs, nil)
		}
	}
	for _, i := range e.order {
		if run[i] > 0 {
			runs[run[i]-1] = append(runs[run[i]-1], e.Cylinders[i].Name)
		}
	}
	return runs
}
