package cause

import "sync"

// A Set is causes by their places in the list, so that what a check is about is
// told without comparing names.
type Set [4]uint64

// Add takes a cause in; a name that is no cause's is left out.
func (s *Set) Add(name string) {
	if k := Named(name); k != nil {
		s.AddCause(k)
	}
}

// AddCause takes a cause in.
func (s *Set) AddCause(k *Cause) { s[k.place/64] |= 1 << (k.place % 64) }

// Has reports a cause that was taken in.
func (s *Set) Has(name string) bool {
	k := Named(name)
	return k != nil && s[k.place/64]&(1<<(k.place%64)) != 0
}

// SetOf is a set of causes.
func SetOf(names ...string) Set {
	var s Set
	for _, name := range names {
		s.Add(name)
	}
	return s
}

// Meets reports a cause that two sets have in common.
func (s *Set) Meets(o *Set) bool {
	for i := range s {
		if s[i]&o[i] != 0 {
			return true
		}
	}
	return false
}

// A reach is what a check can prove and what it puts right.
type reach struct{ proves, about Set }

var reaches = sync.OnceValue(func() []reach {
	list := make([]reach, len(Checks))
	for i := range Checks {
		for _, o := range Checks[i].Outcomes {
			if !o.Else {
				for _, name := range o.For {
					list[i].proves.Add(name)
				}
			}
		}
		list[i].about = list[i].proves
		for _, name := range Checks[i].Mends {
			list[i].about.Add(name)
		}
	}
	return list
})

func (k *Check) reach() *reach { return &reaches()[k.place] }

// Proves reports a check with an outcome of its own that speaks for one of these
// causes.
func (k *Check) Proves(of *Set) bool { return k.reach().proves.Meets(of) }

// Concerns reports a check that speaks for one of these causes, or mends it.
func (k *Check) Concerns(of *Set) bool { return k.reach().about.Meets(of) }
