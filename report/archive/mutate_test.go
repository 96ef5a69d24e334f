package archive

import (
	"bytes"
	"fmt"
	"maps"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"

	"gaugesheet/report/archive/pdffile"
)

// A place is where an object stands in a document: an entry of a dictionary, an
// item of a list, or the data of a stream.
type place struct {
	kind string // the way to it, the same for all places of a kind
	dict dict
	key  pn
	list list
	at   int
	data *pdffile.Stream // of which it is the data, nil where it is none
}

func (p place) get() pdffile.Object {
	switch {
	case p.data != nil:
		return p.data
	case p.list != nil:
		return p.list[p.at]
	}
	return p.dict[p.key]
}

func (p place) set(o pdffile.Object) {
	if p.list != nil {
		p.list[p.at] = o
	} else {
		p.dict[p.key] = o
	}
}

// repeated is a way that goes down and down among things of a kind.
var repeated = regexp.MustCompile(`(/K/\*)+`)

// places are all of a document, each object looked at once.
func (d *doc) places() []place {
	var all []place
	seen := map[int]bool{}
	var within func(kind string, o pdffile.Object)
	within = func(kind string, o pdffile.Object) {
		if ref, isRef := o.(pdffile.Ref); isRef {
			if seen[ref.Number] {
				return
			}
			seen[ref.Number] = true
			o = d.objects[ref.Number]
		}
		kind = repeated.ReplaceAllString(kind, "/K")
		switch o := o.(type) {
		case *pdffile.Stream:
			all = append(all, place{kind: kind + "/data", data: o})
			within(kind, o.Dict)
		case dict:
			for _, key := range slices.Sorted(maps.Keys(o)) {
				all = append(all, place{kind: kind + "/" + string(key), dict: o, key: key})
				within(kind+"/"+string(key), o[key])
			}
		case list:
			for i := range o {
				all = append(all, place{kind: kind + "/*", list: o, at: i})
				within(kind+"/*", o[i])
			}
		}
	}
	within("", d.trailer)
	return all
}

// A mutation changes a document at random.
type mutation struct {
	*rand.Rand
	d      *doc
	places map[string][]place // by their kinds
	kinds  []string
	file   []func([]byte) []byte // done to the bytes that are written
	did    []string
}

func newMutation(seed int, d *doc) *mutation {
	m := &mutation{Rand: rand.New(rand.NewPCG(uint64(seed), 13)), d: d, places: map[string][]place{}}
	for _, p := range d.places() {
		m.places[p.kind] = append(m.places[p.kind], p)
	}
	m.kinds = slices.Sorted(maps.Keys(m.places))
	return m
}

// change changes one thing: anything anywhere, often what the page is seen by.
func (m *mutation) change() {
	kind := m.kinds[m.IntN(len(m.kinds))]
	if m.IntN(3) == 0 {
		kind = "/Root/Pages/Kids/*/Contents/data"
	}
	m.changeAt(kind, mutators[m.IntN(len(mutators))])
}

// changeAt changes what is at one of the places of a kind, if it can be changed so.
func (m *mutation) changeAt(kind string, how mutator) {
	some := m.places[kind]
	if len(some) == 0 {
		return
	}
	p := some[m.IntN(len(some))]
	if p.data != nil && !how.data {
		how = mutator{"its data", true, (*mutation).bytesOf}
	}
	m.did = append(m.did, how.name+" at "+kind)
	how.change(m, p)
}

// bytes are the document after all changes.
func (m *mutation) bytes() []byte {
	data := m.d.bytes()
	for _, change := range m.file {
		data = change(data)
	}
	return data
}

func (m *mutation) String() string { return strings.Join(m.did, ", ") }

// pick takes one of a list of texts.
func (m *mutation) pick(list []string) string { return list[m.IntN(len(list))] }

