package archive

import (
	"bytes"
	"crypto/rand"
	"crypto/rsa"
	"crypto/sha256"
	"crypto/sha512"
	"encoding/pem"
	"fmt"
	"slices"
	"strings"
	"time"

	"golang.org/x/crypto/ssh"

	"gaugesheet/report/sheet"
)

// A signature is one by an SSH key over a list of files, in the format of
// 'ssh-keygen -Y sign' (OpenSSH, PROTOCOL.sshsig). The list is what 'sha256sum'
// writes: a line for the job file and for each file that it draws on. Both
// travel in the sheet; with other programs they are checked by
//
//	ssh-keygen -Y verify -f SIGNERS -I NAME -n gaugesheet -s signed-files.txt.sig < signed-files.txt
//	sha256sum -c signed-files.txt
//
// It proves that who has the key signed these files. It says nothing of a
// date, and whose key it is one has to know.
const namespace = "gaugesheet"

// safe are the kinds of signature that are made and taken. The older ones,
// which rest on SHA-1, are not among them.
var safe = []string{
	ssh.KeyAlgoED25519, ssh.KeyAlgoSKED25519,
	ssh.KeyAlgoECDSA256, ssh.KeyAlgoECDSA384, ssh.KeyAlgoECDSA521, ssh.KeyAlgoSKECDSA256,
	ssh.KeyAlgoRSASHA256, ssh.KeyAlgoRSASHA512,
}

// leastBits is how long a key of RSA is at least (NIST SP 800-131A, table 2).
const leastBits = 2048

// tooShort tells a key of RSA that is shorter.
func tooShort(key ssh.PublicKey) bool {
	with, ok := key.(ssh.CryptoPublicKey)
	if !ok {
		return false
	}
	k, ok := with.CryptoPublicKey().(*rsa.PublicKey)
	return ok && k.N.BitLen() < leastBits
}

// sealed is what a key signs: a fingerprint of the list.
type sealed struct {
	Namespace, Reserved, Hash string
	Digest                    string
}

// blob is a signature with its key.
type blob struct {
	Version                              uint32
	Key, Namespace, Reserved, Hash, Seal string
}

const magic = "SSHSIG"

// Signer gives the function that signs a list by a private key of SSH, which
// has no passphrase or the given one.
func Signer(key, passphrase []byte) (func(list []byte) ([]byte, error), error) {
	var signer ssh.Signer
	var err error
	if passphrase != nil {
		signer, err = ssh.ParsePrivateKeyWithPassphrase(key, passphrase)
	} else {
		signer, err = ssh.ParsePrivateKey(key)
	}
	if err != nil {
		return nil, err
	}
	algorithm := signer.PublicKey().Type()
	if algorithm == ssh.KeyAlgoRSA {
		algorithm = ssh.KeyAlgoRSASHA512 // the format allows no older one
	}
	with, ok := signer.(ssh.AlgorithmSigner)
	if tooShort(signer.PublicKey()) {
		return nil, fmt.Errorf("a key of RSA with fewer than %d bits can be guessed", leastBits)
	}
	if !ok || !slices.Contains(safe, algorithm) {
		return nil, fmt.Errorf("a key of the kind %s cannot sign here", algorithm)
	}
	return func(list []byte) ([]byte, error) { return sign(list, with, algorithm) }, nil
}

func sign(list []byte, signer ssh.AlgorithmSigner, algorithm string) ([]byte, error) {
	digest := sha512.Sum512(list)
	message := append([]byte(magic), ssh.Marshal(sealed{namespace, "", "sha512", string(digest[:])})...)
	signature, err := signer.SignWithAlgorithm(rand.Reader, message, algorithm)
	if err != nil {
		return nil, err
	}
	whole := append([]byte(magic), ssh.Marshal(blob{1, string(signer.PublicKey().Marshal()), namespace, "", "sha512", string(ssh.Marshal(signature))})...)
	return pem.EncodeToMemory(&pem.Block{Type: "SSH SIGNATURE", Bytes: whole}), nil
}

// signedBy checks a signature of a list and gives its key.
func signedBy(list, signature []byte) (ssh.PublicKey, error) {
	block, rest := pem.Decode(signature)
	if block == nil || block.Type != "SSH SIGNATURE" || len(bytes.TrimSpace(rest)) > 0 {
		return nil, fmt.Errorf("it is no signature of SSH")
	}
	var b blob
	whole, ok := bytes.CutPrefix(block.Bytes, []byte(magic))
	if !ok || ssh.Unmarshal(whole, &b) != nil || b.Version != 1 {
		return nil, fmt.Errorf("it is no signature of SSH")
	}
	if b.Namespace != namespace {
		return nil, fmt.Errorf("it is a signature for something else (%s)", quoted(b.Namespace))
	}
	var digest []byte
	switch b.Hash {
	case "sha512":
		sum := sha512.Sum512(list)
		digest = sum[:]
	case "sha256":
		sum := sha256.Sum256(list)
		digest = sum[:]
	default:
		return nil, fmt.Errorf("its kind of fingerprint is not known")
	}
	key, err := ssh.ParsePublicKey([]byte(b.Key))
	if err != nil {
		return nil, fmt.Errorf("its key is not readable")
	}
	var seal ssh.Signature
	if err := ssh.Unmarshal([]byte(b.Seal), &seal); err != nil {
		return nil, fmt.Errorf("it is no signature of SSH")
	}
	if !slices.Contains(safe, seal.Format) {
		return nil, fmt.Errorf("its kind of signature is no longer safe")
	}
	if tooShort(key) {
		return nil, fmt.Errorf("its key is of RSA with fewer than %d bits, which can be guessed", leastBits)
	}
	message := append([]byte(magic), ssh.Marshal(sealed{namespace, b.Reserved, b.Hash, string(digest)})...)
	if err := key.Verify(message, &seal); err != nil {
		return nil, fmt.Errorf("it was not made by its key for these files")
	}
	return key, nil
}

