package study

import (
	"fmt"
	"math"

	"rillwright/climate"
	"rillwright/climate/moistair"
	"rillwright/enclosure"
	"rillwright/geom"
	"rillwright/layout"
)

// NewLiving gathers what counts for heat and moisture.
func NewLiving(e *enclosure.Enclosure) *Living {
	l := &Living{e: e, Doubts: make([]enclosure.Doubt, livingDoubts)}
	at := layout.Of(e)
	l.room()
	l.wets(at)
	l.glass(at)
	l.openings(at)
	l.heats()
	l.waters(at)
	l.care()
	l.films()
	l.mist()
	return l
}

// Key is the same for two enclosures whose heat and moisture are the same.
func (l *Living) Key() string { return fmt.Sprintf("%+v%+v%q", l.in, l.Doubts, l.Assumed) }

// AirKey is the same for two enclosures that differ at most in how their water is
// changed and topped up.
func (l *Living) AirKey() string {
	in := l.in
	in.PureTopUp, in.ChangeShare, in.ChangeEvery = false, 0, 0
	return fmt.Sprintf("%+v%+v", in, l.Doubts)
}

// Front returns the width of the inside, its height, and how high its front is closed
// by the dam, m.
func (l *Living) Front() (wide, high, foot float64) { return l.front[0], l.front[1], l.front[2] }

// OpenTop returns what share of the top the panes leave open, 0 if that is no more than
// a joint, and how deep the inside is, m.
func (l *Living) OpenTop() (share, deep float64) { return l.openTop, l.deep }

func (l *Living) assume(f string, args ...any) {
	l.Assumed = append(l.Assumed, fmt.Sprintf(f, args...))
}

// room takes the room's air.
func (l *Living) room() {
	p := &l.e.Design.Place
	l.in.RoomCold, l.in.RoomWarm = 18, 26
	if p.Air.Given() {
		l.in.RoomCold, l.in.RoomWarm = float64(p.Air.Value.Low), float64(p.Air.Value.High)
	} else {
		l.assume("room air 18 to 26 C (place.air)")
	}
	d := enclosure.Doubt{
		ID: "room-humidity", What: "relative humidity of the room", Low: 0.35, Likely: 0.45, High: 0.6, Unit: enclosure.Percent,
		Why: "assumed for a heated room, no source", Settle: "a hygrometer beside it, for a week; write it as place.humidity",
	}
	if p.Humidity.Given() {
		b := p.Humidity.Value
		d.Low, d.Likely, d.High, d.Why, d.Pos = float64(b.Low), float64(b.Likely), float64(b.High), "your figure", p.Humidity.Pos
	}
	l.Doubts[doubtHumidity] = d
}

// wets takes wall and pool.
func (l *Living) wets(at *layout.Layout) {
	w := &l.e.Wall
	height := w.Height
	if height == 0 {
		height = 0.7 * at.Inside.Max.Z
	}
	l.in.wallArea = w.Width * height
	box := at.Pool.Box.Size()
	l.in.poolArea = box.X * box.Y * (1 - 0.5*l.e.Pool.Displaced.Value)
	l.Doubts[doubtWet] = enclosure.Doubt{
		ID: "wet-area", What: "wet area of the wall over its plain area", Low: 0.7, Likely: 1.2, High: 2, Unit: enclosure.Times,
		Why: "drops and broken films: 1 to 2 assumed, and dry patches", Settle: "mark the sump, close the top-up and see what is gone after two days",
	}
	// Films of still air at a state in the middle of what is found.
	water, air := climate.Wet(23), climate.Side{Celsius: 23.5, Vapour: 0.8 * moistair.Saturation(23.5)}
	l.in.wallFilm = climate.Film(climate.Face{Upright: true, Length: math.Max(height, 0.1)}, water, air, moistair.Standard).Heat
	length := math.Max(box.X*box.Y/(2*(box.X+box.Y)+1e-9), 0.05)
	l.in.poolFilm = climate.Film(climate.Face{Length: length}, water, air, moistair.Standard).Heat
	l.Doubts[doubtFilm] = enclosure.Doubt{
		ID: "air-over-wall", What: "how fast still air takes up heat and vapour", Low: 0.7, Likely: 1.2, High: 1.8, Unit: enclosure.Times,
		Why: "formulas for still air are good to a fifth, and falling water stirs it; assumed",
	}
}

