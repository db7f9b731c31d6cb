package fixes

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"rillwright/answers"
	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
)

// Instead is one thing that a part of a design may be, with how it is written into
// the design file.
type Instead struct {
	Do    string        // in the builder's words; "as drawn" for the first
	Edits []design.Edit // in order; none for what is drawn
	// Cost is what the part costs in the design's own currency: the middle of its band
	// where it has one. Of two that are chosen between, the difference counts.
	Cost   float64
	Known  bool    // whether that is a price, not a guess
	Memory bool    // whether it is from memory
	Power  float64 // that it takes, W; 0 where it takes none or that is not known
	Trip   bool    // whether it must be bought and is neither on the shelf nor as drawn
}

// InsteadWords are the parts that Instead knows alternatives of, in the order of the
// water.
func InsteadWords() []string {
	return []string{"pump", "hose", "outlets", "holes", "feed", "drain", "lip", "second", "dam", "fill"}
}

// InsteadOf lists what a part of a design may be, what is drawn first; nothing but that
// where the catalogue, the shelf and the design offer no other. The word is one of
// InsteadWords; ok is false for another. Of hoses, manifolds and drains the first ones of
// the design are meant that a change applies to.
func InsteadOf(e *enclosure.Enclosure, cat *catalogue.Catalogue, word string) (list []Instead, ok bool) {
	f := &finder{s: &answers.Survey{E: e}, cat: cat}
	drawn := Instead{Do: "as drawn", Known: true}
	switch word {
	case "pump":
		return f.insteadPumps(drawn), true
	case "hose":
		return f.insteadHoses(drawn), true
	case "outlets":
		return f.insteadOutlets(drawn), true
	case "holes":
		return f.insteadHoles(drawn), true
	case "feed":
		list = append(list, drawn)
		for _, c := range f.feeds() {
			return append(list, f.instead(&c)), true
		}
		return list, true
	case "drain":
		return f.insteadDrains(drawn), true
	case "lip":
		return f.insteadLips(drawn), true
	case "second":
		list = append(list, drawn)
		if len(e.Drains) == 1 {
			for _, c := range f.second() {
				if c.byHand == "" {
					list = append(list, f.instead(&c))
				}
			}
		}
		return list, true
	case "dam":
		list = append(list, drawn)
		for _, c := range f.damGlass() {
			if c.byHand == "" && len(c.edits) > 0 {
				list = append(list, f.instead(&c))
			}
		}
		return list, true
	case "fill":
		return f.insteadFills(drawn), true
	}
	return nil, false
}

// instead is a change as something that a part may be, its cost over what is drawn.
func (f *finder) instead(c *change) Instead {
	return Instead{Do: c.do, Edits: c.edits, Cost: c.cost.weight(), Known: c.cost.foreign == "", Memory: c.cost.memory, Trip: c.cost.weight() > 1}
}

func (f *finder) insteadPumps(drawn Instead) []Instead {
	if len(f.s.E.Pumps) != 1 || len(f.s.E.Design.Pumps) != 1 {
		return []Instead{drawn}
	}
	p := &f.s.E.Pumps[0]
	c := f.money(p.Price)
	if !f.s.E.Design.Pumps[0].Price.Given() {
		if part, ok := f.cat.Find(f.s.E.Design.Pumps[0].Part.Value); ok {
			c = f.price(&part, 0)
		}
	}
	drawn.Cost, drawn.Known, drawn.Memory, drawn.Power = c.weight(), p.Price.Currency != "" && c.foreign == "", c.memory, p.Power
	out := []Instead{drawn}
	for i := range f.s.E.Shelf {
		s := &f.s.E.Shelf[i]
		c := f.money(s.Price)
		d := f.shelfPump(s.Name)
		out = append(out, Instead{
			Do: "the " + s.Name + " pump on the shelf (" + f.pumpLabel(&s.Curve) + ")", Edits: f.shelfEdits(d),
			Cost: c.weight(), Known: s.Price.Currency != "" && c.foreign == "", Power: float64(d.Power.Value),
		})
	}
	classes := slices.Concat(f.classes(false, p.Curve), f.classes(true, p.Curve))
	if !p.Curve.Label {
		classes = f.cat.PumpsAtLeast(0, 0)
	}
	for i := range classes {
		k := &classes[i]
		if f.onShelf(k) {
			continue
		}
		c := f.price(k, 0)
		out = append(out, Instead{
			Do: "a " + k.Name, Edits: f.classEdits(k), Cost: c.weight(), Known: k.Price.Given() && c.foreign == "", Memory: c.memory, Power: float64(k.Power), Trip: true,
		})
	}
	return out
}

