package answers

import (
	"fmt"

	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/study"
)

const (
	// usualFloor is the live load that floors of dwellings are commonly designed
	// for in the United States, kg/m2: 40 lb/ft2. What a floor really bears depends
	// on span and place.
	usualFloor = 40 * 0.45359237 / (0.3048 * 0.3048)
	// wetWall is what a planted wall of foam, fibre and moss weighs wet, kg/m2:
	// assumed, no source; weigh a piece.
	wetWallLow, wetWallLikely, wetWallHigh = 10, 20, 35
	// sunk is the density of what displaces water in the pool, kg/m3: waterlogged
	// wood and stone; from memory.
	sunk = 1500
)

// Weight answers what it weighs, what the floor gets and who lifts it. Stand,
// lamps and what stands beside it are not in it.
func (s *Survey) Weight() Answer {
	e, sys := s.E, s.E.Units
	a := Answer{ID: "weight", Question: "What does it weigh, and will the floor take it?"}
	glass, heaviest, name := s.panesMass()
	box := e.Pool.Width * e.Pool.Depth * (s.Likely.PoolLevel - e.Pool.Floor)
	c := e.Likely()
	displaced := c.Of(e.Pool.Displaced)
	density := s.Likely.Density
	pool := box * (1 - displaced) * density
	wood := box * displaced * sunk
	sump := e.Sump.Width * e.Sump.Depth * (s.Likely.SumpLevel - e.Sump.Bottom) * density
	area := e.Wall.Width * e.Wall.Height
	total := func(wall float64) float64 { return glass + pool + wood + area*wall }
	band := quantity.Band[quantity.Mass]{Low: quantity.Mass(total(wetWallLow)), Likely: quantity.Mass(total(wetWallLikely)), High: quantity.Mass(total(wetWallHigh))}
	mass := func(name string, v float64) {
		a.Figures = append(a.Figures, figure(name, quantity.Exactly(quantity.Mass(v)), sys))
	}
	a.Figures = append(a.Figures, figure("enclosure running, without stand and sump", band, sys))
	mass("panes", glass)
	mass("water in the pool", pool)
	mass("wood and stone in the pool, taken as 1.5 times as heavy as water", wood)
	mass("water in the sump", sump)
	if name != "" {
		mass("heaviest pane, the "+name, heaviest)
	}
	out := e.Design.Enclosure.Outside
	foot := float64(out.Width.Value) * float64(out.Depth.Value)
	if !out.Given() {
		foot = float64(e.Design.Enclosure.Inside.Width.Value) * float64(e.Design.Enclosure.Inside.Depth.Value)
	}
	local := (float64(band.High) + sump) / foot
	a.Figures = append(a.Figures, floorFigure(local, sys))
	a.Limit = Limit{Text: floorText(usualFloor, sys) + ", what many floors of dwellings are designed for; what yours bears depends on its span and on where it stands", Source: "practice", Mark: "building practice, from memory"}
	a.Score = usualFloor / local
	a.Say = fmt.Sprintf("About %s running, and %s more in the sump.", band.ShowLikely(sys), quantity.Mass(sump).Show(sys))
	a.Matters = append(a.Matters, Matter{
		What: "weight of the wet planted wall", Range: fmt.Sprintf("%s to %s", floorText(wetWallLow, sys), floorText(wetWallHigh, sys)),
		Effect: fromTo(quantity.Mass(total(wetWallLow)).Show(sys), quantity.Mass(total(wetWallHigh)).Show(sys)),
		Swing:  area * (wetWallHigh - wetWallLow) / total(wetWallLikely), Why: "assumed, no source", Settle: "weigh a wet piece of it",
	})
	switch {
	case local > usualFloor:
		a.Verdict = Tight
		a.Say += fmt.Sprintf(" Under it the floor gets %s, more than floors are commonly designed for on average; a small spot may bear it, near a wall and across the joists: ask an engineer.", floorText(local, sys))
	default:
		a.Verdict = Holds
		a.Say += " That is less than floors are commonly designed for."
	}
	if e.Design.Place.Floor.Value == "" {
		a.Say += " The file does not say what the floor is (place.floor)."
	}
	empty := total(0) - pool - wood
	if n := structure.PeopleToLift(empty, 0); n > 0 {
		a.Say += fmt.Sprintf(" Empty, its panes weigh %s: %s to lift.", quantity.Mass(empty).Show(sys), people(n))
	} else {
		a.Say += fmt.Sprintf(" Empty, its panes weigh %s: too much to lift by hand, even for three; build it in its place.", quantity.Mass(empty).Show(sys))
	}
	a.Cautions = []string{"Lifting glass: gloves, suction cups, a second person; an engineer has the last word on the floor, not this arithmetic."}
	return a
}

// panesMass is what all panes weigh, kg, the heaviest of them and its name. What
// nobody has looked at is taken as glass.
func (s *Survey) panesMass() (all, heaviest float64, name string) {
	for i := range s.E.Design.Enclosure.Panes {
		p := &s.E.Design.Enclosure.Panes[i]
		m, ok := structure.MaterialOf(study.GlassKind(p.Glass.Value))
		if !ok {
			m, _ = structure.MaterialOf(structure.Annealed)
		}
		mass := float64(p.Width.Value) * float64(p.Height.Value) * float64(p.Thickness.Value) * m.Density.Likely
		if mass > heaviest {
			heaviest, name = mass, p.Name.Value
		}
		all += mass * float64(max(1, p.Count.Value))
	}
	return all, heaviest, name
}

func people(n int) string {
	return [...]string{"", "one person", "two people", "three people"}[n]
}

func floorFigure(v float64, sys quantity.System) Figure {
	f := Figure{Name: "on the floor under it, sump with it, at most", Low: v, Likely: v, High: v, Unit: "kg/m2", Text: floorText(v, sys)}
	if sys == quantity.US {
		v *= 0.3048 * 0.3048 / 0.45359237
		f.Low, f.Likely, f.High, f.Unit = v, v, v, "lb/ft2"
	}
	return f
}

// floorText shows a load over an area.
func floorText(v float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.0f lb/ft2", v/0.45359237*0.3048*0.3048)
	}
	return fmt.Sprintf("%.0f kg/m2", v)
}
