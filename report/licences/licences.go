// Package licences holds the licences of what the program is built from: its
// own, the type that it embeds, and the libraries that it links; it knows nothing
// of what these do.
package licences

import (
	"embed"
	"strings"

	"gaugesheet/layout/face"
)

//go:embed texts/*.txt
var texts embed.FS

// A Licence is one part's licence.
type Licence struct {
	Part string // what it is the licence of
	Text string
}

// parts are the linked modules by import path, each with its file.
var parts = []struct{ part, file string }{
	{"Go standard library and runtime", "go.txt"},
	{"github.com/go-pdf/fpdf", "fpdf.txt"},
	{"github.com/golang/freetype", "freetype.txt"},
	{"github.com/spf13/cobra", "cobra.txt"},
	{"github.com/spf13/pflag", "pflag.txt"},
	{"github.com/wcharczuk/go-chart/v2", "go-chart.txt"},
	{"golang.org/x/crypto", "x.txt"},
	{"golang.org/x/image", "x.txt"},
	{"golang.org/x/sys", "x.txt"},
	{"golang.org/x/term", "x.txt"},
	{"golang.org/x/text", "x.txt"},
	{"golang.org/x/text", "x.txt"},
	{"gopkg.in/yaml.v3", "yaml.txt"},
}

// All are the licences, the embedded type first.
func All() []Licence {
	all := []Licence{{"Liberation Sans, cut down and renamed", face.Licence}}
	for _, p := range parts {
		data, err := texts.ReadFile("texts/" + p.file)
		if err != nil { // a test reads every one
			data = []byte(err.Error())
		}
		all = append(all, Licence{p.part, strings.TrimSpace(string(data)) + "\n"})
	}
	return all
}
