package design

import (
	"fmt"
	"strings"

	"rillwright/document"
)

// measure notes a measured fact among as-built: a new entry, or, where the figure has one
// already, the new value in its place and the one before in its note. It refuses what
// is no figure, and a value that the figure cannot have.
func measure(data []byte, e Edit) ([]byte, error) {
	var d Design
	_ = document.Decode("", data, &d) // what cannot be read is for Read to tell
	spot, err := document.Lookup(&d, e.Path)
	if err != nil {
		return nil, fmt.Errorf("%w", err)
	}
	if p := measurable(spot); p != nil {
		return nil, p
	}
	anywhere := Pos{Line: 1, Column: 1}
	if p := spot.Read(e.To, anywhere); p != nil {
		return nil, p
	}
	for i := range d.AsBuilt {
		a := &d.AsBuilt[i]
		if other, err := document.Lookup(&d, a.Of.Value); err != nil || other.Leaf != spot.Leaf {
			continue
		}
		if a.Is.Text == e.To {
			return data, nil
		}
		path := fmt.Sprintf("as-built[%d]", i+1)
		note := a.Is.Text + " before"
		if a.Note.Given() {
			note = a.Note.Value + "; " + note
		}
		edits := []Edit{{Path: path + ".is", To: e.To}, {Path: path + ".note", To: note}}
		if e.On != "" {
			edits = append(edits, Edit{Path: path + ".on", To: e.On})
		}
		return Apply(data, edits)
	}
	var fact AsBuilt
	_ = fact.Of.Read(e.Path, anywhere) // any text will do
	_ = fact.Is.Read(e.To, anywhere)
	if e.On != "" {
		_ = fact.On.Read(e.On, anywhere)
	}
	return document.Append(data, "as-built", document.Flow(&fact))
}

// measurable says what keeps a figure from being one that is measured.
func measurable(spot document.Spot) *document.Problem {
	switch {
	case strings.HasPrefix(spot.Path, "as-built"), spot.Key == "name" || spot.Key == "rillwright" || spot.Key == "units":
		return &document.Problem{What: spot.Path + " is not something that is measured", Do: "name a figure of the build"}
	case spot.Section == Pos{}:
		section := spot.Path[:strings.LastIndexByte(spot.Path, '.')]
		return &document.Problem{What: fmt.Sprintf("the plan has no section %q", section), Do: "write that section first"}
	}
	return nil
}
