package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A watched job is drawn again when it, its shop profile or an earlier job
// changes, once for each change, and what that did to the verdict is said.
func TestWatch(t *testing.T) {
	dir := t.TempDir()
	var out, complaints bytes.Buffer
	c := &Command{Stdout: &out, Stderr: &complaints, Now: testDay, Version: "v1.2.3"}
	write := func(name, text string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	job := func(third string) string {
		return "shop: shop.yaml\nearlier: [before.yaml]\nengine: {layout: inline-4, fuel: petrol}\ncompression: {unit: psi, dry: [150, 149, " + third + ", 151]}\n"
	}
	write("job.yaml", job("148"))
	write("shop.yaml", "name: Harrow Mills Engine Works\n")
	write("before.yaml", "engine: {layout: inline-4, fuel: petrol}\njob: {date: 2025-01-02}\ncompression: {unit: psi, dry: [151, 150, 149, 152]}\n")

	w := &watcher{command: c, args: []string{dir}, known: map[string]*watched{}, drawing: drawing{opened: &opened{files: map[string][]string{}}}}
	w.drawing.options.Version = c.Version
	drawn := func(after string) string {
		t.Helper()
		out.Reset()
		complaints.Reset()
		w.look() // a change is seen
		if out.Len() > 0 {
			t.Errorf("%s: drawn before it was seen to be whole: %s", after, &out)
		}
		w.look()
		said := out.String() + complaints.String()
		out.Reset()
		complaints.Reset()
		w.look()
		if out.Len()+complaints.Len() > 0 {
			t.Errorf("%s: drawn again without a change: %s", after, &out)
		}
		return said
	}
	want := func(after, said string, parts ...string) {
		t.Helper()
		for _, part := range parts {
			if !strings.Contains(said, part) {
				t.Errorf("%s: '%s' is not in\n%s", after, part, said)
			}
		}
	}
	first := drawn("start")
	want("start", first, "job.pdf", "urgency: no action")

	write("job.yaml", job("80"))
	want("a low cylinder", drawn("a low cylinder"), "verdict: Cylinder 3 low", "it was: ", "new: ", "act soon")

	write("shop.yaml", "name: Harrow Mills Engine Works, new name\n")
	want("the profile", drawn("the profile"), "job.pdf", "the verdict is as before")

	write("before.yaml", "engine: {layout: inline-4, fuel: petrol}\njob: {date: 2025-01-02}\ncompression: {unit: psi, dry: [151, 150, 81, 152]}\n")
	want("an earlier job", drawn("an earlier job"), "job.pdf", "gone: ")

	write("job.yaml", job("8O"))
	want("a slip", drawn("a slip"), "job.yaml:4:", "'8O'")

	write("job.yaml", job("147"))
	want("mended", drawn("mended"), "job.pdf", "verdict: ")

	if err := os.Remove(filepath.Join(dir, "shop.yaml")); err != nil {
		t.Fatal(err)
	}
	want("no profile", drawn("no profile"), "file 'shop.yaml' was not found")
	write("shop.yaml", "name: Harrow Mills Engine Works\n")
	want("the profile again", drawn("the profile again"), "job.pdf", "as before")

	write("second.yaml", strings.Replace(job("146"), "earlier: [before.yaml]\n", "", 1))
	want("a further job", drawn("a further job"), "second.pdf")
}
