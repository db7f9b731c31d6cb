package enclosure

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"rillwright/catalogue"
	"rillwright/design"
)

// holding resolves what holds water in the pool and on the wall besides the
// pool's own box.
func (r *resolver) holding() {
	e := r.e
	for i := range r.d.Pool.Zones {
		z := &r.d.Pool.Zones[i]
		name := z.Name.Value
		e.Pool.Zones = append(e.Pool.Zones, Zone{
			Name: name, From: e.Pool.Floor + float64(z.From.Value), To: e.Pool.Floor + float64(z.To.Value), Pos: z.Pos,
			Displaced: band(r, z.Displaced, Doubt{
				ID: "displaced[" + name + "]", What: "share of the pool taken by the " + name, Unit: Percent,
				Settle: "count the litres at the first filling between those heights",
			}),
		})
	}
	slices.SortStableFunc(e.Pool.Zones, func(a, b Zone) int { return cmp.Compare(a.From, b.From) })
	for i := range r.d.Pool.Hidden {
		h := &r.d.Pool.Hidden[i]
		e.Pool.Hidden = append(e.Pool.Hidden, Hidden{
			Name: h.Name.Value, Floor: e.Pool.Floor + float64(h.Floor.Value), Pos: h.Pos,
			Area: float64(h.Width.Value) * float64(h.Depth.Value) * (1 - float64(h.Displaced.Value)),
			Gap:  float64(h.GapWidth.Value) * float64(h.GapHeight.Value),
		})
	}
	for i := range r.d.Wall.Soaks {
		s := &r.d.Wall.Soaks[i]
		e.Wall.Soaks = append(e.Wall.Soaks, Soak{
			Name: s.Name.Value, Holds: float64(s.Holds.Value), Catches: float64(s.Catches.Value),
			DrainsIn: float64(s.DrainsIn.Value), Pos: s.Pos,
		})
	}
}

// switches resolves what turns a pump on and off by itself.
func (r *resolver) switches(p *design.Pump, out *Pump) {
	if f := &p.Float; f.Given() {
		out.Float = Float{Given: true, Off: r.e.Sump.Bottom + float64(f.Off.Value), On: r.e.Sump.Bottom + float64(f.On.Value), Pos: f.Pos}
	}
	if t := &p.Timer; t.Given() {
		out.Timer = Timer{Given: true, On: float64(t.On.Value), Off: float64(t.Off.Value), Pos: t.Pos}
	}
}

// crest resolves the highest point of a run and the hole that ends a siphon in
// it. A hole as wide as the run is no hole but an open end.
func (r *resolver) crest(u *design.Run, out *Run) {
	bottom := float64(r.d.Enclosure.Bottom.Value)
	if u.Crest.Given() {
		out.Crest = bottom + float64(u.Crest.Value)
	}
	b := &u.BreakHole
	if !b.Given() {
		return
	}
	out.BreakHole = BreakHole{Height: bottom + float64(b.Height.Value), Size: float64(b.Size.Value), Pos: b.Pos}
	for i := range out.Pieces {
		if p := &out.Pieces[i]; p.Kind.HasLength() && out.BreakHole.Size >= p.Bore.Value && p.Bore.Value > 0 {
			r.fault(b.Size.Pos, "runs["+out.Name+"].break-hole.size", fmt.Sprintf("a hole of %s in the %s, whose bore is %.1f mm", b.Size.Text, p.Name, p.Bore.Value*1000), "write the hole's own diameter, some millimetres; the water it lets out runs into the pool")
			return
		}
	}
}

// fresh resolves the top-up and what the air takes.
func (r *resolver) fresh() {
	e := r.e
	e.Evaporation = band(r, r.d.Assume.Evaporation, Doubt{
		ID: "evaporation", What: "evaporation from open wet area", Unit: PerDay,
		Low: 2e-3 / day, Likely: 4e-3 / day, High: 6e-3 / day,
		Why: "2 to 6 mm/day in a room, from memory of the trade", Settle: "mark the sump and look again after a week",
	})
	t := &r.d.TopUp
	if !t.Given() {
		return
	}
	e.TopUp = TopUp{
		Given: true, Flow: float64(t.Flow.Value), Level: e.Sump.Bottom + float64(t.Level.Value),
		Holds: float64(t.Holds.Value), Pos: t.Pos,
	}
	if t.Into.Given() {
		e.TopUp.Chamber = r.place(t.Into.Value).Index
	}
}

