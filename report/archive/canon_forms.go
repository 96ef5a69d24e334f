package archive

import (
	"regexp"
	"slices"

	"gaugesheet/report/archive/pdffile"
)

// A form tells whether an object is one that programs write in its place when they
// save a file, and that shows and runs nothing.
type form func(n *canon, o pdffile.Object) (bool, error)

// judged is what is compared elsewhere, entry by entry.
func judged(*canon, pdffile.Object) (bool, error) { return true, nil }

// is makes a form of what an object may be. It stands in its place.
func is(fits func(o pdffile.Object) bool) form {
	return func(_ *canon, o pdffile.Object) (bool, error) { return fits(o), nil }
}

func aName(names ...pdffile.Name) form {
	return is(func(o pdffile.Object) bool { n, ok := o.(pdffile.Name); return ok && slices.Contains(names, n) })
}

var (
	aString = is(func(o pdffile.Object) bool { _, ok := o.(pdffile.String); return ok })
	aSwitch = is(func(o pdffile.Object) bool { _, ok := o.(bool); return ok })
	aNumber = is(func(o pdffile.Object) bool { _, ok := o.(float64); return ok })
	aRef    = is(func(o pdffile.Object) bool { _, ok := o.(pdffile.Ref); return ok })
	aText   = is(func(o pdffile.Object) bool {
		switch o.(type) {
		case pdffile.String, pdffile.Name:
			return true
		}
		return false
	})
)

// turns are a page's that is not turned: once round at most, for readers reckon with
// whole numbers of their own.
var turns = is(func(o pdffile.Object) bool { return o == 0.0 || o == 360.0 || o == -360.0 })

// aDate is one as PDF has them (ISO 32000-2, 7.9.4), and nothing else to read.
var aDate = is(func(o pdffile.Object) bool { s, ok := o.(pdffile.String); return ok && date.MatchString(string(s)) })

var date = regexp.MustCompile(`^(?:D:)?[0-9]{4,14}(?:Z|[-+Z][0-9]{2}(?:'[0-9]{2})?'?)?$`)

// aList is a list of things of a form.
func aList(of form) form {
	return func(n *canon, o pdffile.Object) (bool, error) {
		o, err := n.c.s.file.Resolve(o)
		list, ok := o.([]pdffile.Object)
		if err != nil || !ok || len(list) > 1000 {
			return false, err
		}
		for _, item := range list {
			if ok, err := of(n, item); err != nil || !ok {
				return false, err
			}
		}
		return true, nil
	}
}

// aDict is a dictionary with entries of these forms.
func aDict(entries map[pdffile.Name]form) form {
	return func(n *canon, o pdffile.Object) (bool, error) {
		o, err := n.c.s.file.Resolve(o)
		dict, ok := o.(pdffile.Dict)
		if err != nil || !ok {
			return false, err
		}
		for key, o := range dict {
			fits := entries[key]
			if fits == nil {
				fits = entries["*"]
			}
			if fits == nil {
				return false, nil
			}
			if ok, err := fits(n, o); err != nil || !ok {
				return false, err
			}
		}
		return true, nil
	}
}

// data are a stream or more, which nothing shows: certificates and what says that they
// hold.
func data(n *canon, o pdffile.Object) (bool, error) {
	s, err := n.c.s.file.Stream(o)
	if err != nil || s == nil {
		return false, err
	}
	for key := range s.Dict {
		if key != "Length" && key != "Filter" && key != "DecodeParms" {
			return false, nil
		}
	}
	return n.c.s.file.Packed(s) == "", nil
}

// aPlace is one in the document, on the sheet's page: how much of it is shown at first.
func aPlace(n *canon, o pdffile.Object) (bool, error) {
	o, err := n.c.s.file.Resolve(o)
	if err != nil {
		return false, err
	}
	if dict, ok := o.(pdffile.Dict); ok && len(dict) == 1 {
		o = dict["D"]
	}
	list, ok := o.([]pdffile.Object)
	if !ok || len(list) < 2 || list[0] != n.c.ours.page.Ref {
		return false, nil
	}
	kind, _ := list[1].(pdffile.Name)
	if !slices.Contains([]pdffile.Name{"XYZ", "Fit", "FitH", "FitV", "FitR", "FitB", "FitBH", "FitBV"}, kind) {
		return false, nil
	}
	for _, v := range list[2:] {
		if _, isNumber := v.(float64); !isNumber && v != nil {
			return false, nil
		}
	}
	return true, nil
}

// places are the document's places by their names.
func places(n *canon, o pdffile.Object) (bool, error) {
	return aDict(map[pdffile.Name]form{
		"Limits": aList(aString),
		"Names": aList(func(n *canon, o pdffile.Object) (bool, error) {
			if _, isName := o.(pdffile.String); isName {
				return true, nil
			}
			return aPlace(n, o)
		}),
	})(n, o)
}

