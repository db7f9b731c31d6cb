package enclosure

import (
	"fmt"
	"strings"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/document"
	"rillwright/finding"
	"rillwright/quantity"
)

// Resolve looks up every part of a design in the catalogue and puts all heights
// above the room floor. Curves gives the points of pump curves that stand in
// files of their own, by file name. The findings are of parts that are not
// there or do not serve; if any is an error the enclosure must not be used.
//
// The design must have been read without errors.
func Resolve(d *design.Design, cat *catalogue.Catalogue, curves map[string][]catalogue.Point) (*Enclosure, finding.List) {
	r := &resolver{d: d, cat: cat, curves: curves, e: &Enclosure{
		Name: d.Name.Value, Design: d, Parts: cat,
	}}
	r.e.Units, _ = quantity.ParseSystem(d.Units.Value)
	r.shared()
	r.vessel()
	for i := range d.Pumps {
		r.pump(&d.Pumps[i])
	}
	for i := range d.Shelf {
		r.shelf(&d.Shelf[i])
	}
	for i := range d.Manifolds {
		r.manifold(&d.Manifolds[i])
	}
	for i := range d.Tees {
		r.tee(&d.Tees[i])
	}
	for i := range d.Runs {
		r.run(&d.Runs[i])
	}
	for i := range d.Drains {
		r.drain(&d.Drains[i])
	}
	r.feeds()
	r.fresh()
	for i := range d.Bridges {
		r.bridge(&d.Bridges[i])
	}
	for i := range d.Enclosure.Ways {
		r.way(&d.Enclosure.Ways[i])
	}
	for i := range d.Scenarios {
		r.scenario(&d.Scenarios[i])
	}
	if !r.list.HasErrors() {
		r.joints()
	}
	return r.e, r.list
}

type resolver struct {
	d      *design.Design
	cat    *catalogue.Catalogue
	curves map[string][]catalogue.Point
	e      *Enclosure
	list   finding.List
}

func (r *resolver) fault(at document.Pos, field, what, do string) {
	r.list = append(r.list, finding.Finding{
		Place:    finding.Place{Line: at.Line, Column: at.Column, Width: at.Width},
		Severity: finding.Error, Field: field, What: what, Do: do,
	})
}

// part finds a part by name and of a kind that serves; a nil list of kinds
// means any.
func (r *resolver) part(name document.Field[string], field string, kinds ...catalogue.Kind) (catalogue.Part, bool) {
	p, ok := r.cat.Find(name.Value)
	if !ok {
		do := "name a part from the catalogue (rillwright parts lists them) or add it to your parts file"
		if near := r.cat.Nearest(name.Value); len(near) > 0 {
			do = "did you mean " + strings.Join(near[:min(3, len(near))], ", or ") + "? If not, add it to your parts file"
		}
		r.fault(name.Pos, field, fmt.Sprintf("no part is called %q", name.Text), do)
		return p, false
	}
	if len(kinds) == 0 {
		return p, true
	}
	for _, k := range kinds {
		if p.Kind == k {
			return p, true
		}
	}
	words := make([]string, len(kinds))
	for i, k := range kinds {
		words[i] = one(k)
	}
	r.fault(name.Pos, field, fmt.Sprintf("%s is %s", p.Name, one(p.Kind)), "name "+strings.Join(words, " or ")+" here")
	return p, false
}

// one puts "a" or "an" before a kind of part.
func one(k catalogue.Kind) string {
	if strings.ContainsRune("aeiou", rune(k[0])) && k != catalogue.KindUnion {
		return "an " + string(k)
	}
	return "a " + string(k)
}

func (r *resolver) assumed(field, what, value, why string) {
	r.e.Assumed = append(r.e.Assumed, Assumption{What: what, Value: value, Why: why, Field: field})
}

// band turns a field's band into a figure, or takes the fallback.
func band[T ~float64](r *resolver, f document.Field[quantity.Band[T]], fallback Doubt) Figure {
	if f.Given() {
		b := f.Value
		fallback.Low, fallback.Likely, fallback.High = float64(b.Low), float64(b.Likely), float64(b.High)
		fallback.Why = "your figure"
		fallback.Pos = f.Pos
	}
	return r.e.doubt(fallback)
}

