package pdffile

import "slices"

// oneListing reports a list of attached files that readers list otherwise than it
// is read here: some look at the parts of a node that has names too, some stop
// at what is no file, some count names and files together, and of two files of a
// name each takes the one it finds (ISO 32000-2, 7.9.6).
func (f *File) oneListing() error {
	root, err := f.Catalog()
	if err != nil {
		return err
	}
	names, err := f.NoData(root["Names"])
	if err != nil || names["EmbeddedFiles"] == nil {
		return err
	}
	_, err = f.listedNames(names["EmbeddedFiles"], true, visits{})
	return err
}

var errListing = damaged("its list of attached files is written in a way that readers take differently")

// listedNames are the names below a node, which have to be in order.
func (f *File) listedNames(o Object, isRoot bool, seen visits) ([]string, error) {
	if !seen.enter(o) || len(seen) > mostAttached {
		return nil, errListing
	}
	node, err := f.NoData(o)
	if err != nil {
		return nil, err
	}
	for key := range node {
		if key != "Names" && key != "Kids" && (isRoot || key != "Limits") {
			return nil, errListing
		}
	}
	if len(node) == 0 && isRoot {
		return nil, nil
	}
	if (node["Names"] != nil) == (node["Kids"] != nil) {
		return nil, errListing
	}
	listed, err := f.ownNames(node)
	if err != nil {
		return nil, err
	}
	kids, err := f.Array(node["Kids"])
	if err != nil {
		return nil, err
	}
	for _, kid := range kids {
		below, err := f.listedNames(kid, false, seen)
		if err != nil {
			return nil, err
		}
		listed = append(listed, below...)
	}
	if isRoot {
		inOrder := slices.Sorted(slices.Values(listed))
		if len(slices.Compact(inOrder)) < len(listed) {
			return nil, errListing
		}
		return listed, nil
	}
	return listed, f.hasLimits(node, listed)
}

// ownNames are the names of a node without parts, each with a file.
func (f *File) ownNames(node Dict) ([]string, error) {
	list, err := f.Array(node["Names"])
	if err != nil {
		return nil, err
	}
	if len(list)%2 != 0 || len(list) > 2*mostAttached {
		return nil, errListing
	}
	var names []string
	for pair := range slices.Chunk(list, 2) {
		name, isName := pair[0].(String)
		spec, err := f.Resolve(pair[1])
		if err != nil {
			return nil, err
		}
		if _, isFile := spec.(Dict); !isName || !isFile {
			return nil, errListing
		}
		names = append(names, string(name))
	}
	return names, nil
}

// hasLimits reports a node that says other ends of its names than it has.
func (f *File) hasLimits(node Dict, listed []string) error {
	limits, err := f.Array(node["Limits"])
	if err != nil {
		return err
	}
	if len(listed) == 0 || len(limits) != 2 || limits[0] != String(listed[0]) || limits[1] != String(listed[len(listed)-1]) {
		return errListing
	}
	return nil
}
