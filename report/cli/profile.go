package cli

import (
	"os"
	"path"
	"path/filepath"
)

// profileName is the shop profile that start looks for.
const profileName = "shop.yaml"

// profileFor looks for the shop profile in the folder of a job file and in
// those above it, and gives it as the job file names it: the nearest, "" for
// none.
func profileFor(job string) string {
	dir := "."
	if job != standard && job != "" {
		dir = filepath.Dir(job)
	}
	absolute, err := filepath.Abs(dir)
	if err != nil {
		return ""
	}
	name := profileName
	for {
		if info, err := os.Stat(filepath.Join(absolute, profileName)); err == nil && info.Mode().IsRegular() {
			return name
		}
		above := filepath.Dir(absolute)
		if above == absolute {
			return ""
		}
		absolute, name = above, path.Join("..", name)
	}
}
