package fixes

import (
	"fmt"
	"slices"
	"strconv"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/document"
	"rillwright/enclosure"
	"rillwright/quantity"
)

func (f *finder) piecePath(run, piece int) string {
	return fmt.Sprintf("runs[%s].pieces[%d]", f.s.E.Runs[run].Name, piece+1)
}

// partEdits puts another part in the place of one whose bore may have been
// measured.
func partEdits(path, name string, measured bool) []design.Edit {
	out := []design.Edit{put(path+".part", name)}
	if measured {
		out = append(out, cut(path+".bore"))
	}
	return out
}

// hoseEdits puts the next sizes in the place of pieces, by their names, and what
// joins them to the old size at both ends; see hoses.
func (f *finder) hoseEdits(run int, next map[string]catalogue.Part) []design.Edit {
	u := &f.s.E.Runs[run]
	pieces := f.s.E.Design.Runs[run].Pieces
	var out []design.Edit
	for k := range u.Pieces {
		if p, ok := next[u.Pieces[k].Name]; ok {
			out = append(out, partEdits(f.piecePath(run, k), p.Name, pieces[k].Bore.Given())...)
		}
	}
	// entries are the old hose and the reducer at an end, none if nothing joins.
	entries := func(k int) []string {
		old := u.Pieces[k]
		p, grown := next[old.Name]
		if !grown || old.Kind != catalogue.KindHose {
			return nil
		}
		r, ok := f.reducer(p, old.Part)
		if !ok {
			return nil
		}
		short := pieces[k]
		newText(&short.Length, quantity.Length(stub).Show(quantity.Metric))
		var joint design.Piece
		newText(&joint.Part, r.Name)
		return []string{document.Flow(&short), document.Flow(&joint)}
	}
	list := "runs[" + u.Name + "].pieces"
	for _, e := range slices.Backward(entries(len(pieces) - 1)) {
		out = append(out, add(list, e))
	}
	for _, e := range slices.Backward(entries(0)) {
		out = append(out, inFront(list+"[1]", e))
	}
	return out
}

// barEdits makes a manifold of another pipe.
func (f *finder) barEdits(manifold int, part string) []design.Edit {
	m := &f.s.E.Design.Manifolds[manifold]
	path := "manifolds[" + m.Name.Value + "]"
	out := partEdits(path, part, m.Bore.Given())
	if m.Wall.Given() {
		out = append(out, cut(path+".pipe-wall"))
	}
	return out
}

// drilled gives all drilled outlets of a manifold another size.
func drilled(m *enclosure.Manifold, size string) []design.Edit {
	var out []design.Edit
	for k := range m.Groups {
		if m.Groups[k].Hole.Value > 0 {
			out = append(out, put("manifolds["+m.Name+"].outlets["+strconv.Itoa(k+1)+"].hole", size))
		}
	}
	return out
}

// centred lets a run feed its manifold at the centre. Where other runs feed it
// too, each is told where, since it might take the place that this one leaves.
func (f *finder) centred(run int) []design.Edit {
	u := &f.s.E.Runs[run]
	m := &f.s.E.Manifolds[u.To.Index]
	own := put("runs["+u.Name+"].at", "centre")
	if len(m.Feeds) < 2 {
		out := []design.Edit{put("manifolds["+m.Name+"].feed", "centre")}
		if f.s.E.Design.Runs[run].At.Given() {
			out = append(out, own)
		}
		return out
	}
	out := []design.Edit{own}
	for i := range f.s.E.Runs {
		o := &f.s.E.Runs[i]
		if i == run || o.To.Kind != enclosure.AtManifold || o.To.Index != u.To.Index {
			continue
		}
		at := "centre"
		switch o.At {
		case 0:
			at = "left"
		case m.Length:
			at = "right"
		}
		out = append(out, put("runs["+o.Name+"].at", at))
	}
	return out
}
