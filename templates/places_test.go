package templates

import (
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// What is put together without a template reads as the template would print it,
// and what cannot be is left to the template, whose errors it has.
func TestPutAsTemplatesPrint(t *testing.T) {
	c, err := Words("en")
	if err != nil {
		t.Fatal(err)
	}
	full := map[string]any{
		"name": "3", "said": "low", "count": 4, "yes": true, "no": false, "zero": 0, "none": diag.Names(nil),
		"value": diag.Number{Value: 151.5, Decimals: 1, Unit: quantity.PSI}, "names": diag.Names{"3", "5"}, "nil": nil,
	}
	for body, without := range map[string]bool{
		"{{.name}}: {{.said}}":                           true,
		"{{.count}} of {{.value}}":                       true,
		"{{cyl .names}} and {{list .names}}":             true,
		"a{{if .yes}}, {{.said}}{{end}}b":                true,
		"{{if .no}}x{{else if .zero}}y{{else}}z{{end}}":  true,
		"{{if .none}}some{{else}}{{Cyl .names}}{{end}}.": true,
		"{{.nil}}":                                    false,
		"{{.yes}}":                                    false,
		"{{.missing}}":                                false,
		"{{if .missing}}x{{end}}":                     false,
		"{{if eq .count 4}}four{{end}}":               false,
		`{{plural .count "one" "more"}}`:              false,
		"{{range .names}}{{.}}{{end}}":                false,
		"{{cyl .name}}":                               true,
		"{{list .name}}":                              false,
		"{{if .yes}}{{.missing}}{{end}} to {{.said}}": false,
	} {
		whole := &source{name: "test", body: body}
		var of compiled
		of.compile(whole, c)
		var b strings.Builder
		if ok := len(of.parts) > 0 && c.put(&b, of.parts, full); ok != without {
			t.Errorf("%s: put together without a template is %v, want %v", body, ok, without)
		}
		said, err := c.say(text{whole}, full)
		var want strings.Builder
		if wantErr := of.template.Execute(&want, full); (err == nil) != (wantErr == nil) || err == nil && said != want.String() {
			t.Errorf("%s: says %q (%v), the template %q (%v)", body, said, err, want.String(), wantErr)
		}
	}
}
