package pdffile

import (
	"bytes"
	"crypto/aes"
	"crypto/cipher"
	"crypto/md5"
	"crypto/rc4"
	"crypto/sha256"
	"crypto/sha512"
	"encoding/binary"
	"maps"
)

// Programs encrypt files without a password to forbid printing or changing;
// anyone can read these. The key follows from the file alone (ISO 32000-2, 7.6).

// A key opens the strings and streams of a file.
type key struct {
	secret []byte
	method Name // V2 (RC4), AESV2, AESV3 or Identity
	meta   bool // metadata are encrypted too
}

// padding stands for a password that is shorter (7.6.4.3.2).
var padding = []byte("\x28\xBF\x4E\x5E\x4E\x75\x8A\x41\x64\x00\x4E\x56\xFF\xFA\x01\x08\x2E\x2E\x00\xB6\xD0\x68\x3E\x80\x2F\x0C\xA9\xFE\x64\x53\x69\x7A")

// unlock finds the key of a file that has no password.
func (f *File) unlock() error {
	d, err := f.Dict(f.Trailer["Encrypt"])
	if err != nil {
		return err
	}
	version, revision := f.entryOr(d["V"], 0), f.entryOr(d["R"], 0)
	k := &key{method: "V2", meta: d["EncryptMetadata"] != false}
	bits := f.entryOr(d["Length"], 40)
	if d["Filter"] != Name("Standard") || bits < 40 || bits > 256 || bits%8 != 0 {
		return ErrEncrypted
	}
	switch version {
	case 1:
		bits = 40
	case 2:
	case 4, 5:
		if k.method, err = f.methodOf(d); err != nil {
			return err
		}
		bits = 128
	default:
		return ErrEncrypted
	}
	owner, _ := d["O"].(String)
	user, _ := d["U"].(String)
	if version == 5 {
		sealed, _ := d["UE"].(String)
		k.secret = strongSecret([]byte(user), []byte(sealed), revision)
		if k.secret != nil && !k.permits(d) && f.odd == "" { // of which some readers open nothing
			f.odd = "what may be done with it is said in two ways"
		}
	} else {
		permissions, _ := whole(d["P"])
		id, err := f.Array(f.Trailer["ID"])
		if err != nil || len(id) == 0 {
			return ErrEncrypted
		}
		first, _ := id[0].(String)
		k.secret = oldSecret([]byte(owner), []byte(user), permissions, []byte(first), revision, bits/8, k.meta)
	}
	if k.secret == nil || k.method != "V2" && k.method != "AESV2" && k.method != "AESV3" || (k.method == "AESV3") != (version == 5) {
		return ErrEncrypted
	}
	f.key = k
	return nil
}

// methodOf is the one by which a file is encrypted that says it by filters (7.6.6).
func (f *File) methodOf(d Dict) (Name, error) {
	filters, err := f.Dict(d["CF"])
	if err != nil {
		return "", err
	}
	filter, err := f.Dict(filters["StdCF"])
	if err != nil || d["StmF"] != Name("StdCF") || d["StrF"] != Name("StdCF") || d["EFF"] != nil && d["EFF"] != Name("StdCF") {
		return "", ErrEncrypted
	}
	method, _ := filter["CFM"].(Name)
	return method, nil
}

// permits tells whether the permissions that are encrypted are those that the file says
// (7.6.4.4.12).
func (k *key) permits(d Dict) bool {
	sealed, _ := d["Perms"].(String)
	said, ok := whole(d["P"])
	block, err := aes.NewCipher(k.secret)
	if err != nil || !ok || len(sealed) != aes.BlockSize {
		return false
	}
	var plain [aes.BlockSize]byte
	block.Decrypt(plain[:], []byte(sealed))
	return binary.LittleEndian.Uint32(plain[:]) == uint32(said) && (plain[8] == 'T') == k.meta && string(plain[9:12]) == "adb"
}

// oldSecret is the key up to revision 4 (7.6.4.3.2), nil where a password is
// asked for.
func oldSecret(owner, user []byte, permissions int, id []byte, revision, size int, meta bool) []byte {
	if len(owner) != 32 || len(user) != 32 || size > 16 || revision < 2 || revision > 4 {
		return nil
	}
	h := md5.New()
	h.Write(padding)
	h.Write(owner)
	h.Write(binary.LittleEndian.AppendUint32(nil, uint32(int32(permissions))))
	h.Write(id)
	if revision == 4 && !meta {
		h.Write([]byte{255, 255, 255, 255})
	}
	secret := h.Sum(nil)
	if revision >= 3 {
		for range 50 {
			sum := md5.Sum(secret[:size])
			secret = sum[:]
		}
	}
	secret = secret[:size]
	check, same := bytes.Clone(padding), 32
	if revision >= 3 { // 7.6.4.4.4: only half of it is told
		sum := md5.Sum(append(bytes.Clone(padding), id...))
		check, same = sum[:], 16
	}
	for i := range 20 {
		if i > 0 && revision < 3 {
			break
		}
		with := bytes.Clone(secret)
		for j := range with {
			with[j] ^= byte(i)
		}
		c, err := rc4.NewCipher(with)
		if err != nil {
			return nil
		}
		c.XORKeyStream(check, check)
	}
	if !bytes.Equal(check[:same], user[:same]) {
		return nil
	}
	return secret
}

