package archive

import (
	"bytes"
	"maps"
	"math"
	"reflect"

	"gaugesheet/report/archive/pdffile"
)

// A pairing compares the objects of two files: equal are those that say the
// same, whatever numbers they have and however they are packed.
type pairing struct {
	a, b *pdffile.File
	same map[[2]pdffile.Ref]bool // taken to be equal: so far nothing spoke against it
	left int                     // how many objects are still compared
	deep int                     // how deep in one another
}

func newPairing(a *pdffile.File, pageA pdffile.Ref, b *pdffile.File, pageB pdffile.Ref) *pairing {
	return &pairing{a, b, map[[2]pdffile.Ref]bool{{pageA, pageB}: true}, 1 << 20, 0}
}

// unsaid are entries that say how data are kept, or where, not what is seen.
var unsaid = map[pdffile.Name]bool{"Parent": true, "Length": true, "Filter": true, "DecodeParms": true, "Metadata": true, "ProcSet": true}

// alike tells whether two objects say the same. What was taken to be equal on
// the way to a difference is forgotten.
func (p *pairing) alike(a, b pdffile.Object) (bool, error) {
	before := maps.Clone(p.same)
	same, err := p.equal(a, b)
	if !same {
		p.same = before
	}
	return same, err
}

func (p *pairing) equal(a, b pdffile.Object) (bool, error) {
	const deepest = 1000
	p.left--
	p.deep++
	defer func() { p.deep-- }()
	if p.left < 0 || p.deep > deepest {
		return false, pdffile.ErrTooLarge
	}
	refA, isRefA := a.(pdffile.Ref)
	refB, isRefB := b.(pdffile.Ref)
	if isRefA && isRefB {
		pair := [2]pdffile.Ref{refA, refB}
		if p.same[pair] {
			return true, nil
		}
		p.same[pair] = true
	}
	a, err := p.a.Resolve(a)
	if err != nil {
		return false, err
	}
	if b, err = p.b.Resolve(b); err != nil {
		return false, err
	}
	return p.values(a, b)
}

// values compares two objects that stand for themselves.
func (p *pairing) values(a, b pdffile.Object) (bool, error) {
	switch a := a.(type) {
	case float64:
		b, ok := b.(float64)
		return ok && math.Abs(a-b) < 1e-4, nil
	case []pdffile.Object:
		b, ok := b.([]pdffile.Object)
		if !ok || len(a) != len(b) {
			return false, nil
		}
		for i := range a {
			if same, err := p.equal(a[i], b[i]); !same || err != nil {
				return false, err
			}
		}
		return true, nil
	case pdffile.Dict:
		b, ok := b.(pdffile.Dict)
		if !ok {
			return false, nil
		}
		return p.entries(a, b)
	case *pdffile.Stream:
		b, ok := b.(*pdffile.Stream)
		if !ok {
			return false, nil
		}
		return p.streams(a, b)
	}
	return a == b, nil
}

// entries compares dictionaries; one without an entry is one in which it is
// null.
func (p *pairing) entries(a, b pdffile.Dict) (bool, error) {
	for key := range b {
		if _, given := a[key]; !given && !unsaid[key] {
			if o, err := p.b.Resolve(b[key]); o != nil || err != nil {
				return false, err
			}
		}
	}
	for key := range a {
		if unsaid[key] {
			continue
		}
		if same, err := p.equal(a[key], b[key]); !same || err != nil {
			return false, err
		}
	}
	return true, nil
}

func (p *pairing) streams(a, b *pdffile.Stream) (bool, error) {
	if same, err := p.entries(a.Dict, b.Dict); !same || err != nil {
		return false, err
	}
	if bytes.Equal(a.Raw, b.Raw) && reflect.DeepEqual(a.Dict["Filter"], b.Dict["Filter"]) && reflect.DeepEqual(a.Dict["DecodeParms"], b.Dict["DecodeParms"]) {
		return true, nil
	}
	codedA, err := p.a.Coding(a)
	if err != nil {
		return false, err
	}
	codedB, err := p.b.Coding(b)
	if err != nil || codedA != codedB {
		return false, err
	}
	dataA, err := p.a.Unpack(a)
	if err != nil {
		return false, err
	}
	dataB, err := p.b.Unpack(b)
	return bytes.Equal(dataA, dataB), err
}

// resources compares what two pages draw with: fonts, pictures and states by
// their names. Both have to have the same: of a type or a picture that is not the
// sheet's, readers could show something else than is read here.
func (p *pairing) resources(a, b pdffile.Page) (bool, error) {
	ours, err := p.a.Dict(a.Dict["Resources"])
	if err != nil {
		return false, err
	}
	theirs, err := p.b.Dict(b.Dict["Resources"])
	if err != nil {
		return false, err
	}
	for category := range ours {
		if category == "ProcSet" {
			continue
		}
		have, err := p.a.Dict(ours[category])
		if err != nil {
			return false, err
		}
		named, err := p.b.Dict(theirs[category])
		if err != nil {
			return false, err
		}
		for name := range have {
			if named[name] == nil {
				return false, nil
			}
		}
	}
	for category := range theirs {
		if category == "ProcSet" {
			continue
		}
		named, err := p.b.Dict(theirs[category])
		if err != nil {
			return false, err
		}
		have, err := p.a.Dict(ours[category])
		if err != nil {
			return false, err
		}
		for name, o := range named {
			if same, err := p.alike(have[name], o); !same || err != nil {
				return false, err
			}
		}
	}
	return true, nil
}
