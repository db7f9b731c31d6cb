package fixes

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/document"
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
	var why string
	if out.Edits, why = f.written(c); why != "" {
		out.Do += " (write it into the file yourself: " + why + ")"
	}
	return out
}

// written returns the edits of a change, behind others that take out what was
// measured of the parts that go: it would stand in place of the new figures. If
// they cannot be made, it says why.
func (f *finder) written(c *change) (edits []design.Edit, why string) {
	if c.byHand != "" {
		return nil, c.byHand
	}
	d := f.s.E.Design
	for i, a := range slices.Backward(d.AsBuilt) {
		of, ok := f.fullPath(a.Of.Value)
		if !ok {
			continue
		}
		for _, e := range c.edits {
			list, isEntry := listOf(e.Path)
			if e.Kind == design.EditInsert && isEntry && strings.HasPrefix(of, list+"[") {
				return nil, "a measured fact names one of its pieces by number, and the numbers change"
			}
			if of == e.Path || strings.HasPrefix(of, e.Path+".") {
				edits = append(edits, cut("as-built["+strconv.Itoa(i+1)+"]"))
				break
			}
		}
	}
	return append(edits, c.edits...), ""
}

// fullPath returns a path with the names of entries where it has numbers.
func (f *finder) fullPath(path string) (full string, ok bool) {
	at, err := document.Lookup(f.s.E.Design, path)
	if err != nil {
		return "", false
	}
	document.Walk(f.s.E.Design, func(sp document.Spot) {
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
