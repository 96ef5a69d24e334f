package archive

import (
	"slices"

	"gaugesheet/report/archive/pdffile"
)

// What programs put into a file to sign it, so that it shows nothing: a form with
// fields of signatures in it, and these on the page. What is in them to be shown, run or
// filled in makes the file one that is not vouched for.

// signatureForm is a form with nothing but signatures in it.
var signatureForm = aDict(map[pdffile.Name]form{
	"Fields": aList(signatureField), "SigFlags": aNumber, "DA": aString, "Q": aNumber,
	"NeedAppearances": is(func(o pdffile.Object) bool { return o == false }),
	"DR":              aDict(map[pdffile.Name]form{"ProcSet": procedures, "Font": aDict(map[pdffile.Name]form{"*": usualType}), "Encoding": aDict(map[pdffile.Name]form{"*": encoding})}),
})

// procedures are the sets of them that readers have not asked for since version 1.4.
var procedures = aList(aName("PDF", "Text", "ImageB", "ImageC", "ImageI"))

// usualType is one that every reader has, for words of fields, of which there are none.
var usualType = aDict(map[pdffile.Name]form{
	"Type": aName("Font"), "Subtype": aName("Type1"), "Name": aSomeName, "BaseFont": aSomeName,
	"Encoding": func(n *canon, o pdffile.Object) (bool, error) {
		if isName(o) {
			return true, nil
		}
		return encoding(n, o)
	},
})

var encoding = aDict(map[pdffile.Name]form{"Type": aName("Encoding"), "BaseEncoding": aSomeName, "Differences": aList(is(func(o pdffile.Object) bool {
	_, isNumber := o.(float64)
	return isNumber || isName(o)
}))})

// signatureField is the place of a signature, which notes and forms judge by where it is.
// It has no parts and stands by itself: fields below it, or above, could be of another
// kind.
var signatureField = aDict(map[pdffile.Name]form{
	"Type": aName("Annot"), "Subtype": aName("Widget"), "FT": aName("Sig"), "T": aString, "TU": aString, "Ff": aNumber, "F": aNumber, "P": aRef, "Rect": numbers,
	"V": signature, "AP": aDict(map[pdffile.Name]form{"N": emptyLooks}), "MK": aDict(map[pdffile.Name]form{"R": aNumber}), "DA": aString, "M": aDate, "NM": aString, "AS": aName("N", "Off"),
	"Border": numbers, "BS": aDict(map[pdffile.Name]form{"Type": aName("Border"), "W": aNumber, "S": aSomeName, "D": numbers}),
	"Lock": aDict(map[pdffile.Name]form{"Type": aName("SigFieldLock"), "Action": aSomeName, "Fields": aList(aString), "P": aNumber}),
	"SV": aDict(map[pdffile.Name]form{
		"Type": aName("SV"), "Filter": aSomeName, "SubFilter": aList(aSomeName), "DigestMethod": aList(aString), "Ff": aNumber, "V": aNumber,
		"AddRevInfo": aSwitch, "MDP": aDict(map[pdffile.Name]form{"P": aNumber}),
	}),
})

// emptyLooks are those of what shows nothing.
func emptyLooks(n *canon, o pdffile.Object) (bool, error) {
	s, err := n.c.s.file.Stream(o)
	if err != nil || s == nil {
		return false, err
	}
	entries := map[pdffile.Name]form{
		"Type": aName("XObject"), "Subtype": aName("Form"), "FormType": aNumber, "BBox": numbers, "Matrix": numbers, "Resources": aDict(map[pdffile.Name]form{"ProcSet": procedures}),
		"Length": aNumberOrRef, "Filter": judged, "DecodeParms": judged,
	}
	if ok, err := aDict(entries)(n, s.Dict); err != nil || !ok || n.c.s.file.Packed(s) != "" {
		return false, err
	}
	draws, err := n.c.drawsAnything(s)
	return !draws, err
}

var signature = aDict(map[pdffile.Name]form{
	"Type": aName("Sig", "DocTimeStamp"), "Filter": aSomeName, "SubFilter": aSomeName, "ByteRange": numbers, "Contents": aString, "Cert": certificates, "Name": aString, "M": aDate,
	"Location": aString, "Reason": aString, "ContactInfo": aString, "Changes": numbers, "Prop_AuthTime": aNumber, "Prop_AuthType": aSomeName, "R": aNumber, "V": aNumber,
	"Prop_Build": plain(5),
	"Reference": aList(aDict(map[pdffile.Name]form{
		"Type": aName("SigRef"), "TransformMethod": aSomeName, "DigestMethod": aSomeName, "DigestValue": aString, "DigestLocation": numbers,
		"Data":            func(n *canon, o pdffile.Object) (bool, error) { return o == n.c.s.file.Trailer["Root"], nil },
		"TransformParams": plain(3),
	})),
})

func certificates(n *canon, o pdffile.Object) (bool, error) {
	if _, isString := o.(pdffile.String); isString {
		return true, nil
	}
	return aList(aString)(n, o)
}

// plain are words and numbers in one another, so deep, that stand in their place: nothing
// leads on from them, and none is of what runs.
func plain(deep int) form {
	return func(n *canon, o pdffile.Object) (bool, error) {
		switch o := o.(type) {
		case bool, float64, pdffile.Name, pdffile.String:
			return true, nil
		case []pdffile.Object:
			return deep > 0 && !slices.ContainsFunc(o, func(v pdffile.Object) bool { ok, _ := plain(deep-1)(n, v); return !ok }), nil
		case pdffile.Dict:
			for key, v := range o {
				if ok, _ := plain(deep-1)(n, v); !ok || deep == 0 || key == "S" || key == "JS" {
					return false, nil
				}
			}
			return true, nil
		}
		return false, nil
	}
}

var (
	aSomeName    = is(isName)
	aNumberOrRef = is(func(o pdffile.Object) bool {
		switch o.(type) {
		case float64, pdffile.Ref:
			return true
		}
		return false
	})
)
