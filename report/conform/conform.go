// Package conform tells tests whether a sheet's PDF keeps to what it claims: to
// PDF/A-3 at level A (ISO 19005-3) and to PDF/UA-1 (ISO 14289-1), clause by
// clause, as far as a page of ours can break them; it knows the file and the
// standards, and nothing of what wrote it. It reads with a general-purpose library.
//
// It is no full validator: what needs eyes or ears, and what such a page never
// has (forms, sound, layers), is left to others.
package conform

import (
	"bytes"
	"fmt"
	"sync"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// The standards, as findings name them.
const (
	pdfA  = "ISO 19005-3, "
	pdfUA = "ISO 14289-1, "
)

// A Result is what became of a file.
type Result struct {
	Broken  []string // what it breaks, each with its clause; none where it keeps to all
	Heard   []string // what one hears in the order of its structure: the words of its elements and what its pictures show
	Unheard []string // texts that are no part of that
}

// Check reads a file once and says all of it; the error is that of a file which
// cannot be read.
func Check(file []byte) (Result, error) {
	d, err := open(file)
	if err != nil {
		return Result{}, err
	}
	for _, rules := range []func(){
		d.header, d.end, d.streams, d.limits, d.catalog, d.metadata, d.intent, d.operators, d.colors, d.pictures, d.nothingThatRuns,
		d.marks, d.fonts, d.attachments, d.tree,
	} {
		rules()
	}
	return d.Result, nil
}

// A document is an opened file of one page.
type document struct {
	raw     []byte
	ctx     *model.Context
	root    types.Dict
	page    types.Dict
	pageNo  int // the page's object number
	size    [2]float64
	res     types.Dict
	content []operation

	stretches map[int]string // what each marked stretch shows, by number
	Result
}

var quiet = sync.OnceFunc(api.DisableConfigDir)

func open(file []byte) (*document, error) {
	quiet()
	ctx, err := api.ReadAndValidate(bytes.NewReader(file), model.NewDefaultConfiguration())
	if err != nil {
		return nil, err
	}
	d := &document{raw: file, ctx: ctx}
	if d.root, err = ctx.Catalog(); err != nil {
		return nil, err
	}
	if ctx.PageCount != 1 {
		return nil, fmt.Errorf("%d pages, a sheet has one", ctx.PageCount)
	}
	page, ref, above, err := ctx.PageDict(1, false)
	if err != nil {
		return nil, err
	}
	d.page, d.pageNo, d.res = page, ref.ObjectNumber.Value(), d.dict(page["Resources"])
	if box := above.MediaBox; box != nil {
		d.size = [2]float64{box.Width(), box.Height()}
	}
	data, err := ctx.PageContent(page, 1)
	if err != nil {
		return nil, err
	}
	d.content, err = operations(data)
	return d, err
}

// want notes what is broken where something does not hold.
func (d *document) want(holds bool, clause, format string, args ...any) {
	if !holds {
		d.Broken = append(d.Broken, clause+": "+fmt.Sprintf(format, args...))
	}
}

// object is an object by reference or directly; nil where there is none.
func (d *document) object(o types.Object) types.Object {
	o, err := d.ctx.Dereference(o)
	if err != nil {
		return nil
	}
	return o
}

// dict is a dictionary, a stream's too; nil where there is none.
func (d *document) dict(o types.Object) types.Dict {
	switch o := d.object(o).(type) {
	case types.Dict:
		return o
	case types.StreamDict:
		return o.Dict
	}
	return nil
}

func (d *document) array(o types.Object) types.Array {
	a, _ := d.object(o).(types.Array)
	return a
}

func (d *document) name(o types.Object) string {
	n, _ := d.object(o).(types.Name)
	return n.Value()
}

func (d *document) number(o types.Object) float64 {
	switch o := d.object(o).(type) {
	case types.Integer:
		return float64(o.Value())
	case types.Float:
		return o.Value()
	}
	return 0
}

func (d *document) text(o types.Object) string {
	s, err := d.ctx.DereferenceText(o)
	if err != nil {
		return ""
	}
	return s
}

// data is a stream's data, unpacked; nil where there is none.
func (d *document) data(o types.Object) []byte {
	s, ok := d.object(o).(types.StreamDict)
	if !ok || s.Decode() != nil {
		return nil
	}
	return s.Content
}

// every does something with each object of the file, those within others too.
func (d *document) every(do func(o types.Object)) {
	var walk func(o types.Object)
	walk = func(o types.Object) {
		do(o)
		switch o := o.(type) {
		case types.Dict:
			for _, v := range o {
				walk(v)
			}
		case types.StreamDict:
			for _, v := range o.Dict {
				walk(v)
			}
		case types.Array:
			for _, v := range o {
				walk(v)
			}
		}
	}
	for _, entry := range d.ctx.Table {
		if entry != nil && !entry.Free && entry.Object != nil {
			walk(entry.Object)
		}
	}
}
