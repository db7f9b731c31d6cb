package sheets

import (
	"fmt"
	"math"
	"strings"

	"rillwright/catalogue"
	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/quantity"
)

// startOf and endOf are what a run's first and last piece meet.
func (d *draft) startOf(r *enclosure.Run) []catalogue.End { return d.endsAt(r.From) }
func (d *draft) endOf(r *enclosure.Run) []catalogue.End   { return d.endsAt(r.To) }

// endsAt are the ends that pipe or hose may meet at a place.
func (d *draft) endsAt(p enclosure.Place) []catalogue.End {
	switch {
	case p.Kind == enclosure.AtPump && p.Index < len(d.e.Pumps):
		return []catalogue.End{d.e.Pumps[p.Index].Outlet}
	case p.Kind == enclosure.AtManifold && p.Index < len(d.e.Manifolds):
		return []catalogue.End{d.e.Manifolds[p.Index].Inlet}
	case p.Kind == enclosure.AtTee && p.Index < len(d.e.Tees):
		return d.e.Tees[p.Index].Ends
	case p.Kind == enclosure.AtPool || p.Kind == enclosure.AtSump:
		return []catalogue.End{{Form: catalogue.Open}}
	}
	return nil
}

// short is a part's name where there is little room; the key has all of it.
func short(name string) string { return strings.TrimPrefix(name, "rigid ") }

// pieceItem is a piece of a run or drain, between what it begins and ends at.
func (d *draft) pieceItem(number int, list []enclosure.Piece, k int, before, after []catalogue.End) item {
	p := &list[k]
	it := item{
		number: number, piece: p, z: math.NaN(), label: short(p.Name), key: p.Name,
		valve: p.Kind == catalogue.KindValve, oneWay: p.OneWay, undo: p.Kind == catalogue.KindUnion,
	}
	if p.Count > 1 {
		it.label = fmt.Sprintf("%d x %s", p.Count, short(p.Name))
		it.key = fmt.Sprintf("%d x %s", p.Count, p.Name)
	}
	if p.Length > 0 && p.Kind.HasLength() {
		it.end = d.sized(p.Length)
		it.label = it.end + " " + it.label
		beside := func(k int, edge []catalogue.End) []catalogue.End {
			if k < 0 || k >= len(list) {
				return edge
			}
			return list[k].Ends
		}
		a, b := d.goesIn(p.Ends, beside(k-1, before)), d.goesIn(p.Ends, beside(k+1, after))
		it.goesIn = "first end " + a + ", far end " + b
		if a == b {
			it.goesIn = "each end " + a
		}
	}
	switch {
	case p.Flat && p.Fall > 0:
		it.fall = d.sized(p.Fall)
	case p.Flat:
		it.fall = "level"
	}
	switch {
	case it.undo:
		it.note, it.label = "UNDO HERE", it.label+": UNDO HERE"
	case it.oneWay:
		it.note = "lets water one way; never the only protection against floods"
	case it.valve:
		it.note = "valve, fully open"
		if p.Open < 1 {
			it.note = "valve, open " + quantity.Ratio(p.Open).Show(d.e.Units)
			it.label += ", open " + quantity.Ratio(p.Open).Show(d.e.Units)
		}
	}
	return it
}

// goesIn says how far an end of a pipe or hose goes into, or over, what it meets.
func (d *draft) goesIn(own, others []catalogue.End) string {
	if len(others) == 1 && others[0].Form == catalogue.Open {
		return "open"
	}
	for _, a := range own {
		for _, b := range others {
			if ok, _ := catalogue.Mates(a, b); !ok {
				continue
			}
			switch b.Form {
			case catalogue.Socket:
				if depth, ok := b.Depth(); ok {
					return d.sized(float64(depth)) + " into its socket"
				}
				return "to the bottom of its socket: measure it"
			case catalogue.Barb:
				return "over all of the barb"
			case catalogue.Compression:
				return "to the stop of its fitting: mark it"
			}
		}
	}
	return "as what it meets wants"
}

// drainItems numbers the parts of a drain from its lip down.
func (d *draft) drainItems(l *plumb, n int) int {
	r := l.drain
	bulkhead := d.l.Z(r.BulkheadAt)
	add := func(name, note string, z float64) {
		n++
		l.items = append(l.items, item{number: n, label: name, key: name, note: note, z: z, inPool: z > bulkhead})
	}
	if r.StrainerArea > 0 || r.StrainerLoss > 0 {
		add("strainer", "lifts off to be rinsed", l.start)
	}
	if r.Standpipe.Name != "" {
		add("standpipe, "+r.Standpipe.Name, "its lip sets the level", (l.start+bulkhead)/2)
		l.items[len(l.items)-1].label = "standpipe " + strings.TrimPrefix(short(r.Standpipe.Name), "pipe ")
	} else if r.Kind == "standpipe" {
		add("standpipe", "its lip sets the level", (l.start+bulkhead)/2)
	}
	name := r.Part.Name
	if name == "" {
		name = "bulkhead"
	}
	add(name, "gasket on the wet side, nut hand-tight on the dry side", bulkhead)
	after := d.endsAt(r.To)
	var before []catalogue.End
	if k := len(r.Part.Ends); k > 0 {
		before = r.Part.Ends[k-1:]
	}
	for k := range r.Pieces {
		n++
		l.items = append(l.items, d.pieceItem(n, r.Pieces, k, before, after))
	}
	// Where the pieces stand is known by their order alone: evenly between bulkhead
	// and end.
	first := len(l.items) - len(r.Pieces)
	for k := first; k < len(l.items); k++ {
		l.items[k].z = bulkhead + (l.end-bulkhead)*(float64(k-first)+0.5)/float64(len(r.Pieces))
	}
	return n
}

// plumbingKey lists every numbered part.
func (d *draft) plumbingKey(lines []plumb) []drawing.Sheet {
	g := d.ledger(plumbingGroup, "Plumbing: key")
	g.text(ledgerText, "Lengths are those of the file, end to end of the pipe or hose before it is joined. Where yours were measured from fitting to fitting, add what goes in at either end. Dry-fit all, draw a line across each joint, then cement.")
	g.text(small, "Depth of sockets: from memory of ISO 727-1 and ASTM D2466, the least; measure yours.")
	for i := range lines {
		l := &lines[i]
		g.head(fmt.Sprintf("%s: from %s to %s", l.name, l.from, l.to), 25)
		g.table([]part{
			g.cell(0, 0.07, small, "No."), g.cell(0.07, 0.29, small, "Part"), g.cell(0.36, 0.13, small, "End to end"),
			g.cell(0.49, 0.22, small, "Goes in"), g.cell(0.71, 0.1, small, "Falls"), g.cell(0.81, 0.19, small, "Note"),
		})
		undo := false
		for k := range l.items {
			it := &l.items[k]
			undo = undo || it.undo
			g.row([]part{
				g.cell(0, 0.07, ledgerText, fmt.Sprint(it.number)), g.cell(0.07, 0.29, small, it.key), g.cell(0.36, 0.13, small, it.end),
				g.cell(0.49, 0.22, small, it.goesIn), g.cell(0.71, 0.1, small, it.fall), g.cell(0.81, 0.19, small, it.note),
			}, drawing.Fine)
		}
		g.endTable()
		if !undo {
			g.y += 1
			g.text(small, "No union is listed here: hose on a barb comes off at its clip, cemented pipe has to be cut.")
		}
	}
	return g.done()
}
