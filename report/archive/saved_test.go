package archive

import (
	"bytes"
	"image"
	"image/jpeg"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"

	"gaugesheet/report/sheet"
)

// What people do with a PDF, by the programs that are installed: IN is the
// sheet, OTHER another one, OUT what comes of it. Files that such programs
// saved stand in shown/testdata for those that are not.
var programs = []struct {
	command string
	want    Outcome
	says    string
}{
	{"qpdf IN OUT", Same, ``},
	{"qpdf --linearize IN OUT", Same, ``},
	{"qpdf --object-streams=generate IN OUT", Same, ``},
	{"qpdf --object-streams=disable IN OUT", Same, ``},
	{"qpdf --qdf IN OUT", Same, ``},
	{"qpdf --stream-data=uncompress IN OUT", Same, ``},
	{"qpdf --recompress-flate --compression-level=9 IN OUT", Same, ``},
	{"qpdf --coalesce-contents IN OUT", Same, ``},
	{"qpdf --encrypt - secret 256 -- IN OUT", Same, ``},
	{"qpdf --encrypt - secret 128 --use-aes=y -- IN OUT", Same, ``},
	{"qpdf --allow-weak-crypto --encrypt - secret 40 -- IN OUT", Same, ``},
	{"qpdf --allow-weak-crypto --encrypt - secret 128 --use-aes=n -- IN OUT", Same, ``},
	{"qpdf --allow-weak-crypto --encrypt - secret 128 --force-V4 --use-aes=n -- IN OUT", Same, ``},
	{"qpdf --allow-weak-crypto --encrypt - secret 256 --force-R5 -- IN OUT", Unvouched, `/Encrypt`},
	{"qpdf --encrypt - secret 128 --use-aes=y --cleartext-metadata -- IN OUT", Unvouched, `/Encrypt`},
	{"qpdf --encrypt asked secret 256 -- IN OUT", refused, `encrypted`},
	{"qpdf --rotate=+90 IN OUT", Different, `the page is turned`},
	{"qpdf --remove-attachment=0000 IN OUT", refused, `.`},
	{"qpdf IN --pages IN OTHER -- OUT", Unvouched, `another page stands beside it`},
	{"qpdf IN --pages OTHER IN -- OUT", Unvouched, `another page stands beside it`},
	{"qpdf --empty --pages IN OTHER -- OUT", refused, `took out what it carried`},
	{"qpdf IN --overlay OTHER -- OUT", Different, `.`},
	{"mutool clean IN OUT", Same, ``},
	{"mutool clean -g IN OUT", Same, ``},
	{"mutool clean -gggg IN OUT", Same, ``},
	{"mutool clean -d IN OUT", Same, ``},
	{"mutool clean -z IN OUT", Same, ``},
	{"mutool clean -l IN OUT", Same, ``},
	{"mutool clean -a IN OUT", Same, ``},
	{"mutool clean -s IN OUT", Same, ``},
	{"mutool clean -sgggzif IN OUT", Same, ``},
	{"mutool merge -o OUT IN OTHER", refused, `took out what it carried`},
	{"gs -q -sDEVICE=pdfwrite -o OUT IN", Unvouched, `written anew by 'GPL Ghostscript`},
	{"gs -q -sDEVICE=pdfwrite -dPDFSETTINGS=/prepress -o OUT IN", Unvouched, `written anew by 'GPL Ghostscript`},
	{"gs -q -sDEVICE=pdfimage24 -r72 -o OUT IN", refused, `.`},
	{"pdfunite IN OTHER OUT", Unvouched, `another page stands beside it`},
	{"pdfunite IN IN OUT", Different, `a second page of the same sheet`},
	{"pdftocairo -pdf IN OUT", refused, `took out what it carried`},
}

