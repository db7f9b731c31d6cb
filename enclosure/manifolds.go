package enclosure

import (
	"fmt"

	"rillwright/catalogue"
	"rillwright/design"
)

// Discharge coefficients of a drilled outlet: a sharp thin hole and one long
// enough for the jet to fill it again, with the ratios of wall to hole between
// which the one turns into the other. Sources: Wu, Burton & Schoenau 2002 and
// Lichtarowicz, Duggins & Markland 1965 at the high end of Reynolds numbers.
const (
	thinDischarge, thickDischarge = 0.61, 0.80
	thinWall, thickWall           = 0.5, 2.0
)

func (r *resolver) manifold(m *design.Manifold) {
	name := m.Name.Value
	field := "manifolds[" + name + "]"
	out := Manifold{
		Name: name, Length: float64(m.Length.Value), Roughness: 1.5e-6,
		Height: float64(r.d.Enclosure.Bottom.Value) + float64(m.Height.Value), Pos: m.Pos,
	}
	wall := float64(m.Wall.Value)
	bore := Doubt{
		ID: "bore[" + name + "]", What: "bore of the " + name, Unit: Bore, Settle: "callipers across the cut end",
	}
	if m.Part.Given() {
		if p, ok := r.part(m.Part, field+".part", catalogue.KindPipe, catalogue.KindTube, catalogue.KindHose); ok {
			out.Part, out.Pipe = p.Name, p
			bore.Low, bore.Likely, bore.High = float64(p.Bore.Low), float64(p.Bore.Likely), float64(p.Bore.High)
			bore.Why = "tolerance of the part, " + string(p.Mark)
			if p.Roughness > 0 {
				out.Roughness = float64(p.Roughness)
			}
			if wall == 0 {
				wall = float64(p.Wall)
			}
		}
	}
	if !m.Part.Given() && !m.Bore.Given() {
		r.fault(m.Name.Pos, field, "neither part nor bore is given", "name the pipe it is made of, or measure its bore")
		return
	}
	out.Bore = band(r, m.Bore, bore)
	le := Doubt{
		ID: "level-error[" + name + "]", What: "how far out of level the " + name + " hangs", Low: 0, Likely: 0.0015, High: 0.003, Unit: Bore,
		Why: "assumed: within 3 mm end to end, as a spirit level sets it", Settle: "water in a clear hose held to both ends",
	}
	if m.LevelError.Given() {
		h := float64(m.LevelError.Value)
		le.Low, le.Likely, le.High, le.Why, le.Pos = 0, h/2, h, "your figure, from level to its worst", m.LevelError.Pos
	}
	out.LevelError = r.e.doubt(le)
	if m.Ends.Value == "joined" {
		out.Ring = float64(m.Ring.Value)
		if out.Ring == 0 {
			out.Ring = out.Length
			r.assumed(field+".ring", "return leg of the "+name, "as long as the manifold", "the file does not say")
		}
	}
	switch m.Feed.Value {
	case "left":
		out.Feeds = []float64{0}
	case "right":
		out.Feeds = []float64{out.Length}
	case "both ends":
		out.Feeds = []float64{0, out.Length}
	default:
		out.Feeds = []float64{out.Length / 2}
		if !m.Feed.Given() {
			r.assumed(field+".feed", "where the "+name+" is fed", "at its centre", "the file does not say")
		}
	}
	if m.Inlet.Given() {
		end, err := catalogue.ParseEnd(m.Inlet.Value)
		if err != nil {
			r.fault(m.Inlet.Pos, field+".inlet", err.Error(), "write an end such as barb 16 mm")
		}
		out.Inlet = end
	}
	for i := range m.Outlets {
		r.outlets(&out, &m.Outlets[i], fmt.Sprintf("%s.outlets[%d]", field, i+1), wall)
	}
	r.e.Manifolds = append(r.e.Manifolds, out)
}