// day is one day in s.
const day = 86400

func (r *resolver) bridge(b *design.Bridge) {
	out := Bridge{
		Name: b.Name.Value, Kind: b.Kind.Value, From: r.place(b.From.Value), To: r.bridgeTo(b.To.Value),
		Crest: float64(r.d.Enclosure.Bottom.Value) + float64(b.Crest.Value),
		Bore:  float64(b.Bore.Value), Section: float64(b.Section.Value), Length: float64(b.Length.Value), Pos: b.Pos,
	}
	out.Foot = r.floorOf(out.From) + float64(b.Foot.Value)
	out.End = r.floorOf(out.To) + float64(b.End.Value)
	r.e.Bridges = append(r.e.Bridges, out)
}

// bridgeTo finds where a bridge leads: of all places, only it may end on the
// floor of the room, so that for anything else "floor" is a name like others.
func (r *resolver) bridgeTo(name string) Place {
	if name == "floor" {
		return Place{AtFloor, 0, name}
	}
	return r.place(name)
}

// floorOf returns the height above the room floor of the floor of a pool or
// sump; 0 for the room's own.
func (r *resolver) floorOf(p Place) float64 {
	switch p.Kind {
	case AtPool:
		return r.e.Pool.Floor
	case AtSump:
		return r.e.Sump.Bottom
	}
	return 0
}

func (r *resolver) scenario(s *design.Scenario) {
	name := s.Name.Value
	out := Scenario{Name: name, Lasts: float64(s.Lasts.Value), Pos: s.Pos}
	for i := range s.Steps {
		out.Steps = append(out.Steps, r.step(&s.Steps[i], fmt.Sprintf("scenarios[%s].steps[%d]", name, i+1)))
	}
	r.e.Scenarios = append(r.e.Scenarios, out)
}

func (r *resolver) step(s *design.Step, field string) Step {
	out := Step{
		At: float64(s.At.Value), What: s.What.Value, Which: s.Which.Value, Index: -1,
		Place: Place{AtPool, -1, s.Which.Value}, Share: 1, Over: float64(s.Over.Value), Flow: float64(s.Flow.Value),
		Size: float64(s.Size.Value), Height: math.NaN(), Volume: float64(s.Volume.Value), Pos: s.Pos,
	}
	if s.Share.Given() {
		out.Share = float64(s.Share.Value)
	}
	switch out.What {
	case "drain blocks", "drain clears", "standpipe out":
		out.Index = r.drainIndex(out.Which)
	case "hose off", "valve opens":
		out.Index = r.runIndex(out.Which)
		if s.Height.Given() {
			out.Height = float64(r.d.Enclosure.Bottom.Value) + float64(s.Height.Value)
		}
		if out.What == "valve opens" && !r.hasValve(out.Index) {
			r.fault(s.Which.Pos, field+".which", fmt.Sprintf("%q has no valve", out.Which), "name a run with a valve among its pieces")
		}
	case "strainer clogs":
		if out.Index = r.drainIndex(out.Which); out.Index >= 0 {
			break
		}
		out.Place = r.place(out.Which)
		out.Index = out.Place.Index
	case "pump stops", "pump starts":
		out.Place = r.place(out.Which)
		out.Index = out.Place.Index
	case "leak starts", "water added", "water taken":
		out.Place = r.place(out.Which)
		if s.Height.Given() {
			out.Height = r.floorOf(out.Place) + float64(s.Height.Value)
		}
	}
	return out
}

func (r *resolver) drainIndex(name string) int {
	return slices.IndexFunc(r.d.Drains, func(d design.Drain) bool { return d.Name.Value == name })
}

func (r *resolver) runIndex(name string) int {
	return slices.IndexFunc(r.d.Runs, func(u design.Run) bool { return u.Name.Value == name })
}

// hasValve reports whether a run has a valve. Check valves open by themselves
// and do not count.
func (r *resolver) hasValve(run int) bool {
	return run >= 0 && slices.ContainsFunc(r.d.Runs[run].Pieces, func(p design.Piece) bool {
		part, ok := r.cat.Find(p.Part.Value)
		return ok && part.Kind == catalogue.KindValve
	})
}
