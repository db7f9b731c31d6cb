package fixes

import (
	"math"
	"strings"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/document"
	"rillwright/enclosure"
	"rillwright/quantity"
)

// How a change is written into the design file. Each says so where it is made;
// this file has the words for it.

func put(path, text string) design.Edit { return design.Edit{Path: path, To: text} }

func cut(path string) design.Edit { return design.Edit{Path: path, Kind: design.EditCut} }

func add(path, entry string) design.Edit {
	return design.Edit{Path: path, To: entry, Kind: design.EditAppend}
}

func inFront(path, entry string) design.Edit {
	return design.Edit{Path: path, To: entry, Kind: design.EditInsert}
}

// fix returns a change as the builder sees it, without its effect.
func (f *finder) fix(c *change) answers.Fix {
	out := answers.Fix{
		Do: c.do, Change: c.edit, Cost: c.cost.String(), Weight: c.cost.weight(), Price: c.cost.rankable(),
	}
	why := c.byHand
	if why == "" {
		// What was measured of the parts that go would stand in place of the new figures.
		var ok bool
		if out.Edits, ok = f.s.E.Design.Replanned(c.edits); !ok {
			why = "a measured fact names one of its pieces by number, and the numbers change"
		}
	}
	if why != "" {
		out.Do += " (write it into the file yourself: " + why + ")"
	}
	return out
}

// reads puts values into a design as its file would be read with the edits made.
// It knows none that add or cut: those are for the change to make itself.
func reads(e *enclosure.Enclosure, edits []design.Edit) bool {
	for _, x := range edits {
		if x.Kind != design.EditPut {
			continue
		}
		at, err := document.Lookup(e.Design, x.Path)
		if err != nil {
			return false
		}
		_, pos := at.Leaf.Source()
		if pos.Line == 0 {
			pos = design.Pos{Line: 1, Column: 1, Width: len(x.To)}
		}
		if at.Read(x.To, pos) != nil {
			return false
		}
	}
	return true
}

// putting makes a change of nothing but new values in the design: they are tried
// as they are written.
func putting(c change, edits ...design.Edit) change {
	var words []string
	for _, x := range edits {
		words = append(words, x.Path+": "+x.To)
	}
	c.edit, c.edits = strings.Join(words, ", "), edits
	c.apply = func(e *enclosure.Enclosure) bool { return reads(e, edits) }
	return c
}

// newText writes something in a field that the edit of a file will hold.
func newText(into document.Leaf, text string) {
	// A text of ours has a meaning; if it had none, reading the file would say so.
	_ = into.Read(text, design.Pos{Line: 1, Column: 1, Width: len(text)})
}

// lengthText, headText and flowText write a figure as people show it, or with all
// its digits where that would change it by more than one in a thousand.
func lengthText(v float64, sys quantity.System) string {
	text := quantity.Length(v).Show(sys)
	if back, err := quantity.ParseLength(text); err == nil && same(float64(back), v) {
		return text
	}
	return quantity.Length(v).ShowIn(map[bool]string{false: "mm", true: "in"}[sys == quantity.US])
}

func headText(v float64, sys quantity.System) string {
	text := showHead(v, sys)
	if back, err := quantity.ParseLength(text); err == nil && same(float64(back), v) {
		return text
	}
	return quantity.Length(v).ShowIn("m")
}

func flowText(v float64, sys quantity.System) string {
	text := quantity.Flow(v).Show(sys)
	if back, err := quantity.ParseFlow(text); err == nil && same(float64(back), v) {
		return text
	}
	return quantity.Flow(v).ShowIn("L/h")
}

func same(a, b float64) bool { return math.Abs(a-b) <= 1e-3*math.Abs(b) }
