package archive

import (
	"bytes"
	"compress/zlib"
	"encoding/ascii85"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"gaugesheet/report/archive/pdffile"
)

// operators are pieces of contents.
var operators = []string{"q", "Q", "1 g", "0 G", "1 1 1 rg", "0 0 0 RG", "0 0 0 1 k", "W n", "W* n", "BT", "ET", "5 Tc", "20 Tw", "50 Tz", "3 Ts", "3 Tr", "0 Tr", "0 Tc", "0 Tw", "100 Tz", "1 0 0 1 9 9 cm", "2 0 0 .5 0 0 cm", "1 0 0 1 0 0 cm", "0 0 0 0 0 0 cm",
	"0 0 600 700 re f", "0 0 600 700 re W n", "9 w", "0 w", "9 M", "1 J", "2 j", "h", "n", "S", "s", "f", "F", "f*", "B", "b*", "0 0 m", "0 0 l", "1 2 3 4 v", "[9 9] 0 d", "[] 0 d", "[0] 0 d", "/OC /X BDC", "/Artifact BMC", "/Span <</ActualText (x)>> BDC", "/P <</MCID 0>> BDC", "EMC",
	"BI", "BI /W 1 /H 1 /CS /G /BPC 8 ID \xff EI", "% ", "() Tj", "[] TJ", "[-5000] TJ", "1 0 0 1 5 5 Tm", "9 TL", "T*", "0 0 Td", "5 5 TD", "() '", "0 0 () \"", "/X Do", "/X gs", "/X sh", "5 i", "/X cs", "/DeviceGray cs", "/DeviceRGB CS", "0 sc", "0 scn", "/Pattern cs", "/RelativeColorimetric ri", "BX", "EX", "/X MP", "/X <<>> DP", "d0", "xyz", "BX xyz EX", "1 2 3 rg", "null g", "true g"}

// operations changes a content: a line is put in, taken out, done twice or moved, or
// one of its operators becomes another.
func (m *mutation) operations(p place) {
	s := p.data
	if s == nil || !bytes.Contains(s.Raw, []byte(" Tj")) {
		m.bytesOf(p)
		return
	}
	lines := bytes.Split(s.Raw, []byte("\n"))
	at := m.IntN(len(lines))
	switch how := m.IntN(6); how {
	case 0, 1, 2:
		lines = moved(m, lines, at, how)
	case 3:
		words := bytes.Fields(lines[at])
		if len(words) > 0 {
			words[len(words)-1] = []byte(m.pick(operators))
			lines[at] = bytes.Join(words, []byte(" "))
		}
	default:
		lines = slices.Insert(lines, at, []byte(m.pick(operators)))
	}
	s.Raw = bytes.Join(lines, []byte("\n"))
}

var aFigure = regexp.MustCompile(`(?:^|[ \n])-?[0-9]+(?:\.[0-9]+)?[ \n]`)

// figures changes a number among data, or writes it otherwise.
func (m *mutation) figures(p place) {
	if p.data == nil {
		m.figure(p)
		return
	}
	all := aFigure.FindAllIndex(p.data.Raw, -1)
	if all == nil {
		m.bytesOf(p)
		return
	}
	at := all[m.IntN(len(all))]
	was := strings.TrimSpace(string(p.data.Raw[at[0]:at[1]]))
	is := m.pick([]string{"+" + was, "0" + was, was + ".", was + "0", was + "1", "-" + was, "--" + was, was + "e1", was + "-", was + ".0", was + "%\n", was + "\x00", "\f" + was, was + " " + was, "null", "(" + was + ")", "1000000", "0.00001", was + "00000000000000000000", "16#" + was, "." + was, was + "\x1a"})
	p.data.Raw = slices.Concat(p.data.Raw[:at[0]+1], []byte(is+" "), p.data.Raw[at[1]:])
}