// numbers are a row of them.
var numbers = aList(aNumber)

// paper is an area that has all of the page in it.
func paper(n *canon, o pdffile.Object) (bool, error) {
	if ok, err := numbers(n, o); err != nil || !ok {
		return false, err
	}
	area, page, err := n.areas(o)
	return area[0] <= page[0] && area[1] <= page[1] && area[2] >= page[2] && area[3] >= page[3], err
}

// exactly is the page's own area: what it may be off by in a page that was written
// anew makes a row of dots more.
func exactly(n *canon, o pdffile.Object) (bool, error) {
	if ok, err := paper(n, o); err != nil || !ok {
		return false, err
	}
	area, page, err := n.areas(o)
	return area == page && err == nil, err
}

// areas are an area of the page in the file and the paper of the one drawn anew.
func (n *canon) areas(o pdffile.Object) (area, page [4]float64, err error) {
	if area, err = n.c.s.file.Box(o); err != nil {
		return area, page, err
	}
	page, err = n.c.again.file.Box(n.c.again.drawn.page.Dict["MediaBox"])
	return area, page, err
}

var pageModes = aName("UseNone", "UseOutlines", "UseThumbs", "UseAttachments", "UseOC")

var catalogForms = map[pdffile.Name]form{
	"Pages": judged, "AcroForm": signatureForm, "NeedsRendering": aSwitch, "LastModified": aDate,
	"Version":    aName("1.3", "1.4", "1.5", "1.6", "1.7", "2.0"),
	"PageLayout": aName("SinglePage", "OneColumn", "TwoColumnLeft", "TwoColumnRight", "TwoPageLeft", "TwoPageRight"),
	"PageMode":   pageModes,
	"ViewerPreferences": aDict(map[pdffile.Name]form{
		"HideToolbar": aSwitch, "HideMenubar": aSwitch, "HideWindowUI": aSwitch, "FitWindow": aSwitch, "CenterWindow": aSwitch, "DisplayDocTitle": aSwitch,
		"PickTrayByPDFSize": aSwitch, "NonFullScreenPageMode": pageModes, "Direction": aName("L2R"), "PrintScaling": aName("None", "AppDefault"),
		"Duplex": aName("Simplex", "DuplexFlipShortEdge", "DuplexFlipLongEdge"), "NumCopies": aNumber,
		"ViewArea": aName("CropBox", "MediaBox"), "ViewClip": aName("CropBox", "MediaBox"), "PrintArea": aName("CropBox", "MediaBox"), "PrintClip": aName("CropBox", "MediaBox"),
	}),
	"Extensions": aDict(map[pdffile.Name]form{"Type": aName("Extensions"), "*": aDict(map[pdffile.Name]form{
		"Type": aName("DeveloperExtensions"), "BaseVersion": aName("1.7", "2.0"), "ExtensionLevel": aNumber, "ExtensionRevision": aString, "URL": aString,
	})}),
	"OpenAction": aPlace,
	"Dests":      aDict(map[pdffile.Name]form{"*": aPlace}),
	"Names":      aDict(map[pdffile.Name]form{"EmbeddedFiles": judged, "Dests": places}),
	"DSS": aDict(map[pdffile.Name]form{
		"Type": aName("DSS"), "Certs": aList(data), "CRLs": aList(data), "OCSPs": aList(data),
		"VRI": aDict(map[pdffile.Name]form{"*": aDict(map[pdffile.Name]form{"Type": aName("VRI"), "Cert": aList(data), "CRL": aList(data), "OCSP": aList(data), "TU": aString, "TS": data})}),
	}),
	"Perms": aDict(map[pdffile.Name]form{"DocMDP": signature, "UR3": signature}),
}

var pageForms = map[pdffile.Name]form{
	"Parent": judged, "Contents": contentsForm, "MediaBox": exactly, "CropBox": paper, "BleedBox": paper, "TrimBox": paper, "ArtBox": paper, "Rotate": turns, "UserUnit": aNumber,
	"LastModified": aDate, "ID": aString, "Tabs": aName("S", "R", "C", "W", "A"), "Annots": aList(signatureField), "Resources": resourcesForm,
}

// contentsForm is what the page draws, or a list of that: what it draws is compared
// elsewhere, how it is packed is not.
func contentsForm(n *canon, o pdffile.Object) (bool, error) {
	resolved, err := n.c.s.file.Resolve(o)
	if err != nil {
		return false, err
	}
	parts, isList := resolved.([]pdffile.Object)
	if !isList {
		parts = []pdffile.Object{o}
	}
	for _, part := range parts {
		s, err := n.c.s.file.Stream(part)
		if err != nil || s == nil || n.c.s.file.Packed(s) != "" {
			return false, err
		}
	}
	return true, nil
}