// shared sets up the doubts about formulas and about the water, which belong to
// no single part.
func (r *resolver) shared() {
	e, a := r.e, &r.d.Assume
	e.WaterTemperature = band(r, r.d.Place.Water, Doubt{
		ID: "water-temperature", What: "water temperature", Low: 18, Likely: 22, High: 26, Unit: Degrees,
		Why: "assumed for a heated room; cold water is thicker", Settle: "a thermometer in the sump, morning and evening",
	})
	e.Fittings = band(r, a.FittingLoss, Doubt{
		ID: "fitting-loss", What: "loss in fittings and barbs", Low: 0.7, Likely: 1, High: 1.4, Unit: Times,
		Why:    "the two published methods differ by up to 40 % at these bores",
		Settle: "flow into a bucket with the hose on but the manifold off",
	})
	e.Friction = e.doubt(Doubt{
		ID: "friction", What: "friction in hose and pipe", Low: 0.85, Likely: 1, High: 1.15, Unit: Times,
		Why:    "measurements scatter by -22 to +12 % between smooth and turbulent flow, where thin hoses run",
		Settle: "flow into a bucket with the hose on but the manifold off",
	})
	e.TeeLoss = e.doubt(Doubt{
		ID: "tee-loss", What: "loss in tees", Low: 0.7, Likely: 1, High: 1.3, Unit: Times,
		Why: "published families of formulas differ by 0.2 to 0.3 in K", Settle: "flow into a bucket at each outlet of the tee",
	})
	e.WallTap = e.doubt(Doubt{
		ID: "wall-tap", What: "how much of the stream's speed a drilled hole misses", Low: 0.8, Likely: 0.95, High: 1, Unit: Percent,
		Why: "branch loss of a tee at a small share of the flow: 0.95 (Gardel), 1.0 (Idelchik)", Settle: "cups under the outlets nearest and farthest from the feed",
	})
	e.StrainerDirt = e.doubt(Doubt{
		ID: "strainer-dirt", What: "dirt on strainers", Low: 1, Likely: 1, High: 4, Unit: Times,
		Why: "clean to clogged: four times the loss is assumed, no source", Settle: "flow into a bucket before and after cleaning",
	})
	e.WaterLost = band(r, a.PoolLost, Doubt{
		ID: "splash-lost", What: "water lost as splash or into soil", Low: 0, Likely: 0, High: 0.02, Unit: Percent,
		Why: "assumed, no source", Settle: "mark the sump and run it for a day",
	})
	e.PumpWear = band(r, a.PumpWear, Doubt{
		ID: "pump-wear", What: "speed of the worn pump", Low: 0.85, Likely: 0.85, High: 0.85, Unit: Percent,
		Why: "assumed, no source", Settle: "a bucket test every month against the first one",
	})
	e.FilmHoldUp = band(r, a.FilmHoldUp, Doubt{
		ID: "film-hold-up", What: "water held by the wet wall", Low: 0.002, Likely: 0.0035, High: 0.005, Unit: Bore,
		Why: "2 to 5 L for each m2, from memory of the trade", Settle: "watch the sump rise after the pump stops",
	})
}

// vessel resolves enclosure, wall, pool, dam and sump.
func (r *resolver) vessel() {
	d, e := r.d, r.e
	bottom := float64(d.Enclosure.Bottom.Value)
	e.Wall = Wall{
		Width: float64(d.Wall.Width.Value), Height: float64(d.Wall.Height.Value),
		Look: d.Wall.Look.Value, Target: float64(d.Wall.Target.Value), Pos: d.Wall.Pos,
	}
	floor := bottom + float64(d.Pool.Floor.Value)
	e.Pool = Pool{
		Width: float64(d.Pool.Width.Value), Depth: float64(d.Pool.Depth.Value), Floor: floor,
		DamTop: floor + float64(d.Dam.Height.Value), Pos: d.Pool.Pos,
		Displaced: band(r, d.Pool.Displaced, Doubt{
			ID: "displaced", What: "share of the pool taken by wood and rock", Low: 0.2, Likely: 0.3, High: 0.4, Unit: Percent,
			Why: "20 to 40 %, from memory of the trade", Settle: "count the litres at the first filling",
		}),
	}
	e.Pool.DamWidth = e.Pool.Width
	if d.Dam.Width.Given() {
		e.Pool.DamWidth = float64(d.Dam.Width.Value)
	}
	if d.Dam.Pos.Line == 0 {
		// Without a dam the enclosure itself holds the water.
		room := d.Enclosure.Outside.Height.Value
		if d.Enclosure.Inside.Given() {
			room = d.Enclosure.Inside.Height.Value
		}
		e.Pool.DamTop = bottom + float64(room)
	}
	s := &d.Sump
	e.Sump = Sump{
		Width: float64(s.Inside.Width.Value), Depth: float64(s.Inside.Depth.Value), Height: float64(s.Inside.Height.Value),
		Bottom: float64(s.Bottom.Value), Running: s.Water.When.Value == "running", Pos: s.Pos,
	}
	e.Sump.Level = e.Sump.Bottom + float64(s.Water.Level.Value)
	for i := range s.Chambers {
		c := &s.Chambers[i]
		e.Sump.Chambers = append(e.Sump.Chambers, Chamber{
			Name: c.Name.Value, Length: float64(c.Length.Value), Over: float64(c.Over.Value), Under: float64(c.Under.Value),
		})
	}
	r.holding()
}

func (r *resolver) tee(t *design.Tee) {
	tee := Tee{
		Name: t.Name.Value, Bore: float64(t.Bore.Value), Branch: t.Branch.Value,
		Height: float64(r.d.Enclosure.Bottom.Value) + float64(t.Height.Value), Pos: t.Pos,
	}
	if t.Part.Given() {
		if p, ok := r.part(t.Part, "tees["+tee.Name+"].part", catalogue.KindTee); ok {
			tee.Ends = p.Ends
			if tee.Bore == 0 {
				tee.Bore = float64(p.Bore.Likely)
			}
		}
	}
	if tee.Bore == 0 && !t.Part.Given() {
		r.fault(t.Name.Pos, "tees["+tee.Name+"]", "neither part nor bore is given", "name the tee's part, or measure its bore")
	}
	r.e.Tees = append(r.e.Tees, tee)
}
