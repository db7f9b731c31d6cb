package study

import (
	"fmt"
	"math"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/geom"
	"rillwright/layout"
	"rillwright/light"
	"rillwright/quantity"
)

// Lit is one face on which light is computed.
type Lit struct {
	Name string
	Grid light.Grid
	// DLI holds a day's light at each point of the grid, mol/m2, likely, and Peak
	// is the PPFD at its brightest point with all lamps on, umol/(m2 s).
	DLI  []float64
	Mean float64
	Peak float64
}

// Lighting is the light in an enclosure.
type Lighting struct {
	Faces []Lit // wall high, middle and low, and the water
	Wall  Lit   // the whole wall, for a map
	// Up is how high each lamp glows over the inside bottom, m.
	Up []float64
	// Share is the band of all light over the likely: lumens, photons in a lumen,
	// age and dust.
	Share   quantity.Band[float64]
	Doubts  []enclosure.Doubt
	Assumed []string
	// Dark says that the file has no lamp with hours, lumens or power.
	Dark bool
}

// Reflectances of the faces, likely: planted wall, clear panes by night, floor and
// lid; from memory.
const (
	plantedReflects = 0.12
	glassReflects   = 0.08
	waterReflects   = 0.06
)

// lit is what of an enclosure its light depends on.
type lit struct {
	Inside geom.Vec
	Face   float64 // of what is planted, before the back pane, m
	Level  float64 // of the water above the inside bottom, m
	Lights []design.Light
	Tops   []lid // panes at the top
}

type lid struct {
	Box   geom.Box
	Thick float64
}

func lightParts(e *enclosure.Enclosure) lit {
	at := layout.Of(e)
	in := at.Inside.Max
	out := lit{Inside: in, Lights: e.Design.Lights}
	out.Level = math.Min(math.Max(at.Z(e.Pool.Floor)+0.5*(e.Pool.DamTop-e.Pool.Floor), 0), 0.8*in.Z)
	for i := range at.Grids {
		if at.Grids[i].At == "back" {
			out.Face = math.Max(out.Face, at.Grids[i].Box.Max.Y)
		}
	}
	if out.Face = math.Min(out.Face+0.03, 0.6*in.Y); out.Face < 0.05 {
		out.Face = 0.05
	}
	for i := range at.Panes {
		if p := &at.Panes[i]; p.At == "top" {
			out.Tops = append(out.Tops, lid{p.Box, p.Thick})
		}
	}
	return out
}

// LightKey is the same for two enclosures whose light is the same.
func LightKey(e *enclosure.Enclosure) string { return fmt.Sprintf("%+v", lightParts(e)) }

