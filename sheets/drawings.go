package sheets

import (
	"rillwright/answers"
	"rillwright/drawing"
)

// Drawings returns every drawing of an enclosure that has been computed, in the
// order in which they are bound: views, plumbing, panes, cell maps, cut layouts,
// drilling templates. They are not numbered.
func Drawings(s *answers.Survey, p Print) []drawing.Sheet {
	var out []drawing.Sheet
	out = append(out, Views(s, p)...)
	out = append(out, Plumbing(s, p)...)
	out = append(out, PaneSheets(s.E, p)...)
	out = append(out, CellMaps(s.E, p)...)
	out = append(out, CutLayouts(s.E, p)...)
	out = append(out, Templates(s.E, p)...)
	return out
}