func (f *finder) pumpLabel(c *enclosure.Curve) string {
	if !c.Label {
		return "by its curve"
	}
	return quantity.Flow(c.QMax).Show(f.s.E.Units) + " / " + showHead(c.HMax, f.s.E.Units)
}

// insteadHoses lists the hose of the first run to a manifold in every size of its
// family, with fittings of that size.
func (f *finder) insteadHoses(drawn Instead) []Instead {
	run := slices.IndexFunc(f.s.E.Runs, func(u enclosure.Run) bool { return u.To.Kind == enclosure.AtManifold })
	if run < 0 {
		return []Instead{drawn}
	}
	u := &f.s.E.Runs[run]
	// What each piece is after some steps up (or down), by name.
	grown := map[string]catalogue.Part{}
	hose := -1
	length := 0.0
	for k := range u.Pieces {
		grown[u.Pieces[k].Name] = u.Pieces[k].Part
		if u.Pieces[k].Kind.HasLength() {
			length += u.Pieces[k].Length
			if hose < 0 {
				hose = k
			}
		}
	}
	if hose < 0 {
		return []Instead{drawn}
	}
	part := u.Pieces[hose].Part
	c := f.price(&part, length)
	drawn.Cost, drawn.Known, drawn.Memory = c.weight(), part.Price.Given() && c.foreign == "", c.memory
	if f.onHand(part.Name, length) {
		drawn.Cost, drawn.Known, drawn.Memory = 0, true, false
	}
	out := []Instead{drawn}
	for _, bigger := range [2]bool{false, true} {
		now := map[string]catalogue.Part{}
		for n, p := range grown {
			now[n] = p
		}
		for range 4 {
			next := map[string]catalogue.Part{}
			for n, p := range now {
				if q, ok := f.cat.NextBore(p, bigger); ok {
					next[n] = q
				}
			}
			to, ok := next[u.Pieces[hose].Name]
			if !ok {
				break
			}
			changed := map[string]catalogue.Part{}
			for n, p := range next {
				now[n] = p
			}
			for n, p := range now {
				if p.Name != grown[n].Name {
					changed[n] = p
				}
			}
			c := f.price(&to, length)
			do := to.Name + " for the " + u.Name
			if f.onHand(to.Name, length) {
				c, do = nothing("nothing"), do+", which is on hand"
			}
			known := to.Price.Given() && c.foreign == "" || c.words == "nothing"
			c = c.and(" and fittings", 10)
			out = append(out, Instead{Do: do, Edits: f.hoseEdits(run, changed), Cost: c.weight(), Known: known, Memory: c.memory, Trip: true})
		}
	}
	return out
}

// onHand reports whether the stock has so much of a hose or pipe, m.
func (f *finder) onHand(name string, length float64) bool {
	have := 0.0
	for i := range f.s.E.Design.Stock {
		x := &f.s.E.Design.Stock[i]
		if !strings.EqualFold(x.What.Value, name) {
			continue
		}
		if k, err := design.ReadPack(x.Size.Value, f.s.E.Units == quantity.US); err == nil && k.Kind == design.PackLength {
			have += k.Size * float64(max(1, x.Count.Value))
		}
	}
	return have >= length
}

// drilledGroup returns the first manifold with one group of drilled holes, -1 for none.
func (f *finder) drilledGroup() int {
	return slices.IndexFunc(f.s.E.Manifolds, func(m enclosure.Manifold) bool { return len(m.Groups) == 1 && m.Groups[0].Hole.Value > 0 })
}

// insteadOutlets lists other numbers of outlets over the same length.
func (f *finder) insteadOutlets(drawn Instead) []Instead {
	i := f.drilledGroup()
	if i < 0 {
		return []Instead{drawn}
	}
	m := &f.s.E.Manifolds[i]
	g := &f.s.E.Design.Manifolds[i].Outlets[0]
	have := g.Count.Value
	out := []Instead{drawn}
	at := "manifolds[" + m.Name + "].outlets[1]"
	across := float64(g.Pitch.Value) * float64(have-1)
	seen := map[int]bool{have: true}
	for _, share := range []float64{0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.1, 1.25, 1.5} {
		n := int(math.Round(share * float64(have)))
		if n < 2 || seen[n] {
			continue
		}
		seen[n] = true
		pitch := tape(across/float64(n-1), f.s.E.Units, math.Floor)
		edits := []design.Edit{put(at+".count", strconv.Itoa(n)), put(at+".pitch", lengthText(pitch, f.s.E.Units))}
		if g.First.Given() {
			edits = append(edits, cut(at+".first")) // it is centred then
		}
		if g.Blocked.Given() {
			edits = append(edits, cut(at+".blocked"))
		}
		out = append(out, Instead{Do: fmt.Sprintf("%d outlets, %s apart", n, lengthText(pitch, f.s.E.Units)), Edits: edits, Known: true})
	}
	return out
}