// words are names that mean something to readers of PDF.
var words = strings.Fields(`A AA AF AIS AcroForm Annots AP AS ActualText Alt Alternates BBox BG BM BaseFont BlackIs1 BleedBox Border BX CA CS CIDSet CIDToGIDMap ClassMap
	Colors Columns ColorSpace Contents Count CropBox D DA DL DP DW DW2 Decode DecodeParms Default Desc DescendantFonts Differences E EF Encoding Encrypt ExtGState Extends
	F FFilter FT FS Fields Filter First FirstChar Flags Font FontFile FontFile2 FontFile3 FontMatrix Function Group H HT Height I ID IF IDTree ImageMask Index Intent Interpolate
	K Kids Lang LastModified Last Length Length1 Limits Linearized MCID MK Mask Matrix MediaBox Metadata N NS Name Names Namespaces Next NeedAppearances NeedsRendering
	O OC OCGs OCProperties OPI Obj OpenAction Outlines OutputIntents P PS Pages Panose Parent ParentTree ParentTreeNextKey Pattern Params PieceInfo Pg Popup Predictor Prev
	Private Properties R RC Rect Ref Reference Resources RoleMap Root Rotate S SA SMask SMaskInData Shading Size StemV StructParent StructParents Style Subtype Supplement
	Suspects T TR TR2 Tabs Thumb Title ToUnicode TrimBox Type UF UserProperties UserUnit V VE Version ViewerPreferences W W2 WMode Widths Width XFA XHeight XObject XRefStm`)

// values are what means something as a value.
var values = strings.Fields(`null true false 0 1 -1 2 90 0.5 1.0 99999999999 () (x) (\376\377\0001) <31> /DeviceRGB /DeviceGray /DeviceCMYK /Identity-H /Identity-V /Identity /FlateDecode /ASCIIHexDecode
	/LZWDecode /DCTDecode /Crypt /Page /Pages /Catalog /Form /Image /Type0 /Type3 /XML /Normal /Multiply /None /JavaScript /Artifact /Span [] [0] [null] [0_0_9_9] [0_0_9_0_0_9] <<>> <</S/JavaScript/JS(x)>>
	<</Predictor_12>> <</Type/OCG/Name(x)>> [/FlateDecode_/FlateDecode] 9999_0_R`)

func (m *mutation) value() pdffile.Object {
	if m.IntN(4) == 0 {
		numbers := slices.Sorted(maps.Keys(m.d.objects))
		return pdffile.Ref{Number: numbers[m.IntN(len(numbers))]}
	}
	return raw(strings.ReplaceAll(m.pick(values), "_", " "))
}

// A mutator changes what is at a place.
type mutator struct {
	name   string
	data   bool // it is asked for data of streams too
	change func(*mutation, place)
}

var mutators = []mutator{
	{"another value", false, (*mutation).another},
	{"another value", false, (*mutation).another}, // there twice: tried twice as often
	{"nothing", false, func(m *mutation, p place) { p.set(nil) }},
	{"left out", false, func(_ *mutation, p place) {
		if p.dict != nil {
			delete(p.dict, p.key)
		} else {
			p.set(raw(""))
		}
	}},
	{"by reference", false, func(m *mutation, p place) { p.set(m.d.add(p.get())) }},
	{"in its place", false, func(m *mutation, p place) { m.copyTo(p, m.d.at(p.get())) }},
	{"in a list", false, func(_ *mutation, p place) { p.set(list{p.get()}) }},
	{"a copy", false, func(m *mutation, p place) { p.set(m.d.add(m.d.at(p.get()))) }},
	{"another figure", false, (*mutation).figure},
	{"written otherwise", false, (*mutation).otherwise},
	{"an entry more", false, (*mutation).entry},
	{"an entry more", false, (*mutation).entry},
	{"an entry twice", false, (*mutation).twice},
	{"an item more or less", false, (*mutation).item},
	{"what stands elsewhere", false, func(m *mutation, p place) {
		other := m.places[m.kinds[m.IntN(len(m.kinds))]]
		if o := other[m.IntN(len(other))]; o.data == nil {
			m.copyTo(p, o.get())
		}
	}},
	{"its data", true, (*mutation).bytesOf},
	{"its operations", true, (*mutation).operations},
	{"its figures", true, (*mutation).figures},
	{"its signs", true, (*mutation).signs},
	{"its packing", true, (*mutation).packing},
	{"the file", true, (*mutation).written},
	{"a byte of the file", true, (*mutation).aByte},
}

// copyTo puts an object into another place, as it is written now: nothing may stand in
// itself.
func (m *mutation) copyTo(p place, o pdffile.Object) {
	if _, isData := o.(*pdffile.Stream); !isData {
		p.set(raw(written(o)))
	}
}

func (m *mutation) another(p place) { p.set(m.value()) }

// figure changes a number, a name or a string a little.
func (m *mutation) figure(p place) {
	switch o := m.d.at(p.get()).(type) {
	case float64:
		p.set([]pdffile.Object{o + 1, o - 1, -o, o + 0.5, o * 2, o + 1e-5, o / 1000, 0.0}[m.IntN(8)])
	case pn:
		p.set([]pdffile.Object{o + "x", pn(strings.ToLower(string(o))), pdffile.String(o), pn(m.pick(words)), pn("")}[m.IntN(5)])
	case pdffile.String:
		p.set([]pdffile.Object{o + "x", o + "\x00", pn(o), "\xef\xbb\xbf" + o, pdffile.String(strings.ToUpper(string(o))), pdffile.String("")}[m.IntN(6)])
	case bool:
		p.set(!o)
	default:
		p.set(m.value())
	}
}