// Signers are the keys that a user trusts, with the names that the user has for
// them.
type Signers struct{ lines []signer }

type signer struct {
	name          string
	key           []byte
	after, before time.Time
}

// ReadSigners reads a file of keys: lines as of ssh-keygen's allowed signers
// ('NAME[,NAME] [options] KIND KEY') or public keys ('KIND KEY [comment]'). The
// error begins with the line.
func ReadSigners(data []byte) (*Signers, error) {
	s := &Signers{}
	n := 0
	for line := range strings.Lines(string(data)) {
		n++
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		one, err := readSigner(line)
		if err != nil {
			return nil, fmt.Errorf("%d:1: %w", n, err)
		}
		if one != nil {
			s.lines = append(s.lines, *one)
		}
	}
	if len(s.lines) == 0 {
		return nil, fmt.Errorf("1:1: no key for sheets, expected lines of a name and a public key")
	}
	return s, nil
}

// readSigner reads one line; nil for a key that is not for sheets.
func readSigner(line string) (*signer, error) {
	if key, comment, _, _, err := ssh.ParseAuthorizedKey([]byte(line)); err == nil && !strings.Contains(strings.Fields(line)[0], "@") && isKind(strings.Fields(line)[0]) {
		return &signer{name: comment, key: key.Marshal()}, nil
	}
	names, rest, _ := strings.Cut(line, " ")
	key, _, options, _, err := ssh.ParseAuthorizedKey([]byte(strings.TrimSpace(rest)))
	if err != nil {
		return nil, fmt.Errorf("expected a name and a public key of SSH, or a public key")
	}
	one := &signer{name: strings.Trim(names, `"`), key: key.Marshal()}
	for _, o := range options {
		name, value, _ := strings.Cut(o, "=")
		value = strings.Trim(value, `"`)
		switch strings.ToLower(name) {
		case "namespaces":
			if !contains(strings.Split(value, ","), namespace) {
				return nil, nil
			}
		case "valid-after":
			one.after, err = signerTime(value)
		case "valid-before":
			one.before, err = signerTime(value)
		default: // a certificate's authority, or what no sheet has
			return nil, fmt.Errorf("the option %s is not known here", quoted(o))
		}
		if err != nil {
			return nil, err
		}
	}
	return one, nil
}

// isKind tells the name of a kind of key from that of a person.
func isKind(word string) bool {
	return strings.HasPrefix(word, "ssh-") || strings.HasPrefix(word, "ecdsa-") || strings.HasPrefix(word, "sk-")
}

func contains(list []string, word string) bool {
	for _, w := range list {
		if w == word || w == "*" {
			return true
		}
	}
	return false
}

func signerTime(value string) (time.Time, error) {
	for _, form := range []string{"20060102", "20060102Z", "200601021504", "200601021504Z", "20060102150405", "20060102150405Z"} {
		if t, err := time.Parse(form, value); err == nil {
			return t, nil
		}
	}
	return time.Time{}, fmt.Errorf("%s is no date, expected 20260514", quoted(value))
}

// CheckSignature adds to a verdict what the sheet's signature says, and whether
// it is by one of the signers, where any are asked for. A signature has no date
// of its own: a key's time of validity is held against now.
func (s *Sheet) CheckSignature(v *Verdict, signers *Signers, now time.Time) {
	switch {
	case s.Signature == nil && signers != nil:
		v.differs("it carries no signature")
		return
	case s.Signature == nil || s.Signed == nil:
		return
	}
	key, err := signedBy(s.Signed.Data, s.Signature.Data)
	if err == nil {
		err = s.listAgrees()
	}
	if err != nil {
		v.differs("its signature does not hold: %v", err)
		return
	}
	print := ssh.FingerprintSHA256(key)
	if signers == nil {
		v.notes("it carries a signature that holds, by the key %s; whose key that is, --signers tells", print)
		return
	}
	for _, one := range signers.lines {
		if !bytes.Equal(one.key, key.Marshal()) {
			continue
		}
		if !one.after.IsZero() && now.Before(one.after) || !one.before.IsZero() && !now.Before(one.before) {
			v.differs("it is signed by the key %s, which the file of signers no longer takes, or not yet", print)
			return
		}
		v.notes("signed by the key %s, which the file of signers gives to %s", print, quoted(one.name))
		return
	}
	v.differs("it is signed by the key %s, which is none of the signers'", print)
}

// listAgrees tells whether the signed list is that of the files the sheet
// carries, and of the kind of sheet that it says it is.
func (s *Sheet) listAgrees() error {
	files := []sheet.SignedFile{{Name: s.Job.Name, Data: s.Job.Data}}
	for _, f := range s.Files {
		files = append(files, sheet.SignedFile(f))
	}
	if s.Template != nil {
		files = append(files, sheet.SignedFile(*s.Template))
	}
	head, lines, _ := strings.Cut(string(s.Signed.Data), "\n")
	_, want, _ := strings.Cut(string(sheet.SignedList("", "", "", files)), "\n")
	if lines != want {
		return fmt.Errorf("the files that it signs are not those that the sheet carries")
	}
	if want := strings.TrimSpace(string(sheet.SignedList(s.Kind, s.Paper, s.Language, nil))); s.Kind != "" && head != want {
		return fmt.Errorf("it signs %s, which the page is not", quoted(strings.TrimPrefix(head, "# gaugesheet: ")))
	}
	return nil
}
