package conform

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"regexp"
	"strings"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// predefined are the schemas of XMP that need no description (ISO 19005-3,
// 6.6.2.3).
var predefined = []string{
	"http://purl.org/dc/elements/1.1/", "http://ns.adobe.com/xap/1.0/", "http://ns.adobe.com/pdf/1.3/", "http://www.aiim.org/pdfa/ns/",
	"http://www.w3.org/1999/02/22-rdf-syntax-ns#", "adobe:ns:meta/", "http://www.w3.org/XML/1998/namespace",
}

// A packet is what an XMP packet says: each property by namespace and name, its
// text, and the containers around it.
type packet struct {
	text   map[xml.Name]string
	inside map[xml.Name]string // "Alt", "Seq", "Bag"
}

func readPacket(data []byte) (packet, error) {
	p := packet{map[xml.Name]string{}, map[xml.Name]string{}}
	dec := xml.NewDecoder(bytes.NewReader(data))
	dec.Strict = true
	var open []xml.Name
	for {
		token, err := dec.Token()
		if err == io.EOF {
			return p, nil
		}
		if err != nil {
			return p, err
		}
		switch token := token.(type) {
		case xml.StartElement:
			switch token.Name.Local {
			case "Alt", "Seq", "Bag":
				if len(open) > 0 {
					p.inside[open[len(open)-1]] = token.Name.Local
				}
			}
			open = append(open, token.Name)
			p.text[token.Name] += ""
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			for i := len(open) - 1; i >= 0; i-- {
				if !strings.Contains(open[i].Space, "rdf-syntax") && open[i].Space != "adobe:ns:meta/" {
					p.text[open[i]] += strings.TrimSpace(string(token))
					break
				}
			}
		}
	}
}

// metadata: what the document says of itself stands in it as XMP, says the same
// as the information dictionary, and claims both standards.
func (d *document) metadata() {
	dict := d.dict(d.root["Metadata"])
	d.want(d.name(dict["Type"]) == "Metadata" && d.name(dict["Subtype"]) == "XML", pdfA+"6.6.2.1", "no metadata")
	data := d.data(d.root["Metadata"])
	head, _, _ := strings.Cut(string(data), "\n")
	d.want(strings.HasPrefix(head, "<?xpacket begin=") && !strings.Contains(head, "bytes=") && !strings.Contains(head, "encoding="), pdfA+"6.6.2.1", "the packet of the metadata begins with %q", head)
	p, err := readPacket(data)
	if err != nil {
		d.want(false, pdfA+"6.6.2.1", "the metadata are no XML: %v", err)
		return
	}
	described := p.text[xml.Name{Space: "http://www.aiim.org/pdfa/ns/schema#", Local: "namespaceURI"}]
	for name := range p.text {
		known := name.Space == described
		for _, space := range predefined {
			known = known || strings.HasPrefix(name.Space, space)
		}
		d.want(known, pdfA+"6.6.2.3", "the metadata have a property of %s, which nothing describes", name.Space)
	}
	of := func(space, name string) string { return p.text[xml.Name{Space: space, Local: name}] }
	const dc, xmp, adobe = "http://purl.org/dc/elements/1.1/", "http://ns.adobe.com/xap/1.0/", "http://ns.adobe.com/pdf/1.3/"
	d.want(of("http://www.aiim.org/pdfa/ns/id/", "part") == "3" && of("http://www.aiim.org/pdfa/ns/id/", "conformance") == "A", pdfA+"6.6.4", "the document does not claim PDF/A-3a")
	d.want(of("http://www.aiim.org/pdfua/ns/id/", "part") == "1", pdfUA+"5", "the document does not claim PDF/UA-1")
	d.want(of(dc, "title") != "", pdfUA+"7.1", "no title")
	for name, container := range map[string]string{"title": "Alt", "description": "Alt", "creator": "Seq", "language": "Bag"} {
		got, given := p.inside[xml.Name{Space: dc, Local: name}]
		d.want(!given || got == container, pdfA+"6.6.2.3", "dc:%s is no rdf:%s", name, container)
	}
	d.sameTwice(map[string]string{
		"Title": of(dc, "title"), "Author": of(dc, "creator"), "Subject": of(dc, "description"), "Keywords": of(adobe, "Keywords"),
		"Creator": of(xmp, "CreatorTool"), "Producer": of(adobe, "Producer"),
		"CreationDate": pdfDate(of(xmp, "CreateDate")), "ModDate": pdfDate(of(xmp, "ModifyDate")),
	})
	d.want(of(dc, "language") == d.text(d.root["Lang"]), pdfA+"6.7.4", "the metadata are in %q, the document in %q", of(dc, "language"), d.text(d.root["Lang"]))
}

// sameTwice compares the information dictionary with the metadata.
func (d *document) sameTwice(xmp map[string]string) {
	info := types.Dict{}
	if d.ctx.Info != nil {
		info = d.dict(*d.ctx.Info)
	}
	for key, want := range xmp {
		if got := strings.TrimSpace(d.text(info[key])); got != want {
			d.want(false, pdfA+"6.6.2", "%s is %q, in the metadata %q", key, got, want)
		}
	}
	for key := range info {
		if _, said := xmp[key]; !said {
			d.want(false, pdfA+"6.6.2", "%s is not in the metadata", key)
		}
	}
}

// pdfDate is a date of XMP as PDF writes it.
func pdfDate(s string) string {
	m := regexp.MustCompile(`^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d):(\d\d)([+-]\d\d):(\d\d)$`).FindStringSubmatch(s)
	if m == nil {
		return fmt.Sprintf("not a date with its zone: %q", s)
	}
	return "D:" + strings.Join(m[1:7], "") + m[7] + "'" + m[8] + "'"
}