// otherwise writes an object in another way that may or may not be the same.
func (m *mutation) otherwise(p place) {
	o := p.get()
	text := written(o)
	ways := []string{text + " % remark\n", "%\n" + text, "\x00" + text + "\f", " " + text + " "}
	switch o := o.(type) {
	case float64:
		ways = append(ways, "+"+text, "00"+text, text+".", text+".0", text+".00000000000000001", "-"+text, text+"e0", text+"-0", "0x"+text, text+"00000000000000000000")
	case pn:
		ways = append(ways, "/#"+fmt.Sprintf("%02x", string(o + "x")[0])+text[min(2, len(text)):], text+"#00", text+"#20", text+"\x00", "/"+text)
	case pdffile.String:
		plain := strings.NewReplacer(`\`, `\\`, "(", `\(`, ")", `\)`, "\r", `\r`).Replace(string(o))
		ways = append(ways, "("+plain+")", "(\\\n"+plain+")", "("+plain+"\\)", text[:len(text)-1]+"0>", "<"+strings.ToUpper(text[1:]), strings.ReplaceAll(text, "0", "0 "), "(\\400"+plain+")", "("+plain+"\r)")
	case pdffile.Ref:
		ways = append(ways, fmt.Sprintf("%d 1 R", o.Number), fmt.Sprintf("%d 00 R", o.Number), fmt.Sprintf("0%d 0 R", o.Number), fmt.Sprintf("%d 0\nR", o.Number), fmt.Sprintf("%d 0 R R", o.Number), fmt.Sprintf("%d 65536 R", o.Number), fmt.Sprintf("-%d 0 R", o.Number))
	case list:
		ways = append(ways, text+"]", "["+text, strings.ReplaceAll(text, " ", ""), strings.ReplaceAll(text, " ", "%\n"))
	}
	p.set(raw(m.pick(ways)))
}

// entry puts an entry into a dictionary: into the one at the place, or the one it is in.
func (m *mutation) entry(p place) {
	into := p.dict
	if inner, ok := m.d.at(p.get()).(dict); ok {
		into = inner
	}
	if into == nil {
		into = m.d.trailer
	}
	into[pn(m.pick(words))] = m.value()
}

// twice puts an entry in a second time, under the same name or one that may pass for it.
func (m *mutation) twice(p place) {
	if p.dict == nil {
		p.set(raw(written(p.get()) + " " + written(p.get())))
		return
	}
	key := m.pick([]string{string(p.key), string(p.key) + " ", string(p.key) + "#00", "#" + fmt.Sprintf("%02x", string(p.key + "x")[0]) + string(p.key[min(1, len(p.key)):])})
	p.set(raw(written(p.get()) + "/" + key + " " + written(m.value())))
}

func (m *mutation) item(p place) {
	l, ok := m.d.at(p.get()).(list)
	if !ok || len(l) == 0 {
		p.set(m.value())
		return
	}
	at := m.IntN(len(l))
	switch how := m.IntN(5); how {
	case 2:
		l = slices.Insert(slices.Clone(l), at, m.value())
	case 3:
		l = append(slices.Clone(l), m.value())
	default:
		l = moved(m, l, at, how)
	}
	if ref, isRef := p.get().(pdffile.Ref); isRef {
		m.d.objects[ref.Number] = l
	} else {
		p.set(l)
	}
}

// moved is a list from which one thing is taken out, into which another is put once
// more, or in which two have changed places.
func moved[T any](m *mutation, l []T, at, how int) []T {
	l = slices.Clone(l)
	switch how {
	case 0:
		return slices.Delete(l, at, at+1)
	case 1:
		return slices.Insert(l, at, l[m.IntN(len(l))])
	}
	other := m.IntN(len(l))
	l[at], l[other] = l[other], l[at]
	return l
}

// bytesOf changes one byte of data, at random.
func (m *mutation) bytesOf(p place) {
	if p.data == nil || len(p.data.Raw) == 0 {
		m.written(p)
		return
	}
	p.data.Raw = bytes.Clone(p.data.Raw)
	p.data.Raw[m.IntN(len(p.data.Raw))] = byte(m.IntN(256))
}
