package sheet_test

import (
	"bytes"
	"compress/zlib"
	"io"
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gaugesheet/diag/story"
	"gaugesheet/report/sheet"
)

// mostGrowth is how many bytes a sheet may have more because it is made to last
// and to be heard (PDF/A-3a, PDF/UA-1), over a file with the same drawing, type and
// attachments whose objects stand by themselves, with nothing tagged.
const mostGrowth = 6000

func TestGrowth(t *testing.T) {
	kinds := slices.Sorted(maps.Keys(smallestType))
	for i, path := range examples(t) {
		j := readExample(t, path)
		for n, kind := range kinds {
			if testing.Short() && n != i%len(kinds) {
				continue
			}
			s, err := sheet.New(j, story.Diagnose(j.Test()), sheet.Options{Kind: kind, Version: "test"})
			if err != nil {
				t.Fatal(err)
			}
			file, err := s.PDF()
			if err != nil {
				t.Fatal(err)
			}
			grown := len(file) - len(untagged(t, file))
			if grown > mostGrowth || grown < 1000 {
				t.Errorf("%s, %s: grows by %d bytes to %d, at most %d are wanted", filepath.Base(path), kind, grown, len(file), mostGrowth)
			}
		}
	}
}

var (
	packedPlaces = regexp.MustCompile(`/First (\d+)`)
	stretchMarks = regexp.MustCompile(`\n(?:/\w+ (?:<</MCID \d+>>BDC|BMC)|EMC)`)
	ofArchives   = regexp.MustCompile(`/(?:Metadata|StructTreeRoot) \d+ 0 R\n?|/MarkInfo <<[^>]*>>|/OutputIntents \[[^\]]*\]`)
)

// untagged is about what a sheet's file would be as the PDF library alone ends
// files: what is drawn without marks, other objects one by one with their list, and
// neither tags nor metadata nor the meaning of colours.
func untagged(t *testing.T, file []byte) []byte {
	t.Helper()
	var out bytes.Buffer
	objects := 0
	put := func(object []byte) {
		objects++
		out.WriteString("\n" + strconv.Itoa(objects) + " 0 obj\n")
		out.Write(object)
		out.WriteString("\nendobj")
	}
	for rest := file; ; {
		at := bytes.Index(rest, []byte(" 0 obj\n"))
		if at < 0 {
			break
		}
		rest = rest[at+len(" 0 obj\n"):]
		end := bytes.Index(rest, []byte("\nendobj"))
		head, _, isStream := bytes.Cut(rest[:end], []byte(">>\nstream\n"))
		if !isStream {
			put(ofArchives.ReplaceAll(rest[:end], nil))
			continue
		}
		length, err := strconv.Atoi(regexp.MustCompile(`/Length (\d+)$`).FindStringSubmatch(string(head))[1])
		if err != nil {
			t.Fatal(err)
		}
		data := rest[len(head)+len(">>\nstream\n"):][:length]
		rest = rest[len(head)+len(">>\nstream\n")+length:]
		switch {
		case bytes.Contains(head, []byte("/XRef")), bytes.Contains(head, []byte("/XML")), bytes.Contains(head, []byte("/N 3 ")):
		case bytes.Contains(head, []byte("/ObjStm")):
			first, _ := strconv.Atoi(packedPlaces.FindStringSubmatch(string(head))[1])
			for object := range strings.SplitSeq(string(inflated(t, data)[first:]), "\n<<") {
				if !strings.HasPrefix(object, "/S/") && !strings.HasPrefix(object, "/Type/StructTreeRoot") {
					put([]byte("<<" + strings.TrimPrefix(object, "<<")))
				}
			}
		case bytes.HasPrefix(head, []byte("<</Filter /FlateDecode /Length")):
			put(append(append(bytes.Clone(head), ">>\nstream\n"...), deflated(stretchMarks.ReplaceAll(inflated(t, data), nil))...))
			out.WriteString("\nendstream")
		default:
			put(append(append(bytes.Clone(head), ">>\nstream\n"...), data...))
			out.WriteString("\nendstream")
		}
	}
	out.WriteString(strings.Repeat("0000000000 00000 n \n", objects+1) + "trailer\n<<>>\nstartxref\n00000\n%%EOF\n")
	return out.Bytes()
}

func inflated(t *testing.T, data []byte) []byte {
	t.Helper()
	z, err := zlib.NewReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	all, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// deflated packs as hard as sheets are packed.
func deflated(data []byte) []byte {
	var b bytes.Buffer
	z, _ := zlib.NewWriterLevel(&b, 4)
	z.Write(data)
	z.Close()
	return b.Bytes()
}
