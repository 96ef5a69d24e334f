package sheet

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"strings"

	"gaugesheet/layout/pdf"
)

// SignedName is the name of the list of signed files; the signature's ends in
// .sig, as ssh-keygen has it.
const SignedName = "signed-files.txt"

// Descriptions of the list of signed files and of its signature.
const (
	SignedDescription    = "gaugesheet list of signed files"
	SignatureDescription = "gaugesheet signature"
)

// IsOwnDescription tells whether an attached file is one that a job draws on.
func IsOwnDescription(s string) bool {
	return strings.HasPrefix(s, "gaugesheet ") && strings.HasSuffix(s, " file")
}

// A SignedFile is a file that a signature is about.
type SignedFile struct {
	Name string
	Data []byte
}

// SignedList is the list of files that is signed: how the page is drawn from
// them, then a line for each as 'sha256sum' writes and checks them.
func SignedList(kind, paper, language string, files []SignedFile) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "# gaugesheet: sheet %s, paper %s, language %s\n", kind, paper, language)
	for _, f := range files {
		name := strings.NewReplacer("\n", "?", "\r", "?", `\`, "/").Replace(f.Name) // no lines of its own
		fmt.Fprintf(&b, "%x  %s\n", sha256.Sum256(f.Data), name)
	}
	return b.Bytes()
}

// signed adds the list of the attached files and its signature, where one is
// asked for.
func (v *view) signed(files []pdf.Attachment) ([]pdf.Attachment, error) {
	if v.options.Sign == nil || len(files) == 0 {
		return files, nil
	}
	var of []SignedFile
	for _, f := range files {
		of = append(of, SignedFile{f.Name, f.Data})
	}
	list := SignedList(v.sheet.Name, v.paperName(), v.words.Language, of)
	signature, err := v.options.Sign(list)
	if err != nil {
		return nil, fmt.Errorf("sign the sheet: %w", err)
	}
	return append(files,
		pdf.Attachment{Name: SignedName, Type: "text/plain", Description: SignedDescription, Data: list},
		pdf.Attachment{Name: SignedName + ".sig", Type: "text/plain", Description: SignatureDescription, Data: signature}), nil
}
