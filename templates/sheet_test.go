package templates

import (
	"slices"
	"strings"
	"testing"
)

// plain is a template with nothing wrong in it.
const plain = `sheet: mine
audience: customer
title: sheet.customer
type: {display: 14, title: 15, heading: 10.5, strong: 9.5, body: 9.2, label: 8, note: 7.5, smallest: 7.5, least-scale: 0.95}
rows:
  - [head]
  - {above: 6, blocks: [verdict]}
  - above: 9
    columns:
      - {share: 45, blocks: [engine]}
      - {share: 55, blocks: [spread]}
    flows: [foot]
gives-way:
  - {block: spread, to: compact}
  - {block: engine, to: brief, with: spread}
`

var someBlocks = []string{"engine", "foot", "head", "spread", "verdict"}

func TestProblemsOfATemplate(t *testing.T) {
	if _, problems := ReadSheet([]byte(plain), someBlocks); len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, c := range []struct{ name, was, is, want, hint string }{
		{"an unknown block", "[head]", "[head, heads]", `6:12: unknown block "heads"`, `did you mean "head"?`},
		{"a block in a step", "block: spread", "block: spred", `14:13: unknown block "spred"`, `did you mean "spread"?`},
		{"a block that takes over", "with: spread", "with: fuel", `15:38: unknown block "fuel"`, ""},
		{"twice in one row", "blocks: [spread]", "blocks: [engine]", `11:30: the block "engine" is placed twice, first in line 10`, ""},
		{"twice in two rows", "[verdict]", "[head]", `7:25: the block "head" is placed twice, first in line 6`, ""},
		{"a list for a name", "[verdict]", "[[verdict]]", "7:25: expected the name of a block, found a list", ""},
		{"an unknown audience", "audience: customer", "audience: custmer", `2:11: unknown audience "custmer"`, `did you mean "customer"?`},
		{"no audience", "audience: customer\n", "", `1:1: the key "audience" is missing`, ""},
		{"an unknown key", "title:", "titel:", `3:1: unknown key "titel"`, `did you mean "title"?`},
		{"no size", "body: 9.2, ", "", "1:1: under type, a size is missing for: body", ""},
		{"no number", "display: 14", "display: .nan", `4:17: expected a number from 6 to 36, found ".nan"`, ""},
		{"too large", "share: 45", "share: 1e9", `10:17: expected a number from 1 to 100, found "1e9"`, ""},
		{"an unknown level", "to: compact", "to: less", `14:25: unknown level of detail "less"`, ""},
		{"a step without its level", ", to: compact", "", `14:5: the key "to" is missing`, ""},
		{"no blocks at all", plain[strings.Index(plain, "rows:"):], "rows: [[], []]\n", "1:1: expected rows with blocks, found none", ""},
		{"no YAML", "rows:", "rows: [", "5:1: not readable as YAML: ", ""},
		{"nothing", plain, "", "1:1: expected a template, found an empty file", ""},
		{"an unknown field", "audience: customer", "audience: customer\nfields: [reason, sellr]", `3:18: unknown field "sellr"`, `did you mean "seller"?`},
		{"a field twice", "audience: customer", "audience: customer\nfields: [reason, reason]", `3:18: the field "reason" is listed twice`, ""},
		{"who signs", "audience: customer", "audience: customer\nsignatures: tested-by", `3:13: expected a list of words, found "tested-by"`, ""},
		{"a number of nothing", "audience: customer", "audience: customer\nnumber: bill", `3:9: unknown number "bill"`, ""},
		{"an unknown occasion", "audience: customer", "audience: customer\noccasion: sale", `3:11: unknown occasion "sale"`, ""},
		{"neither true nor false", "audience: customer", "audience: customer\nrecord: maybe", `3:9: expected true or false, found "maybe"`, ""},
		{"too long", plain, plain + strings.Repeat("# more\n", 5000), "1:1: the template has 35", ""},
		{"too many steps", "gives-way:\n", "gives-way:\n" + strings.Repeat("  - {block: engine, to: brief}\n", 300), "14:3: the page gives way in 302 steps, the limit is 200", ""},
		{"an alias", "[head]", "&a [head]\n  - *a", "7:5: expected keys and values, found an alias", ""},
	} {
		if !strings.Contains(plain, c.was) {
			t.Fatalf("%s: the template has no %q", c.name, c.was)
		}
		_, problems := ReadSheet([]byte(strings.Replace(plain, c.was, c.is, 1)), someBlocks)
		at := slices.IndexFunc(problems, func(p Problem) bool { return strings.HasPrefix(p.String(), c.want) })
		if at < 0 {
			t.Errorf("%s: problems %v, want %q", c.name, problems, c.want)
			continue
		}
		if c.hint != "" && problems[at].Hint != c.hint {
			t.Errorf("%s: hint %q, want %q", c.name, problems[at].Hint, c.hint)
		}
	}
}

func TestWhatBlocksSayOnASheet(t *testing.T) {
	usual, _ := ReadSheet([]byte(plain), someBlocks)
	if !usual.Has("reason") || usual.Has("seller") || !slices.Equal(usual.Signatures, []string{"tested-by"}) || usual.Record || usual.Terms || usual.ByInvoice {
		t.Errorf("a sheet that says nothing of it: %+v", usual)
	}
	own, problems := ReadSheet([]byte(plain+"fields: [seller]\nsignatures: []\nnumber: invoice\noccasion: purchase\nsuspects: 1\nrecord: true\nterms: true\n"), someBlocks)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if own.Has("reason") || !own.Has("seller") || len(own.Signatures) > 0 || !own.ByInvoice || own.Occasion != "purchase" || own.Suspects != 1 || !own.Record || !own.Terms {
		t.Errorf("%+v", own)
	}
}

// Whatever a template holds, reading it ends, with a sheet or with problems
// that have a place.
func FuzzReadSheet(f *testing.F) {
	f.Add([]byte(plain))
	for _, kind := range Kinds() {
		data, err := files.ReadFile("sheets/" + kind + ".yaml")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		sheet, problems := ReadSheet(data, someBlocks)
		if (sheet == nil) == (len(problems) == 0) {
			t.Fatalf("sheet %v with problems %v", sheet, problems)
		}
		for _, p := range problems {
			if p.Line < 1 || p.Column < 1 || p.Message == "" {
				t.Errorf("a problem without its place: %+v", p)
			}
		}
		if sheet == nil {
			return
		}
		for _, row := range sheet.Rows {
			for _, name := range row.Blocks() {
				if !slices.Contains(someBlocks, name) {
					t.Errorf("the block %q was let in", name)
				}
			}
		}
	})
}
