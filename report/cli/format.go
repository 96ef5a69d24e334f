package cli

import (
	"os"
	"path/filepath"
	"strings"

	"gaugesheet/layout/raster"
	"gaugesheet/report/archive"
	"gaugesheet/report/sheet"
)

// The endings of what is drawn: a sheet, and a picture of one.
const (
	sheetEnding   = ".pdf"
	pictureEnding = ".png"
)

// ending is that of the files that are drawn.
func (d drawing) ending() string {
	if d.picture {
		return pictureEnding
	}
	return sheetEnding
}

// isSheetFile tells whether a name is that of a sheet or of a picture.
func isSheetFile(name string) bool {
	ext := filepath.Ext(name)
	return strings.EqualFold(ext, sheetEnding) || strings.EqualFold(ext, pictureEnding)
}

// chooseFormat has -o and --picture agree on what is drawn.
func (d *drawing) chooseFormat() error {
	if isFolder(d.output) || !isSheetFile(d.output) {
		return nil
	}
	named := strings.EqualFold(filepath.Ext(d.output), pictureEnding)
	if d.picture && !named {
		return wrongUse("--picture makes a %s file, and -o is %s", pictureEnding, d.output)
	}
	d.picture = named
	return nil
}

// oneFile refuses the name of a file that says it is something else than what
// would be written to it. A device has no ending.
func oneFile(name string) error {
	if info, err := os.Stat(name); err == nil && !info.Mode().IsRegular() || isSheetFile(name) {
		return nil
	}
	bare := strings.TrimSuffix(name, filepath.Ext(name))
	return wrongUse("-o %s: a sheet is a %s file, a picture of it a %s file", name, sheetEnding, pictureEnding).
		withHint("name it %s, or a folder with a slash at its end: %s/", bare+sheetEnding, name)
}

// file is what is written of a page.
func (d drawing) file(page *sheet.Sheet) ([]byte, error) {
	if d.picture {
		return page.PNG()
	}
	return page.PDF()
}

// drawnHere tells a sheet or a picture that this program made.
func drawnHere(data []byte) bool { return archive.Made(data) || raster.Made(data) }
