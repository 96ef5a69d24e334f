package archive

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"gaugesheet/report/sheet"
)

// keyFor makes a key with ssh-keygen and gives its private and public part.
func keyFor(t *testing.T, args ...string) (private, public string) {
	t.Helper()
	tool, err := exec.LookPath("ssh-keygen")
	if err != nil {
		t.Skip("ssh-keygen is not installed")
	}
	file := filepath.Join(t.TempDir(), "key")
	if said, err := exec.Command(tool, append(args, "-q", "-N", "", "-C", "bench", "-f", file)...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	key, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	pub, err := os.ReadFile(file + ".pub")
	if err != nil {
		t.Fatal(err)
	}
	return string(key), strings.TrimSpace(string(pub))
}

// ssh-keygen takes our signatures, and we take its.
func TestSignatures(t *testing.T) {
	for _, kind := range [][]string{{"-t", "ed25519"}, {"-t", "ecdsa", "-b", "256"}, {"-t", "rsa", "-b", "2048"}} {
		t.Run(kind[1], func(t *testing.T) {
			private, public := keyFor(t, kind...)
			signer, err := Signer([]byte(private), nil)
			if err != nil {
				t.Fatal(err)
			}
			data := draw(t, fourCylinders, sheet.Options{Sign: signer})
			s, err := Open(data)
			if err != nil {
				t.Fatal(err)
			}
			if v, err := s.Verify(version); err != nil || v.Outcome() != Same {
				t.Fatalf("%v, error %v", v, err)
			}
			dir := t.TempDir()
			for name, data := range map[string][]byte{"list": s.Signed.Data, "list.sig": s.Signature.Data, "signers": []byte("bench@harrow " + public + "\n"), "key": []byte(private), "job.yaml": s.Job.Data} {
				if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
					t.Fatal(err)
				}
			}
			in := func(command string) string {
				cmd := exec.Command("sh", "-c", command)
				cmd.Dir = dir
				said, err := cmd.CombinedOutput()
				if err != nil {
					t.Fatalf("%s: %v: %s", command, err, said)
				}
				return string(said)
			}
			if said := in("ssh-keygen -Y verify -f signers -I bench@harrow -n gaugesheet -s list.sig < list"); !strings.Contains(said, "Good") {
				t.Errorf("ssh-keygen says %s", said)
			}
			if _, err := exec.LookPath("sha256sum"); err == nil {
				in("sha256sum -c list")
			}
			in("rm list.sig; ssh-keygen -Y sign -f key -n gaugesheet list")
			if s.Signature.Data, err = os.ReadFile(filepath.Join(dir, "list.sig")); err != nil {
				t.Fatal(err)
			}
			signers, err := ReadSigners([]byte(public))
			if err != nil {
				t.Fatal(err)
			}
			var v Verdict
			s.CheckSignature(&v, signers, time.Now())
			if v.Outcome() != Same || len(v.Notes) != 1 || !strings.Contains(v.Notes[0], "signed by the key SHA256:") {
				t.Errorf("of ssh-keygen's signature: %v", v)
			}
			in("rm list.sig; ssh-keygen -Y sign -f key -n file list")
			if s.Signature.Data, err = os.ReadFile(filepath.Join(dir, "list.sig")); err != nil {
				t.Fatal(err)
			}
			v = Verdict{}
			if s.CheckSignature(&v, signers, time.Now()); v.Outcome() != Different {
				t.Errorf("of a signature for something else: %v", v)
			}
		})
	}
}