func TestSavedByPrograms(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	dir := t.TempDir()
	files := map[string]string{"IN": filepath.Join(dir, "in.pdf"), "OTHER": filepath.Join(dir, "other.pdf"), "OUT": filepath.Join(dir, "out.pdf")}
	for name, text := range map[string]string{"IN": fourCylinders, "OTHER": strings.Replace(fourCylinders, "138", "141", 1)} {
		if err := os.WriteFile(files[name], draw(t, text, sheet.Options{}), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	ran, right := 0, 0
	for _, p := range programs {
		words := strings.Fields(p.command)
		if _, err := exec.LookPath(words[0]); err != nil {
			continue
		}
		for i, w := range words {
			if file, ok := files[w]; ok {
				words[i] = file
			} else if w == "-" {
				words[i] = ""
			}
		}
		ran++
		if t.Run(p.command, func(t *testing.T) {
			os.Remove(files["OUT"])
			if said, err := exec.Command(words[0], words[1:]...).CombinedOutput(); err != nil {
				t.Skipf("%v: %s", err, said) // an older version, which lacks the option
			}
			data, err := os.ReadFile(files["OUT"])
			if err != nil {
				t.Fatal(err)
			}
			check(t, data, p.want, p.says)
		}) {
			right++
		}
	}
	t.Logf("%d of %d programs end in the right row; %d are not installed", right, ran, len(programs)-ran)
}

// Programs keep a photo as it is, or write it anew, which may be another one.
func TestSavedPhotos(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	var photo bytes.Buffer
	jpeg.Encode(&photo, image.NewGray(image.Rect(0, 0, 640, 480)), nil)
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.pdf"), filepath.Join(dir, "out.pdf")
	if err := os.WriteFile(in, withLogo(t, photo.Bytes()), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, p := range []struct {
		command string
		want    Outcome
		says    string
	}{
		{"qpdf IN OUT", Same, ``},
		{"mutool clean -s IN OUT", Same, ``},
		{"gs -q -sDEVICE=pdfwrite -o OUT IN", Unvouched, `written anew by 'GPL Ghostscript`},
		{"mutool clean -d IN OUT", Unvouched, `was packed anew and looks alike`},
		{"qpdf --decode-level=all IN OUT", Unvouched, `was packed anew and looks alike`},
	} {
		words := strings.Fields(strings.NewReplacer("IN", in, "OUT", out).Replace(p.command))
		if _, err := exec.LookPath(words[0]); err != nil {
			continue
		}
		t.Run(p.command, func(t *testing.T) {
			os.Remove(out)
			if said, err := exec.Command(words[0], words[1:]...).CombinedOutput(); err != nil {
				t.Skipf("%v: %s", err, said)
			}
			data, err := os.ReadFile(out)
			if err != nil {
				t.Fatal(err)
			}
			check(t, data, p.want, p.says)
		})
	}
}

func check(t *testing.T, data []byte, want Outcome, says string) {
	t.Helper()
	got, said := outcomeOf(t, data)
	if got != want || !regexp.MustCompile(says).MatchString(said) {
		t.Errorf("the outcome is %d, want %d; said %q, want %s", got, want, said, says)
	}
}

// A general-purpose library stands for the programs that are made with it.
func TestSavedByALibrary(t *testing.T) {
	api.DisableConfigDir()
	in := draw(t, fourCylinders, sheet.Options{})
	t.Run("optimize", func(t *testing.T) {
		var out bytes.Buffer
		if err := api.Optimize(bytes.NewReader(in), &out, nil); err != nil {
			t.Fatal(err)
		}
		check(t, out.Bytes(), Same, `saved again by 'pdfcpu`)
	})
	for _, tt := range []struct {
		name, how, text string
		want            Outcome
		says            string
	}{
		{"a stamp beside the page's words", "pos:bl, scale:0.02 rel, rot:0, off:2 2", "paid", Unvouched, `a stamp stands on the page beside what it says`},
		{"a stamp over the page", "pos:c, scale:0.5 rel, rot:0", "PAID", Different, `drawn over the page`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			wm, err := pdfcpu.ParseTextWatermarkDetails(tt.text, tt.how, true, types.POINTS)
			if err != nil {
				t.Fatal(err)
			}
			var out bytes.Buffer
			if err := api.AddWatermarks(bytes.NewReader(in), &out, nil, wm, nil); err != nil {
				t.Fatal(err)
			}
			check(t, out.Bytes(), tt.want, tt.says)
		})
	}
}

// A file whose encryption is said otherwise opens for some readers only.
func TestEncryptedForSome(t *testing.T) {
	if _, err := exec.LookPath("qpdf"); err != nil {
		t.Skip(err)
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.pdf"), filepath.Join(dir, "out.pdf")
	if err := os.WriteFile(in, draw(t, fourCylinders, sheet.Options{}), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct{ how, from, to, says string }{
		{"128 --use-aes=y", "/CFM /AESV2 /Length 16", "/CFM /AESV2 /Length 05", `/Encrypt`},
		{"128 --force-V4 --use-aes=n", "/CFM /V2 /Length 16", "/CFM /V2 /Length 05", `/Encrypt`},
		{"128 --force-V4 --use-aes=n", "/Length 128 ", "/Length 040 ", `/Encrypt`},
		{"256", "/Length 256 ", "/Length 128 ", `/Encrypt`},
		{"256", "/CFM /AESV3 /Length 32", "/CFM /AESV3 /Length 16", `/Encrypt`},
		{"256", "/P -4 ", "/P -9 ", `said in two ways`},
	} {
		t.Run(row.how+" "+row.to, func(t *testing.T) {
			words := strings.Fields("--allow-weak-crypto --object-streams=disable --encrypt - secret " + row.how + " -- " + in + " " + out)
			words[3] = ""
			if said, err := exec.Command("qpdf", words...).CombinedOutput(); err != nil {
				t.Skipf("%v: %s", err, said)
			}
			data, err := os.ReadFile(out)
			if err != nil || !bytes.Contains(data, []byte(row.from)) {
				t.Fatalf("no %q, error %v", row.from, err)
			}
			check(t, data, Same, ``)
			check(t, bytes.Replace(data, []byte(row.from), []byte(row.to), 1), Unvouched, row.says)
		})
	}
}