// streamForms are entries of streams that programs leave out, or put in.
var streamForms = map[pdffile.Name]form{"Length1": aNumber, "DL": aNumber}

// resourcesForm are the page's resources: each of the sheet's, and of what it does not draw
// with nothing but the word that there is nothing.
func resourcesForm(n *canon, o pdffile.Object) (bool, error) {
	ours, err := n.c.s.file.NoData(o)
	if err != nil {
		return false, err
	}
	theirs, err := n.c.again.file.Dict(n.c.again.drawn.page.Dict["Resources"])
	if err != nil {
		return false, err
	}
	for key, o := range ours {
		own, err := n.c.again.file.Dict(dictOnly(theirs[key]))
		if err != nil {
			return false, err
		}
		switch key {
		case "ProcSet":
			if ok, err := procedures(n, o); err != nil || !ok {
				return false, err
			}
		case "Font", "XObject", "ColorSpace", "ExtGState", "Pattern", "Shading", "Properties":
			if len(own) == 0 {
				if ok, err := aDict(nil)(n, o); err != nil || !ok {
					return false, err
				}
			} else if err := n.walk("page /Resources /"+string(key), o, theirs[key]); err != nil {
				return false, err
			}
		default:
			return false, nil
		}
	}
	return true, nil // what is missing is not drawn with
}

// dictOnly is an object that may be a dictionary, nothing for a list.
func dictOnly(o pdffile.Object) pdffile.Object {
	if _, isList := o.([]pdffile.Object); isList {
		return nil
	}
	return o
}

// infoForms are what the document says of itself, which is compared elsewhere.
var infoForms = map[pdffile.Name]form{
	"Title": aString, "Author": aString, "Subject": aString, "Keywords": aString, "Creator": aString, "Producer": aString, "CreationDate": aDate, "ModDate": aDate,
	"Trapped": aName("True", "False", "Unknown"),
}

func isName(o pdffile.Object) bool { _, ok := o.(pdffile.Name); return ok }

var trailerForms = map[pdffile.Name]form{
	"Size": aNumber, "Root": aRef, "Info": aRef, "ID": aList(aString), "Prev": aNumber, "DocChecksum": aText,
	"Type": aName("XRef"), "W": numbers, "Index": numbers, "Length": aNumber, "Filter": aName("FlateDecode"),
	"DecodeParms": aDict(map[pdffile.Name]form{"Predictor": aNumber, "Columns": aNumber, "Colors": aNumber, "BitsPerComponent": aNumber}),
	"Encrypt": all(encryption, aDict(map[pdffile.Name]form{
		"Filter": aName("Standard"), "V": aNumber, "R": aNumber, "Length": aNumber, "P": aNumber, "O": aString, "U": aString, "OE": aString, "UE": aString, "Perms": aString,
		"EncryptMetadata": is(func(o pdffile.Object) bool { return o == true }), // which not all readers ask
		"StmF":            aName("StdCF"), "StrF": aName("StdCF"), "EFF": aName("StdCF"), "Type": aName("Encrypt"),
		"CF": aDict(map[pdffile.Name]form{"StdCF": aDict(map[pdffile.Name]form{"Type": aName("CryptFilter"), "CFM": aName("V2", "AESV2", "AESV3"), "AuthEvent": aName("DocOpen"), "Length": aNumber})}),
	})),
}

// all is a form that fits where all of these do.
func all(forms ...form) form {
	return func(n *canon, o pdffile.Object) (bool, error) {
		for _, fits := range forms {
			if ok, err := fits(n, o); err != nil || !ok {
				return false, err
			}
		}
		return true, nil
	}
}

// encryption is a form of the ways of encryption (ISO 32000-2, tables 20 to 25) that all
// readers know: which version goes with which revision, how long its key is, and how long
// its filter says that it is. Of two lengths some readers take the one, some the other.
func encryption(n *canon, o pdffile.Object) (bool, error) {
	how, err := n.c.s.file.Dict(o)
	if err != nil {
		return false, err
	}
	filters, err := n.c.s.file.Dict(how["CF"])
	if err != nil {
		return false, err
	}
	filter, err := n.c.s.file.Dict(filters["StdCF"])
	if err != nil {
		return false, err
	}
	type way [5]pdffile.Object
	said := way{how["V"], how["R"], how["Length"], filter["CFM"], filter["Length"]}
	return slices.Contains([]way{
		{1.0, 2.0, nil, nil, nil}, {1.0, 2.0, 40.0, nil, nil}, {2.0, 3.0, 128.0, nil, nil},
		{4.0, 4.0, 128.0, pdffile.Name("V2"), 16.0}, {4.0, 4.0, 128.0, pdffile.Name("AESV2"), 16.0}, {5.0, 6.0, 256.0, pdffile.Name("AESV3"), 32.0},
	}, said) && (how["V"] == 4.0 || how["V"] == 5.0) == (how["CF"] != nil), nil
}