// signs changes what stands between the words of data, or how strings are written.
func (m *mutation) signs(p place) {
	if p.data == nil {
		m.otherwise(p)
		return
	}
	changes := [][2]string{{" ", "\x00"}, {" ", "\f"}, {" ", "\v"}, {" ", "\xa0"}, {" ", "%x\n"}, {" ", "%x\r"}, {" ", "  "}, {"\n", "\r"}, {"\n", ""}, {" ", ""}, {"<", "< "}, {">", "0>"}, {">", ">>"}, {"<00", "<0"}, {"<", "<g"}, {"/", "//"},
		{"<0", "<\x000"}, {"MCID", "M#43ID"}, {"BDC", "BDC "}, {"EMC", "EMC EMC"}, {" Tj", "Tj"}, {"<<", "<</X 1 "}, {">>", "/MCID 99>>"}, {"P <<", "P[<<"}, {"Tj", "' "}, {"<00", "(\\0)<00"}, {">\n Tj", "0>\n Tj"}, {"ET", "ET ET"}, {"BT", "BT BT"}, {"beginbfchar", "beginbfrange"}, {"endcmap", "/X usecmap endcmap"}, {"<0", "<1"}}
	change := changes[m.IntN(len(changes))]
	var all []int
	for i := range p.data.Raw {
		if bytes.HasPrefix(p.data.Raw[i:], []byte(change[0])) {
			all = append(all, i)
		}
	}
	if all == nil {
		m.bytesOf(p)
		return
	}
	at := all[m.IntN(len(all))]
	p.data.Raw = slices.Concat(p.data.Raw[:at], []byte(change[1]), p.data.Raw[at+len(change[0]):])
}

// packing packs data in another way, right or wrong.
func (m *mutation) packing(p place) {
	s := p.data
	if s == nil {
		all := m.places["/Root/Pages/Kids/*/Contents/data"]
		if len(all) == 0 {
			return
		}
		s = all[0].data
	}
	flat, _ := deflated(s.Raw)
	letters := make([]byte, ascii85.MaxEncodedLen(len(s.Raw)))
	letters = letters[:ascii85.Encode(letters, s.Raw)]
	stored := &bytes.Buffer{}
	z, _ := zlib.NewWriterLevel(stored, zlib.NoCompression)
	z.Write(s.Raw)
	z.Close()
	ways := []struct {
		data   []byte
		filter string
	}{
		{flat, "/FlateDecode"}, {flat, "[/FlateDecode]"}, {flat, "/Fl"}, {append(bytes.Clone(flat), "and more"...), "/FlateDecode"}, {flat[:len(flat)-4], "/FlateDecode"}, {flat[:len(flat)/2], "/FlateDecode"}, {stored.Bytes(), "/FlateDecode"},
		{slices.Concat(flat, flat), "/FlateDecode"}, {append([]byte("\n"), flat...), "/FlateDecode"}, {flat[2:], "/FlateDecode"}, {slices.Concat(flat[:len(flat)-4], []byte("abcd")), "/FlateDecode"}, {append([]byte{0x48}, flat[1:]...), "/FlateDecode"},
		{append(letters, "~>"...), "/ASCII85Decode"}, {letters, "/ASCII85Decode"}, {append([]byte("<~"), append(letters, "~>"...)...), "/ASCII85Decode"}, {append(letters, "~>x"...), "/A85"},
		{fmt.Appendf(nil, "%x>", s.Raw), "/ASCIIHexDecode"}, {fmt.Appendf(nil, "%x", s.Raw), "/ASCIIHexDecode"}, {fmt.Appendf(nil, "% X >", s.Raw), "[/ASCIIHexDecode]"}, {fmt.Appendf(nil, "%x>00", s.Raw), "/AHx"},
		{s.Raw, "/Crypt"}, {s.Raw, "[]"}, {s.Raw, "[/Crypt]"}, {s.Raw, "null"}, {s.Raw, "[null]"}, {s.Raw, "9999 0 R"}, {flat, "[/FlateDecode /FlateDecode]"}, {flat, "[/FlateDecode null]"}, {flat, "/FlateDecode /DecodeParms <<>>"}, {flat, "/FlateDecode /DecodeParms null"},
		{flat, "/FlateDecode /DecodeParms <</Predictor 1>>"}, {flat, "/FlateDecode /DecodeParms [null]"}, {flat, "[/FlateDecode] /DecodeParms [<</Predictor 1 /Colors 3>>]"}, {flat, "/FlateDecode /DecodeParms <</Predictor 12>>"}, {flat, "/FlateDecode /DP <</Predictor 12>>"}, {flat, "/FlateDecode /F (x)"}, {flat, "/FlateDecode /FFilter /LZWDecode"},
		{flat, "/FlateDecode /DL 5"}, {flat, "/FlateDecode /DecodeParms <</EarlyChange 0>>"}, {flat, "/FlateDecode /DecodeParms 5"}, {flat, "/FlateDecode /Type /X"}, {flat, "/FlateDecode /Length1 9"},
	}
	way := ways[m.IntN(len(ways))]
	s.Raw, s.Dict["Filter"] = way.data, raw(way.filter)
	if m.IntN(6) == 0 {
		s.Dict["Filter"] = raw(way.filter + " /Length " + m.pick([]string{"0", "99999", "1.0", "-1", "null", "(9)"}) + " /L")
	}
}

