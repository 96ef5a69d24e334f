package cli

import (
	"errors"
	"os"

	"golang.org/x/crypto/ssh"
	"golang.org/x/term"

	"gaugesheet/report/archive"
)

// signBy has the sheets signed by the private key in a file.
func (c *Command) signBy(d *drawing, name string) error {
	if d.picture || d.options.NoAttach {
		return wrongUse("--sign signs the files that a sheet carries, found --picture or --no-attach").withHint("draw the PDF with what it carries")
	}
	key, err := readFile(name, mostFile)
	if err != nil {
		return noAccess("%s: cannot be read: %v", name, reason(err))
	}
	var passphrase []byte
	var locked *ssh.PassphraseMissingError
	if _, err := ssh.ParsePrivateKey(key); errors.As(err, &locked) {
		if passphrase, err = c.passphrase(name); err != nil {
			return err
		}
	}
	sign, err := archive.Signer(key, passphrase)
	if err != nil {
		return noAccess("%s: not a private key of SSH that can sign here: %v", name, err).
			withHint("'ssh-keygen -t ed25519 -f sheets-key' makes a key")
	}
	d.options.Sign = sign
	return nil
}

// passphrase asks for a key's passphrase at the terminal.
func (c *Command) passphrase(name string) ([]byte, error) {
	in, ok := c.Stdin.(*os.File)
	if !ok || !term.IsTerminal(int(in.Fd())) {
		return nil, noAccess("%s: the key has a passphrase, and there is no terminal to ask for it", name)
	}
	visible{c.Stderr}.Write([]byte("passphrase of " + name + ": "))
	defer c.complain("")
	passphrase, err := term.ReadPassword(int(in.Fd()))
	if err != nil {
		return nil, noAccess("%s: no passphrase: %v", name, err)
	}
	return passphrase, nil
}