// strongSecret is the key of revisions 5 and 6 (7.6.4.3.3), nil where a
// password is asked for.
func strongSecret(user, sealed []byte, revision int) []byte {
	if len(user) < 48 || len(sealed) != 32 || revision != 5 && revision != 6 {
		return nil
	}
	if !bytes.Equal(strongHash(user[32:40], revision), user[:32]) {
		return nil
	}
	block, err := aes.NewCipher(strongHash(user[40:48], revision))
	if err != nil {
		return nil
	}
	secret := make([]byte, 32)
	cipher.NewCBCDecrypter(block, make([]byte, 16)).CryptBlocks(secret, sealed)
	return secret
}

// strongHash is algorithm 2.B (7.6.4.3.4) of an empty password.
func strongHash(salt []byte, revision int) []byte {
	first := sha256.Sum256(salt)
	k := first[:]
	if revision == 5 {
		return k
	}
	for round := 1; ; round++ {
		data := bytes.Repeat(k, 64)
		block, err := aes.NewCipher(k[:16])
		if err != nil {
			return nil
		}
		cipher.NewCBCEncrypter(block, k[16:32]).CryptBlocks(data, data)
		rest := 0
		for _, b := range data[:16] {
			rest += int(b)
		}
		switch rest % 3 {
		case 0:
			sum := sha256.Sum256(data)
			k = sum[:]
		case 1:
			sum := sha512.Sum384(data)
			k = sum[:]
		default:
			sum := sha512.Sum512(data)
			k = sum[:]
		}
		if round >= 64 && int(data[len(data)-1]) <= round-32 {
			return k[:32]
		}
	}
}

// opened gives an object as it is without encryption.
func (f *File) opened(o numbered) (Object, error) {
	s, ok := o.object.(*Stream)
	if f.key == nil || ok && s.Dict["Type"] == Name("XRef") {
		return o.object, nil
	}
	if ok {
		if f.unpacked += len(s.Raw); f.unpacked > 2*mostUnpack {
			return nil, ErrTooLarge
		}
	}
	return f.key.open(o.object, o.Number, o.Generation), nil
}

// open opens the strings and the stream of an object. What cannot be opened is
// empty.
func (k *key) open(o Object, n, generation int) Object {
	secret := k.secret
	if k.method != "AESV3" {
		mix := append(bytes.Clone(secret), byte(n), byte(n>>8), byte(n>>16), byte(generation), byte(generation>>8))
		if k.method == "AESV2" {
			mix = append(mix, "sAlT"...)
		}
		sum := md5.Sum(mix)
		secret = sum[:min(len(k.secret)+5, 16)]
	}
	return k.opened(o, secret)
}

func (k *key) opened(o Object, secret []byte) Object {
	switch o := o.(type) {
	case String:
		return String(k.decrypt([]byte(o), secret))
	case []Object:
		for i := range o {
			o[i] = k.opened(o[i], secret)
		}
	case Dict:
		for name := range o {
			o[name] = k.opened(o[name], secret)
		}
	case *Stream:
		if o.Dict["Type"] == Name("Metadata") && !k.meta {
			return o
		}
		return &Stream{Dict: k.opened(maps.Clone(o.Dict), secret).(Dict), Raw: k.decrypt(o.Raw, secret)}
	}
	return o
}

func (k *key) decrypt(data, secret []byte) []byte {
	if k.method == "V2" {
		c, err := rc4.NewCipher(secret)
		if err != nil {
			return data
		}
		out := make([]byte, len(data))
		c.XORKeyStream(out, data)
		return out
	}
	block, err := aes.NewCipher(secret)
	if err != nil || len(data) < 32 || len(data)%16 != 0 {
		return nil
	}
	out := make([]byte, len(data)-16)
	cipher.NewCBCDecrypter(block, data[:16]).CryptBlocks(out, data[16:])
	if fill := int(out[len(out)-1]); fill >= 1 && fill <= 16 {
		return out[:len(out)-fill]
	}
	return nil
}
