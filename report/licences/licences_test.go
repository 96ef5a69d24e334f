package licences_test

import (
	"os/exec"
	"slices"
	"strings"
	"testing"

	"gaugesheet/report/licences"
)

func TestEveryLicenceIsThere(t *testing.T) {
	for _, l := range licences.All() {
		if len(l.Text) < 400 || !strings.Contains(strings.ToLower(l.Text), "copyright") {
			t.Errorf("%s: its text is no licence: %.80q", l.Part, l.Text)
		}
	}
}

// What is linked is asked of the go command, which reads the module cache.
func TestEveryLinkedModuleHasItsLicence(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "-f", "{{if .Module}}{{.Module.Path}}{{end}}", "gaugesheet/cmd/gaugesheet").Output()
	if err != nil {
		t.Skipf("the go command is not at hand: %v", err)
	}
	var known []string
	for _, l := range licences.All() {
		known = append(known, l.Part)
	}
	for _, module := range strings.Fields(string(out)) {
		if module != "gaugesheet" && !slices.Contains(known, module) {
			t.Errorf("%s is linked and has no licence here", module)
		}
	}
}