// Shine computes the light on the wall and the water. The error is of a lamp that
// cannot be.
func Shine(e *enclosure.Enclosure) (*Lighting, error) {
	from := lightParts(e)
	in, face, level := from.Inside, from.Face, from.Level
	out := &Lighting{Dark: true}
	assume := func(f string, args ...any) { out.Assumed = append(out.Assumed, fmt.Sprintf(f, args...)) }
	assume("the planted face is %.0f mm before the back pane", 1000*face)
	room := &light.Room{
		Box:     geom.Box{Min: geom.Vec{Y: face, Z: level}, Max: in},
		Reflect: [6]float64{glassReflects, glassReflects, plantedReflects, glassReflects, waterReflects, glassReflects},
	}
	perLumen := light.WhiteLED()
	lumens := quantity.Band[float64]{Low: 1, Likely: 1, High: 1}
	measured := true
	var lamps []light.Lamp
	var hours []float64
	var names []string
	for i := range from.Lights {
		x := &from.Lights[i]
		flux := float64(x.Lumens.Value)
		if !x.Lumens.Given() {
			if !x.Power.Given() {
				continue
			}
			flux = 100 * float64(x.Power.Value)
			measured = false
			assume("%s gives 100 lm/W (lights[%s].lumens)", x.Name.Value, x.Name.Value)
		}
		h := float64(x.Hours.Value)
		if h == 0 {
			h = 11 * 3600
			assume("%s is on for 11 hours a day", x.Name.Value)
		}
		l := light.Lamp{Kind: light.Strip, Flux: flux * perLumen.Likely, Aim: geom.Vec{Z: -1}, Along: geom.Vec{X: 1}, Beam: 1}
		switch x.Kind.Value {
		case "panel":
			l.Kind = light.Panel
		case "spot":
			l.Kind = light.Point
		}
		if x.Beam.Given() {
			l.Beam = light.BeamExponent(float64(x.Beam.Value))
			if math.Abs(l.Beam-1) < 0.01 {
				l.Beam = 1
			}
		}
		if l.Length = float64(x.Length.Value); l.Length == 0 {
			l.Length = 0.8 * in.X
			if l.Kind != light.Point {
				assume("%s is as long as 80 %% of the inside", x.Name.Value)
			}
		}
		if l.Width = float64(x.Width.Value); l.Width == 0 {
			l.Width = 0.1
		}
		l.At = geom.Vec{X: in.X / 2, Y: in.Y / 2, Z: in.Z + 0.03}
		switch {
		case x.Up.Given():
			l.At.Z = float64(x.Up.Value)
		case x.Sits.Value == "inside":
			l.At.Z = in.Z - 0.03
		}
		if !x.Up.Given() {
			assume("%s glows %.0f mm up", x.Name.Value, 1000*l.At.Z)
		}
		if x.Out.Given() {
			l.At.Y = float64(x.Out.Value)
		} else {
			assume("%s hangs over the middle, front to back", x.Name.Value)
		}
		if x.Left.Given() {
			l.At.X = float64(x.Left.Value) + l.Length/2
			if l.Kind == light.Point {
				l.At.X = float64(x.Left.Value)
			}
		}
		if l.At.Z >= in.Z {
			for _, p := range from.Tops {
				if b := p.Box; b.Min.Y <= l.At.Y && b.Max.Y >= l.At.Y {
					l.Lid, l.LidNormal = light.NewLid(1.52, 10, math.Max(p.Thick, 0.002)), geom.Vec{Z: 1}
				}
			}
		}
		out.Up = append(out.Up, l.At.Z)
		lamps, hours, names = append(lamps, l), append(hours, h), append(names, x.Name.Value)
	}
	if len(lamps) == 0 {
		return out, nil
	}
	out.Dark = false
	if !measured {
		lumens = quantity.Band[float64]{Low: 0.75, Likely: 1, High: 1.4}
		out.Doubts = append(out.Doubts, enclosure.Doubt{ID: "lumens", What: "light of lamps whose lumens are not given", Low: lumens.Low, Likely: 1, High: lumens.High, Unit: enclosure.Times, Why: "75 to 140 lm/W for white diodes, assumed", Settle: "the label"})
	}
	aged := quantity.Band[float64]{Low: 0.6, Likely: 0.8, High: 0.95}
	tint := perLumen.Scale(1 / perLumen.Likely)
	out.Doubts = append(
		out.Doubts,
		enclosure.Doubt{ID: "age", What: "what age, dust and wet glass leave of the light", Low: aged.Low, Likely: aged.Likely, High: aged.High, Unit: enclosure.Percent, Why: "assumed, no source", Settle: "a light meter at the wall, or a phone held there and by a window"},
		enclosure.Doubt{ID: "tint", What: "photons in a lumen, by the white of the lamp", Low: tint.Low, Likely: 1, High: tint.High, Unit: enclosure.Times, Why: "0.013 to 0.018 umol in a lumen, from memory"},
	)
	out.Share = quantity.Band[float64]{Low: lumens.Low * aged.Low / aged.Likely * tint.Low, Likely: 1, High: lumens.High * aged.High / aged.Likely * tint.High}

	height := in.Z - level
	wall := func(name string, from, to float64, nu, nv int) Lit {
		return Lit{Name: name, Grid: light.Grid{
			Quad:   light.Quad{Corner: geom.Vec{Y: face, Z: level + from*height}, U: geom.Vec{X: in.X}, V: geom.Vec{Z: (to - from) * height}},
			Normal: geom.Vec{Y: 1}, NU: nu, NV: nv,
		}}
	}
	out.Faces = []Lit{wall("upper third of the wall", 2.0/3, 1, 20, 10), wall("middle third", 1.0/3, 2.0/3, 20, 10), wall("lower third", 0, 1.0/3, 20, 10), {
		Name: "water", Grid: light.Grid{Quad: light.Quad{Corner: geom.Vec{Y: face, Z: level}, U: geom.Vec{X: in.X}, V: geom.Vec{Y: in.Y - face}}, Normal: geom.Vec{Z: 1}, NU: 20, NV: 12},
	}}
	out.Wall = wall("wall", 0, 1, 60, max(10, min(120, int(60*height/in.X))))
	// Lamps may be on for different times: each shines by itself.
	for i := range lamps {
		f, err := light.NewField(&light.Scene{Lamps: lamps[i : i+1], Room: room}, light.All)
		if err != nil {
			return nil, fmt.Errorf("lights[%s]: %w", names[i], err)
		}
		for k := range out.Faces {
			out.Faces[k].add(f, aged.Likely, hours[i])
		}
		out.Wall.add(f, aged.Likely, hours[i])
	}
	return out, nil
}

// Brightest returns the greatest mean of a day's light on a face, mol/m2.
func (l *Lighting) Brightest() float64 {
	most := 0.0
	for i := range l.Faces {
		most = math.Max(most, l.Faces[i].Mean)
	}
	return most
}

// add adds what one lamp gives in its hours.
func (l *Lit) add(f *light.Field, share, hours float64) {
	ppfd := make([]float64, l.Grid.NU*l.Grid.NV)
	f.Map(l.Grid, ppfd)
	if l.DLI == nil {
		l.DLI = make([]float64, len(ppfd))
	}
	peak := 0.0
	for i, e := range ppfd {
		l.DLI[i] += light.DLI(share*e, hours)
		peak = math.Max(peak, share*e)
		l.Mean += light.DLI(share*e, hours) / float64(len(ppfd))
	}
	l.Peak += peak
}