// A signature holds for the files it was made for, by the keys that are asked
// for, and for nothing else.
func TestSignatureHolds(t *testing.T) {
	private, public := keyFor(t, "-t", "ed25519")
	_, other := keyFor(t, "-t", "ed25519")
	signer, err := Signer([]byte(private), nil)
	if err != nil {
		t.Fatal(err)
	}
	signed := draw(t, fourCylinders, sheet.Options{Sign: signer})
	plain := draw(t, fourCylinders, sheet.Options{})
	now := time.Date(2026, 5, 20, 0, 0, 0, 0, time.UTC)
	replaced := func(of func(*Sheet) *File, from, to string) func(*Sheet) {
		return func(s *Sheet) {
			f := of(s)
			changed := strings.Replace(string(f.Data), from, to, 1)
			if changed == string(f.Data) {
				t.Fatalf("%q is not in %s", from, f.Data)
			}
			f.Data = []byte(changed)
		}
	}
	tests := []struct {
		name    string
		data    []byte
		signers string
		change  func(*Sheet)
		want    Outcome
		says    string
	}{
		{"not signed, and not asked for", plain, "", nil, Same, `^$`},
		{"not signed", plain, public, nil, Different, `carries no signature`},
		{"signed, and not asked for", signed, "", nil, Same, `a signature that holds, by the key SHA256:`},
		{"by a public key", signed, public, nil, Same, `signed by the key SHA256:.*gives to 'bench'`},
		{"by a name's key", signed, "bench@harrow " + public, nil, Same, `gives to 'bench@harrow'`},
		{"by one of several", signed, "# the shop\nother " + other + "\n\nbench " + public + "\n", nil, Same, `gives to 'bench'`},
		{"by another key", signed, other, nil, Different, `none of the signers'`},
		{"by a key for other things", signed, "bench namespaces=\"git\" " + public + "\nx " + other, nil, Different, `none of the signers'`},
		{"by a key for these things", signed, "bench namespaces=\"git,gaugesheet\" " + public, nil, Same, `signed by`},
		{"by a key that is too old", signed, "bench valid-before=\"20260101\" " + public, nil, Different, `no longer takes`},
		{"by a key that is too new", signed, "bench valid-after=\"20270101\" " + public, nil, Different, `no longer takes, or not yet`},
		{"another job file", signed, public, replaced(func(s *Sheet) *File { return &s.Job }, "138", "158"), Different, `the files that it signs are not those`},
		{"another list", signed, public, replaced(func(s *Sheet) *File { return s.Signed }, "sheet customer", "sheet workshop"), Different, `not made by its key for these files`},
		{"another kind of sheet", signed, public, func(s *Sheet) { s.Kind = "workshop" }, Different, `it signs 'sheet customer`},
		{"one more file", signed, public, func(s *Sheet) { s.Files = append(s.Files, File{"shop.yaml", nil}) }, Different, `the files that it signs are not those`},
		{"a list without a signature", signed, public, func(s *Sheet) { s.Signature = nil }, Different, `no signature`},
		{"something that is none", signed, public, func(s *Sheet) { s.Signature.Data = []byte("yes") }, Different, `no signature of SSH`},
		{"a cut one", signed, public, func(s *Sheet) { s.Signature.Data = s.Signature.Data[:200] }, Different, `no signature of SSH`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s, err := Open(tt.data)
			if err != nil {
				t.Fatal(err)
			}
			if tt.change != nil {
				tt.change(s)
			}
			var signers *Signers
			if tt.signers != "" {
				if signers, err = ReadSigners([]byte(tt.signers)); err != nil {
					t.Fatal(err)
				}
			}
			var v Verdict
			s.CheckSignature(&v, signers, now)
			said := strings.Join(append(v.Differences, v.Notes...), "\n")
			if v.Outcome() != tt.want || !regexp.MustCompile(tt.says).MatchString(said) {
				t.Errorf("the outcome is %d, want %d; said %q, want %s", v.Outcome(), tt.want, said, tt.says)
			}
		})
	}
	for text, want := range map[string]string{
		"": "no key", "bench\n": "1:1: expected a name and a public key", "bench ssh-ed25519 AAAA\n": "1:1: expected",
		public + "\nbench cert-authority " + public: "2:1: the option 'cert-authority' is not known here",
	} {
		if _, err := ReadSigners([]byte(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("signers %q: error %v, want %s", text, err, want)
		}
	}
}

// A key that can be guessed neither signs nor is taken, whoever signed with it.
func TestShortKeysAreRefused(t *testing.T) {
	private, public := keyFor(t, "-t", "rsa", "-b", "1024")
	if _, err := Signer([]byte(private), nil); err == nil || !strings.Contains(err.Error(), "fewer than 2048 bits") {
		t.Errorf("it signs: %v", err)
	}
	dir := t.TempDir()
	for name, text := range map[string]string{"key": private, "key.pub": public + "\n", "list": "# gaugesheet\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if said, err := exec.Command("ssh-keygen", "-Y", "sign", "-q", "-n", namespace, "-f", filepath.Join(dir, "key"), filepath.Join(dir, "list")).CombinedOutput(); err != nil {
		t.Skipf("%v: %s", err, said)
	}
	signature, err := os.ReadFile(filepath.Join(dir, "list.sig"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := signedBy([]byte("# gaugesheet\n"), signature); err == nil || !strings.Contains(err.Error(), "can be guessed") {
		t.Errorf("it is taken: %v", err)
	}
}