// glass takes the panes: those that the file has, and what else must close it.
func (l *Living) glass(at *layout.Layout) {
	size := at.Inside.Max
	l.front, l.deep = [3]float64{size.X, size.Z, math.Max(at.Z(l.e.Pool.DamTop), 0)}, size.Y
	thick := func(places ...string) (t float64) {
		for _, p := range at.Panes {
			for _, place := range places {
				if p.At == place {
					t = math.Max(t, p.Thick)
				}
			}
		}
		if t == 0 {
			return 0.005
		}
		return t
	}
	front := math.Max(size.Z-at.Z(l.e.Pool.DamTop), 0.3*size.Z)
	l.in.faces = []livingPane{
		{name: "front", area: size.X * front, thick: thick("front", "door")},
		{name: "sides", area: 2 * size.Y * size.Z, thick: thick("left", "right")},
		{name: "top", area: size.X * size.Y, thick: thick("top")},
		{name: "back", area: size.X * size.Z, thick: thick("back"), back: 1.0},
	}
	has := func(place string) bool {
		for _, p := range at.Panes {
			if p.At == place {
				return true
			}
		}
		return false
	}
	if !has("front") && !has("door") {
		l.assume("a door closes the front, since the file lists none")
	}
	if !has("top") {
		l.assume("a pane closes the top, since the file lists none")
	}
	l.assume("foam and coat keep the back as warm as 1 m2 K/W does")
}

// openings takes vents, gaps and fan.
func (l *Living) openings(at *layout.Layout) {
	in, size := &l.in.Inputs, at.Inside.Max
	mesh, open := false, false
	for _, w := range l.e.Ways {
		area := w.Width * w.Height
		if w.Round {
			area *= math.Pi / 4
		}
		switch w.Closed {
		case "mesh":
			mesh = true
		case "left open":
			open = true
		default:
			continue
		}
		z := size.Z / 2
		if p, ok := at.Find(layout.KindWay, w.Name); ok {
			b := p.Solid.Bounds()
			z = b.Centre().Z
		}
		if z < size.Z/2 {
			in.Low += area
		} else {
			in.High += area
		}
	}
	for i := range l.e.Design.Vents {
		v := &l.e.Design.Vents[i]
		if v.Closed.Value == "left open" {
			open = true
		} else {
			mesh = true
		}
		if area := float64(v.Width.Value) * float64(v.Height.Value); float64(v.Up.Value) < size.Z/2 {
			in.Low += area
		} else {
			in.High += area
		}
	}
	// What panes at the top leave open, if it is more than a joint.
	lid := 0.0
	for _, p := range at.Panes {
		if p.At == "top" {
			lid += p.Width * p.Height
		}
	}
	if gap := size.X*size.Y - lid; lid > 0 && gap > 0.03*size.X*size.Y {
		in.High += gap
		open, l.openTop = true, gap/(size.X*size.Y)
		// Through one level opening air goes both ways, slowly: 0.05 A sqrt(g L dT/T)
		// with 3 K (after Epstein, from memory).
		in.Gaps += 0.05 * gap * math.Sqrt(climate.G*math.Sqrt(gap)*3/295)
		l.assume("%s of the top is open, since panes cover %s of %s", percent(gap/(size.X*size.Y)), squareCm(lid), squareCm(size.X*size.Y))
	}
	// Gaps about doors: 2 mm along their lower and upper edges.
	slots := 0.002 * size.X
	in.Low += slots
	in.High += slots
	in.Gaps += 0.3 / 3600 * math.Max(1, geom.Box{Max: size}.Volume()/0.3)
	in.Apart = math.Max(0.8*(size.Z-at.Z(l.e.Pool.DamTop)), 0.1)
	l.assume("gaps of 2 mm along the door's lower and upper edge, and a third of a cubic metre an hour through others")
	d := climate.ClearDischarge()
	l.Doubts[doubtDischarge] = enclosure.Doubt{
		ID: "vents", What: "what vents let through (discharge coefficient)", Low: d.Low, Likely: d.Likely, High: d.High,
		Why: "open slots, from memory",
	}
	if mesh {
		m := climate.MeshDischarge()
		x := &l.Doubts[doubtDischarge]
		x.Low, x.Likely, x.Why = m.Low, m.Likely, "mesh, from memory; dust makes it less"
		if !open {
			x.High = m.High
		}
	}
	l.Doubts[doubtGaps] = enclosure.Doubt{
		ID: "gaps", What: "air through gaps", Low: 0.4, Likely: 1, High: 2.5, Unit: enclosure.Times,
		Why: "assumed, no source", Settle: "close the vents with tape for a day and see how the humidity goes",
	}
	if f := &l.e.Design.Fan; f.Given() {
		in.Fan, in.FanHours = float64(f.Flow.Value), climate.DayLength
		if f.Hours.Given() {
			in.FanHours = float64(f.Hours.Value)
		}
	}
}

