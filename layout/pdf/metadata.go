package pdf

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf16"
)

// What a document says of itself stands in it twice, in the words of PDF (the
// information dictionary, ISO 32000-1, 14.3.3) and as XMP (ISO 16684-1), which
// archives read: both are made from one list here and say the same.

// A fact is one thing that the document says of itself.
type fact struct {
	key   string // in the information dictionary
	form  string // in XMP; %s stands for the value
	value string
}

func (o Options) facts() []fact {
	const list = "<rdf:%[1]s><rdf:li%[2]s>%%s</rdf:li></rdf:%[1]s>"
	inLanguage := fmt.Sprintf(list, "Alt", ` xml:lang="x-default"`)
	all := []fact{
		{"Title", "<dc:title>" + inLanguage + "</dc:title>", o.Title},
		{"Author", "<dc:creator>" + fmt.Sprintf(list, "Seq", "") + "</dc:creator>", o.Author},
		{"Subject", "<dc:description>" + inLanguage + "</dc:description>", o.Subject},
		{"Keywords", "<pdf:Keywords>%s</pdf:Keywords>", o.Keywords},
		{"Creator", "<xmp:CreatorTool>%s</xmp:CreatorTool>", o.Creator},
		{"Producer", "<pdf:Producer>%s</pdf:Producer>", o.Creator},
	}
	said := all[:0]
	for _, f := range all {
		if f.value = plainLine(f.value); f.value != "" {
			said = append(said, f)
		}
	}
	return said
}

// info writes the information dictionary.
func (t *tail) info() int {
	n := t.object()
	t.WriteString("<<")
	for _, f := range t.opt.facts() {
		fmt.Fprintf(t, "/%s %s\n", f.key, text(f.value))
	}
	date := date(t.opt.Created)
	fmt.Fprintf(t, "/CreationDate %s /ModDate %s>>\nendobj\n", date, date)
	return n
}

// date is a moment as PDF has it, with its zone (ISO 32000-1, 7.9.4).
func date(at time.Time) string { return "(D:" + at.UTC().Format("20060102150405") + "+00'00')" }

// claims are the standards that a document keeps to: PDF/A-3 at its highest
// level, with all text in Unicode and all parts tagged (ISO 19005-3, 6.6.4), and
// PDF/UA-1 (ISO 14289-1, 5). The latter's property is none that PDF/A knows, so
// it is described (ISO 19005-3, 6.6.2.3).
const claims = `<pdfaid:part>3</pdfaid:part><pdfaid:conformance>A</pdfaid:conformance><pdfuaid:part>1</pdfuaid:part>
<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
<pdfaSchema:schema>PDF/UA</pdfaSchema:schema><pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI><pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource"><pdfaProperty:name>part</pdfaProperty:name><pdfaProperty:valueType>Integer</pdfaProperty:valueType>` +
	`<pdfaProperty:category>internal</pdfaProperty:category><pdfaProperty:description>Part of ISO 14289</pdfaProperty:description></rdf:li></rdf:Seq></pdfaSchema:property>
</rdf:li></rdf:Bag></pdfaExtension:schemas>
`

// namespaces are those of the properties.
const namespaces = `xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:xmp="http://ns.adobe.com/xap/1.0/"
xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/" xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"
xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#" xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#"`

// metadata writes the same as XMP, with the standards that the document
// claims to keep to (ISO 19005-3, 6.6). It is packed like all else: PDF/A-1 alone
// forbade that (ISO 19005-1, 6.7.2; from memory), and it would be a third of what
// a sheet grows by for archives.
func (t *tail) metadata() (int, error) {
	var b strings.Builder
	b.WriteString("<?xpacket begin=\"\ufeff\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n" +
		`<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">` + "\n" +
		`<rdf:Description rdf:about="" ` + namespaces + ">\n" + claims)
	for _, f := range t.opt.facts() {
		fmt.Fprintf(&b, f.form+"\n", escaped.Replace(f.value))
	}
	if t.opt.Lang != "" {
		fmt.Fprintf(&b, "<dc:language><rdf:Bag><rdf:li>%s</rdf:li></rdf:Bag></dc:language>\n", escaped.Replace(t.opt.Lang))
	}
	at := t.opt.Created.UTC().Format("2006-01-02T15:04:05+00:00")
	fmt.Fprintf(&b, "<xmp:CreateDate>%s</xmp:CreateDate><xmp:ModifyDate>%s</xmp:ModifyDate>\n", at, at)
	b.WriteString("</rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>")

	return t.data("/Type /Metadata /Subtype /XML", []byte(b.String()))
}

var escaped = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

// plainLine is a text as both can say it: XML has no control characters.
func plainLine(s string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if r < ' ' || r >= 0x7f && r < 0xa0 || r == 0xfffe || r == 0xffff {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd")))
}

// text is a text string: as it is where it has Latin letters only, which
// PDF's own encoding has in the usual places (ISO 32000-1, D.3), else UTF-16 in
// hexadecimal digits.
func text(s string) string { return textWith(s, nil) }

// docMarks are marks that the encoding has in places of its own.
var docMarks = map[rune]byte{'…': 0x83, '—': 0x84, '–': 0x85, '−': 0x8a, '“': 0x8d, '”': 0x8e, '‘': 0x8f, '’': 0x90}

func textWith(s string, marks map[rune]byte) string {
	var b strings.Builder
	b.WriteByte('(')
	for _, r := range s {
		switch {
		case r == '\\' || r == '(' || r == ')':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r >= ' ' && r <= '~':
			b.WriteRune(r)
		case r > 0xa0 && r <= 0xff && r != 0xad:
			fmt.Fprintf(&b, `\%03o`, r)
		case marks[r] != 0:
			fmt.Fprintf(&b, `\%03o`, marks[r])
		default:
			return wideText(s)
		}
	}
	return b.String() + ")"
}

func wideText(s string) string {
	var b strings.Builder
	b.WriteString("<feff")
	for _, u := range utf16.Encode([]rune(s)) {
		fmt.Fprintf(&b, "%04x", u)
	}
	return b.String() + ">"
}