func (r *resolver) outlets(m *Manifold, o *design.Outlets, field string, wall float64) {
	g := OutletGroup{Count: o.Count.Value, Pitch: float64(o.Pitch.Value), Pos: o.Pos}
	label := groupLabel(m.Name, len(m.Groups))
	if o.Emitter.Given() {
		p, ok := r.part(o.Emitter, field+".emitter", catalogue.KindEmitter)
		if !ok {
			return
		}
		if p.Emitter.Exponent <= 0.05 {
			r.fault(o.Emitter.Pos, field+".emitter", fmt.Sprintf("%s holds its flow only above %.0f m of head, which a drip wall does not have", p.Name, float64(p.Emitter.MinHead)), "choose an emitter that is not compensating, or drilled holes")
			return
		}
		g.EmitterX, g.Cv = p.Emitter.Exponent, p.Emitter.Cv
		g.EmitterK = emitterK(p.Emitter)
	} else {
		r.holes(&g, o, label, wall)
	}
	first := (m.Length - float64(g.Count-1)*g.Pitch) / 2
	if o.First.Given() {
		first = float64(o.First.Value)
	}
	m.Groups = append(m.Groups, g)
	// Blocked outlets are the ones at the left of the group.
	for k := min(o.Blocked.Value, g.Count); k < g.Count; k++ {
		m.Outlets = append(m.Outlets, Outlet{At: first + float64(k)*g.Pitch, Group: len(m.Groups) - 1})
	}
}

// holes fills in a group of drilled outlets.
func (r *resolver) holes(g *OutletGroup, o *design.Outlets, label string, wall float64) {
	hole, off := float64(o.Hole.Value), float64(o.HoleError.Value)
	why := "your figure for the drill"
	if !o.HoleError.Given() {
		off = 0.05e-3
		why = "assumed: drilled holes come out within 0.05 mm"
	}
	g.HoleError = off
	g.Hole = r.e.doubt(Doubt{
		ID: "hole[" + label + "]", What: "true size of the holes in the " + label, Low: hole - off, Likely: hole, High: hole + off, Unit: Bore,
		Why: why, Settle: "the shank of a drill that just passes", Pos: o.HoleError.Pos,
	})
	g.Wall = wall
	g.Discharge = band(r, r.d.Assume.HoleDischarge, dischargeDoubt(label, wall, hole))
	g.Cv = holeCv(hole, off)
}

// dischargeDoubt is what is known of the discharge coefficient of holes of a
// size in a wall of a thickness, m; 0 for one that is not known.
func dischargeDoubt(label string, wall, hole float64) Doubt {
	likely := (thinDischarge + thickDischarge) / 2
	why := "between a sharp thin hole and one that runs full; burrs decide"
	if wall > 0 && hole > 0 {
		t := min(max((wall/hole-thinWall)/(thickWall-thinWall), 0), 1)
		likely = thinDischarge + t*(thickDischarge-thinDischarge)
		why = fmt.Sprintf("a wall of %.1f hole sizes: %s", wall/hole, why)
	}
	return Doubt{
		ID: "hole-discharge[" + label + "]", What: "discharge coefficient of the holes in the " + label,
		Low: thinDischarge, Likely: likely, High: thickDischarge, Why: why,
		Settle: "one minute of one outlet into a measuring jug, with the head over it measured",
	}
}

// holeCv is the coefficient of variation of the flow of holes that may each be
// off their size. Area goes with its square, and a uniform spread of +-off has
// a standard deviation of off/sqrt 3.
func holeCv(hole, off float64) float64 {
	if hole <= 0 {
		return 0
	}
	return 2 * off / hole / 1.7320508075688772
}

// groupLabel names a group of outlets, by its place among those of a manifold.
func groupLabel(manifold string, i int) string {
	if i == 0 {
		return manifold
	}
	return fmt.Sprintf("%s, group %d", manifold, i+1)
}