// written changes how the file is written, without moving what is in it.
func (m *mutation) written(place) {
	changes := [][2]string{{"\n", " "}, {"\n", "\r"}, {"\n", "\x00"}, {"\n", "\f"}, {" ", "\t"}, {" ", "\x00"}, {"endobj", "endobk"}, {"endobj", "      "}, {" 0 obj", " 1 obj"}, {"0 obj\n", "0 obj "}, {"stream\n", "stream "}, {"stream\n", "stream\r"}, {"endstream", "         "},
		{"00000 n", "00001 n"}, {"00000 n", "00000 f"}, {"65535 f", "00000 f"}, {"65535 f", "00000 n"}, {"/Length", "/length"}, {"%PDF-1.7", "%PDF-1.0"}, {"%PDF-1.7", "%PDF-9.9"}, {"%PDF-1.7", "%PDF- 17"}, {"%PDF-1.7\n", "%PDF-1.7%"}, {"\xe2\xe3", "%%"},
		{"startxref\n", "startxref "}, {"%%EOF", "%EOF%"}, {"%%EOF", "     "}, {"trailer\n", "trailer "}, {"xref\n0 ", "xref\n1 "}, {"xref\n0 ", "xref 0 "}, {"/Size ", "/Size 9"}, {"/Size ", "/Siz  "}, {"0 R\n", "1 R\n"}, {"/Type", "/type"}, {">>\n", ">> "}, {" 0 R", " 00R"}}
	change := changes[m.IntN(len(changes))]
	which := m.IntN(1000)
	m.did = append(m.did, fmt.Sprintf("%q for %q", change[1], change[0]))
	m.file = append(m.file, func(data []byte) []byte {
		count := bytes.Count(data, []byte(change[0]))
		if count == 0 {
			return data
		}
		at := 0
		for range which % count {
			at += bytes.Index(data[at:], []byte(change[0])) + 1
		}
		at += bytes.Index(data[at:], []byte(change[0]))
		return slices.Concat(data[:at], []byte(change[1]), data[at+len(change[0]):])
	})
	if m.IntN(4) == 0 {
		m.d.trailer[pdffile.Name(m.pick(words))] = m.value()
	}
}

// aByte changes one byte of the file, at random: without its data being packed, of
// anything.
func (m *mutation) aByte(place) {
	const signs = "0123456789  //<>[]()%#\n\r\x00RfnQqmlTdj.-+x"
	at, sign := m.Uint64(), signs[m.IntN(len(signs))]
	m.d.pack = nil
	m.file = append(m.file, func(data []byte) []byte {
		data[at%uint64(len(data))] = sign
		return data
	})
}
