package design

import (
	"fmt"
	"slices"
	"strings"

	"rillwright/document"
)

// Replanned returns edits of the plan behind others that cut the measured facts
// of what they change: a fact would stand in place of the new figure. If ok is
// false they cannot be made, since a fact names an entry of a list by its number
// and an edit would give that entry another. Edits that have been through it stay
// as they are.
func (d *Design) Replanned(edits []Edit) (all []Edit, ok bool) {
	for i, a := range slices.Backward(d.AsBuilt) {
		of, known := d.fullPath(a.Of.Value)
		if !known {
			continue
		}
		for _, e := range edits {
			list, isEntry := listOf(e.Path)
			if e.Kind == EditInsert && isEntry && strings.HasPrefix(of, list+"[") {
				return nil, false
			}
			if of == e.Path || strings.HasPrefix(of, e.Path+".") {
				if gone := (Edit{Path: fmt.Sprintf("as-built[%d]", i+1), Kind: EditCut}); !slices.Contains(edits, gone) {
					all = append(all, gone)
				}
				break
			}
		}
	}
	return append(all, edits...), true
}

// fullPath returns a path with the names of entries where it has numbers.
func (d *Design) fullPath(path string) (full string, ok bool) {
	at, err := document.Lookup(d, path)
	if err != nil {
		return "", false
	}
	document.Walk(d, func(sp document.Spot) {
		if sp.Leaf == at.Leaf {
			full = sp.Path
		}
	})
	return full, full != ""
}

// listOf cuts the entry off a path such as "runs[riser].pieces[1]".
func listOf(path string) (list string, ok bool) {
	i := strings.LastIndexByte(path, '[')
	if i < 0 || !strings.HasSuffix(path, "]") {
		return "", false
	}
	return path[:i], true
}