// insteadHoles lists the drills three sizes down and up.
func (f *finder) insteadHoles(drawn Instead) []Instead {
	i := f.drilledGroup()
	if i < 0 {
		return []Instead{drawn}
	}
	m := &f.s.E.Manifolds[i]
	out := []Instead{drawn}
	for _, way := range [2]int{-1, 1} {
		size := m.Groups[0].Hole.Value
		for range 3 {
			next, ok := answers.NextDrill(size, way, f.s.E.Units)
			if !ok {
				break
			}
			size = next
			name := answers.DrillName(size, f.s.E.Units)
			out = append(out, Instead{Do: name + " holes in the " + m.Name, Edits: drilled(m, name), Known: true})
		}
	}
	return out
}

// insteadDrains lists the first drain in every size up and down for which the file can
// be written.
func (f *finder) insteadDrains(drawn Instead) []Instead {
	i := slices.IndexFunc(f.s.E.Drains, func(d enclosure.Drain) bool { return d.Part.Name != "" })
	if i < 0 {
		return []Instead{drawn}
	}
	d := &f.s.E.Drains[i]
	c := f.price(&d.Part, 0)
	drawn.Cost, drawn.Known, drawn.Memory = c.weight(), d.Part.Price.Given() && c.foreign == "", c.memory
	out := []Instead{drawn}
	for _, bigger := range [2]bool{false, true} {
		part := d.Part
		for range 4 {
			next, ok := f.cat.NextBore(part, bigger)
			if !ok {
				break
			}
			part = next
			if f.lipUnknown(i, next) != "" {
				continue
			}
			c := f.price(&next, 0).and(", pipe and a hole saw", 15)
			out = append(out, Instead{
				Do: fmt.Sprintf("%s for the %s, hole %s, with pipe to match", next.Name, d.Name, next.Hole.Show(f.s.E.Units)), Edits: f.grownEdits(i, "drains["+d.Name+"]", 0, next),
				Cost: c.weight(), Known: next.Price.Given() && c.foreign == "", Memory: c.memory, Trip: true,
			})
		}
	}
	return out
}

// insteadLips lists heights of the first standpipe's lip, each 5 mm or 1/4 in, down to
// 30 mm or 1 1/4 in and up to as much under the dam's top as the drawn one lies.
func (f *finder) insteadLips(drawn Instead) []Instead {
	e := f.s.E
	i := slices.IndexFunc(e.Drains, func(d enclosure.Drain) bool { return d.Kind == "standpipe" })
	out := []Instead{drawn}
	if i < 0 {
		return out
	}
	d := &e.Drains[i]
	step := 0.005
	if e.Units == quantity.US {
		step = 0.0254 / 4
	}
	over := d.Lip - e.Pool.Floor
	for k := -6; k <= 4; k++ {
		lip := over + float64(k)*step
		if k == 0 || lip <= 2*step || lip >= e.Pool.DamTop-e.Pool.Floor-2*step {
			continue
		}
		text := lengthText(lip, e.Units)
		out = append(out, Instead{Do: "the lip of the " + d.Name + " at " + text, Edits: []design.Edit{put("drains["+d.Name+"].lip", text)}, Cost: 0, Known: true})
	}
	return out
}

// insteadFills lists levels of the sump, each a twentieth of its height.
func (f *finder) insteadFills(drawn Instead) []Instead {
	s := &f.s.E.Sump
	out := []Instead{drawn}
	for k := 4; k <= 15; k++ {
		level := tape(s.Height*float64(k)/20, f.s.E.Units, math.Round)
		if math.Abs(s.Bottom+level-s.Level) < 1e-3 {
			continue
		}
		text := lengthText(level, f.s.E.Units)
		out = append(out, Instead{Do: "the sump filled to " + text, Edits: []design.Edit{put("sump.water.level", text)}, Known: true})
	}
	return out
}
