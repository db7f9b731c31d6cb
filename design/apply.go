package design

import (
	"fmt"

	"rillwright/document"
)

// The kinds of Edit.
const (
	EditPut    = ""       // the value at the path is to be To; the key may be new
	EditAppend = "append" // To is one more entry, as YAML, for the list at the path
	EditInsert = "insert" // To is an entry, as YAML, in front of the one at the path
	EditCut    = "cut"    // the key or entry at the path goes, if it is there
	// EditMeasure: To was measured for the figure at the path, and stands among as-built
	// in place of the plan's, or of what was measured before.
	EditMeasure = "measure"
)

// Edit is one change to the text of a design file. Paths are those of findings,
// "drains[main drain].lip".
type Edit struct {
	Path string `json:"path"`
	To   string `json:"to"`
	Kind string `json:"kind,omitempty"`
	On   string `json:"on,omitempty"` // the day on which it was measured; it may be empty
}

// Apply makes edits to a design file one after the other, each on what the ones
// before it left, and returns the new file; comments and layout stay. It refuses
// keys that a design file does not have, and judges no values but those measured: Read does. Data is
// not changed. The error is a *document.Problem, and then nothing was done.
func Apply(data []byte, edits []Edit) ([]byte, error) {
	for _, e := range edits {
		if err := document.Room(&Design{}, e.Path); err != nil {
			return nil, err
		}
		var err error
		switch e.Kind {
		case EditPut:
			data, err = document.Put(data, e.Path, e.To)
		case EditAppend:
			data, err = document.Append(data, e.Path, e.To)
		case EditInsert:
			data, err = document.Insert(data, e.Path, e.To)
		case EditCut:
			data, err = document.Cut(data, e.Path)
		case EditMeasure:
			data, err = measure(data, e)
		default:
			err = &document.Problem{What: fmt.Sprintf("%q is no kind of edit", e.Kind), Do: "leave it empty to put a value, or write append, insert, cut or measure"}
		}
		if err != nil {
			return nil, err
		}
	}
	return data, nil
}