func percent(v float64) string  { return fmt.Sprintf("%.0f %%", 100*v) }
func squareCm(v float64) string { return fmt.Sprintf("%.0f cm2", 1e4*v) }

// heats takes pumps, lamps and heater.
func (l *Living) heats() {
	in, d := &l.in.Inputs, l.e.Design
	for i := range l.e.Pumps {
		p := &l.e.Pumps[i]
		if p.Power > 0 {
			in.Pump += p.Power
		} else {
			in.Pump += 15
			l.assume("%s draws 15 W (pumps[%s].power)", p.Name, p.Name)
		}
	}
	for i := range d.Lights {
		x := &d.Lights[i]
		h := LampHeat{Name: x.Name.Value, Watts: float64(x.Power.Value), Hours: float64(x.Hours.Value), Sits: x.Sits.Value}
		if h.Watts == 0 {
			continue
		}
		if h.Hours == 0 {
			h.Hours = 11 * 3600
			l.assume("%s is on for 11 hours a day", h.Name)
		}
		in.Lamps = append(in.Lamps, h)
	}
	if len(in.Lamps) == 0 {
		l.assume("no lamp gives heat, since the file lists none with its power")
	}
	if h := &d.Heater; h.Given() {
		k := h.Keeps.Value
		in.Heater = climate.Heater{Power: float64(h.Power.Value), Set: float64(k.Low+k.High) / 2, Band: math.Max(float64(k.High-k.Low), 0.2)}
	}
	l.Doubts[doubtLamp] = enclosure.Doubt{
		ID: "lamp-heat", What: "how much of a lamp's heat gets in", Low: 0.6, Likely: 1, High: 1.4, Unit: enclosure.Times,
		Why: "assumed, no source", Settle: "thermometers inside with the lamp on and off",
	}
	if len(in.Lamps) == 0 {
		l.Doubts[doubtLamp].Low, l.Doubts[doubtLamp].High = 1, 1
	}
}

// waters takes water and air inside, and what the sump gives off.
func (l *Living) waters(at *layout.Layout) {
	s, p := &l.e.Sump, &l.e.Pool
	depth := math.Max(s.Level-s.Bottom, 0.02)
	sump := s.Width * s.Depth * depth
	lip := p.DamTop
	for i := range l.e.Drains {
		if d := &l.e.Drains[i]; d.Lip > p.Floor {
			lip = math.Min(lip, d.Lip)
		}
	}
	pool := p.Width * p.Depth * math.Max(lip-p.Floor, 0) * (1 - p.Displaced.Value)
	l.in.water = 998 * math.Max(sump+pool, 0.003)
	// The sump's wet sides and its surface under a cover, and hose: 5 W/(m2 K).
	l.in.sump = 5 * (2*s.Width*s.Depth + 2*(s.Width+s.Depth)*depth)
	l.in.air = math.Max(0.9*at.Inside.Max.X*at.Inside.Max.Y*at.Inside.Max.Z-pool, 0.01)
	l.assume("the sump is covered, and loses 5 W/K for each m2")
}

// care takes how the water is kept.
func (l *Living) care() {
	w := &l.e.Design.Water
	l.in.PureTopUp = w.TopUp.Value == "rain or osmosis"
	if w.Change.Given() && w.Every.Given() {
		l.in.ChangeShare, l.in.ChangeEvery = float64(w.Change.Value), float64(w.Every.Value)
	}
}

// films takes those of the glass.
func (l *Living) films() {
	l.Doubts[doubtInside] = enclosure.Doubt{
		ID: "film-inside", What: "film of air inside the glass, W/m2K", Low: 3, Likely: 4, High: 5,
		Why: "from memory; a stream of air along the front makes it 8",
	}
	l.Doubts[doubtOutside] = enclosure.Doubt{
		ID: "film-outside", What: "film of air and warmth outside the glass, W/m2K", Low: 6, Likely: 8, High: 10,
		Why: "from memory; less in a niche",
	}
}
