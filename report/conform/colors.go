package conform

import (
	"encoding/binary"
	"strings"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// intent: the document carries a profile of what its red, green and blue are.
func (d *document) intent() {
	intents := d.array(d.root["OutputIntents"])
	d.want(len(intents) == 1, pdfA+"6.2.3", "%d output intents", len(intents))
	for _, o := range intents {
		intent := d.dict(o)
		d.want(d.name(intent["S"]) == "GTS_PDFA1", pdfA+"6.2.3", "an output intent of another kind")
		icc := d.data(intent["DestOutputProfile"])
		ok := len(icc) > 132 && string(icc[36:40]) == "acsp" && int(binary.BigEndian.Uint32(icc)) == len(icc)
		d.want(ok, pdfA+"6.2.3", "the colour profile is damaged")
		if ok {
			class := string(icc[12:16])
			d.want(class == "mntr" || class == "prtr", pdfA+"6.2.3", "a colour profile of class %q", class)
			d.want(icc[8] == 2 || icc[8] == 4, pdfA+"6.2.3", "a colour profile of version %d", icc[8])
			rgb := string(icc[16:20]) == "RGB " && d.number(d.dict(intent["DestOutputProfile"])["N"]) == 3
			d.want(rgb, pdfA+"6.2.4.2", "the colour profile is not one of red, green and blue")
		}
	}
}

// knownOperators are those of ISO 32000-1, annex A.
var knownOperators = strings.Fields("b B b* B* BDC BI BMC BT BX c cm CS cs d d0 d1 Do DP EI EMC ET EX f F f* G g gs h i ID j J K k l m M MP n q Q re RG rg ri s S SC sc SCN scn sh T* Tc Td TD Tf Tj TJ TL Tm Tr Ts Tw Tz v w W W* y ' \"")

// operators: the page draws with what is known, and everything that it names is
// there.
func (d *document) operators() {
	known := map[string]bool{}
	for _, name := range knownOperators {
		known[name] = true
	}
	for _, op := range d.content {
		d.want(known[op.name], pdfA+"6.2.2", "the operator %s", op.name)
		for name, kind := range map[string]string{"Tf": "Font", "Do": "XObject", "gs": "ExtGState"} {
			if op.name == name {
				key, _ := op.args[0].(string)
				d.want(d.dict(d.res[kind])[strings.TrimPrefix(key, "/")] != nil, pdfA+"6.2.2", "the page lacks the %s %s", kind, key)
			}
		}
	}
}

// colors: nothing is in the inks of print, for which there is no profile; no
// state does what printers differ in.
func (d *document) colors() {
	for _, op := range d.content {
		d.want(op.name != "k" && op.name != "K" && op.name != "cs" && op.name != "CS", pdfA+"6.2.4.3", "a colour other than of gray, or of red, green and blue")
	}
	for _, o := range d.dict(d.res["ExtGState"]) {
		state := d.dict(o)
		for _, key := range []string{"TR", "TR2", "HTP"} {
			d.want(state[key] == nil, pdfA+"6.2.5", "a state with %s", key)
		}
	}
}

// pictures: images are plain, in colours that the profile is of.
func (d *document) pictures() {
	d.every(func(o types.Object) {
		s, ok := o.(types.StreamDict)
		if !ok || d.name(s.Dict["Subtype"]) != "Image" {
			return
		}
		for _, key := range []string{"Alternates", "OPI"} {
			d.want(s.Dict[key] == nil, pdfA+"6.2.8", "an image with %s", key)
		}
		d.want(s.Dict["Interpolate"] == nil || d.object(s.Dict["Interpolate"]) == types.Boolean(false), pdfA+"6.2.8", "an image with Interpolate")
		bits := d.number(s.Dict["BitsPerComponent"])
		d.want(bits == 1 || bits == 2 || bits == 4 || bits == 8, pdfA+"6.2.8", "an image of %v bits", bits)
		space := d.name(s.Dict["ColorSpace"])
		if indexed := d.array(s.Dict["ColorSpace"]); len(indexed) == 4 {
			space = d.name(indexed[1])
		}
		d.want(space == "DeviceRGB" || space == "DeviceGray", pdfA+"6.2.4.3", "an image in %s", space)
	})
}
