package study

import (
	"errors"
	"math"
	"strings"
	"sync"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/fluid"
	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/structure/plate"
)

// GlassPane is one pane that carries water, and how it stands: running, and with
// the pool full to the dam's top.
type GlassPane struct {
	Name      string
	Kind      structure.Kind
	Width     float64 // m
	Height    float64
	Thickness quantity.Band[float64] // as sold under its name, or as measured
	Named     bool                   // the thickness is a shop's name for a range
	FreeTop   bool
	Lying     bool         // a floor held at its rim
	Depth     [2]float64   // of water over its lower edge, running and brim-full, m
	Running   PaneState    // of the likely thickness
	Brim      [3]PaneState // with the glass thin, as likely, and thick
	Line      int
}

// PaneState is what a pane bears.
type PaneState struct {
	Stress, Bow float64 // largest principal tension, Pa, and deflection, m
	X, Y        float64 // where the stress is, m
	EdgeBow     float64 // at the middle of a free top edge
	Side        plate.Reaction
	Edges       [4]plate.Reaction // what each edge's support takes, by plate.Side; N/m and N
	Corners     [4]float64        // N, by plate.Corner; below 0 the corner is held down
	Braces      []plate.Reaction  // in the order of the pane's braces
	Error       float64           // of the stress, as a share
}

// Glass poses the panes that the pool's water presses on and solves them. The
// pool stands at level while it runs, m above the room floor.
func Glass(e *enclosure.Enclosure, c enclosure.Case, level float64) ([]GlassPane, error) {
	panes := glassPanes(e, level)
	weight := waterWeight(c.Of(e.WaterTemperature))
	var wg sync.WaitGroup
	var errs []error
	var mu sync.Mutex
	for i := range panes {
		for _, j := range panes[i].jobs() {
			wg.Go(func() {
				var err error
				if *j.to, err = panes[i].at(j.t, j.depth, weight); err != nil {
					mu.Lock()
					defer mu.Unlock()
					errs = append(errs, err)
				}
			})
		}
	}
	wg.Wait()
	return panes, errors.Join(errs...)
}

func waterWeight(celsius float64) float64 {
	density := 1000.0
	if w, ok := fluid.AtCelsius(celsius); ok {
		density = w.Density
	}
	return density * structure.G
}

// glassPanes finds the dam and, by their names, the panes that stand in the pool.
func glassPanes(e *enclosure.Enclosure, level float64) []GlassPane {
	d := e.Design
	depth := [2]float64{level - e.Pool.Floor, e.Pool.DamTop - e.Pool.Floor}
	var out []GlassPane
	if dam := &d.Dam; dam.Pos.Line > 0 && dam.Thickness.Given() {
		p := GlassPane{
			Name: "dam", Width: e.Pool.DamWidth, Height: float64(dam.Height.Value), FreeTop: true, Depth: depth, Line: dam.Thickness.Pos.Line,
			Kind: structure.Annealed,
		}
		for i := range d.Enclosure.Panes {
			if strings.Contains(strings.ToLower(d.Enclosure.Panes[i].Name.Value), "dam") {
				p.Kind = GlassKind(d.Enclosure.Panes[i].Glass.Value)
			}
		}
		p.Thickness, p.Named = thickness(dam.Thickness)
		out = append(out, p)
	}
	under := e.Pool.Floor - float64(d.Enclosure.Bottom.Value) // of the pool over the panes' lower edge
	for i := range d.Enclosure.Panes {
		pane := &d.Enclosure.Panes[i]
		p := GlassPane{
			Name: pane.Name.Value, Kind: GlassKind(pane.Glass.Value), Width: float64(pane.Width.Value), Height: float64(pane.Height.Value), Line: pane.Pos.Line,
			Depth: [2]float64{depth[0] + under, depth[1] + under},
		}
		switch name := strings.ToLower(p.Name); {
		case strings.Contains(name, "dam") || strings.Contains(name, "door") || strings.Contains(name, "strip") || strings.Contains(name, "top") || strings.Contains(name, "lid"):
			continue // holds no water
		case strings.Contains(name, "base") || strings.Contains(name, "floor") || strings.Contains(name, "bottom"):
			if d.Enclosure.Turned.Value != "on end" && d.Enclosure.Turned.Value != "on its back" {
				continue // lies on a board
			}
			p.Lying = true
		default:
			p.FreeTop = true
		}
		p.Thickness, p.Named = thickness(pane.Thickness)
		out = append(out, p)
	}
	return out
}

// GlassKind is what a word of the design file stands for.
func GlassKind(word string) structure.Kind {
	switch word {
	case "annealed":
		return structure.Annealed
	case "toughened":
		return structure.Toughened
	case "laminated":
		return structure.Laminated
	case "acrylic":
		return structure.Acrylic
	case "polycarbonate":
		return structure.Polycarbonate
	}
	return structure.UnknownKind
}

// thickness is what glass of a thickness measures: a range if that is a name by
// which it is sold.
func thickness(f design.Field[quantity.Length]) (quantity.Band[float64], bool) {
	t := float64(f.Value)
	list := structure.MetricFloat()
	if strings.Contains(f.Text, "in") {
		list = structure.USFloat()
	}
	for i := range list {
		if math.Abs(list[i].Named-t) < 1e-5 {
			return list[i].Actual.Band, true
		}
	}
	return quantity.Exactly(t), false
}

// at solves a pane with glass of a thickness under water of a depth.
func (p *GlassPane) at(t, depth, weight float64) (PaneState, error) {
	m, ok := structure.MaterialOf(p.Kind)
	if !ok { // not checked: bends like glass, whatever it bears
		m, _ = structure.MaterialOf(structure.Annealed)
	}
	pane := plate.Pane{
		Width: p.Width, Height: p.Height, Thickness: t, Young: m.Creep.Likely, Poisson: m.Poisson.Likely,
		Edges: [4]plate.Support{plate.Held, plate.Held, plate.Held, plate.Held},
	}
	if p.FreeTop {
		pane.Edges[plate.Top] = plate.Free
	}
	load := plate.Load{Inner: depth, Weight: weight}
	if p.Lying {
		load = plate.Load{Uniform: weight * depth}
	}
	r, err := plate.Solve(&pane, load, plate.Settings{})
	if err != nil {
		return PaneState{}, err
	}
	return PaneState{
		Stress: r.Stress.Value, X: r.Stress.X, Y: r.Stress.Y, Bow: math.Abs(r.Bow.Value),
		EdgeBow: math.Abs(r.At(p.Width/2, p.Height).Deflection), Side: r.Edges[plate.Left], Edges: r.Edges, Corners: r.Corners, Braces: r.Braces, Error: r.StressError,
	}, nil
}

// jobs are the states of a pane that are asked for.
func (p *GlassPane) jobs() []paneJob {
	t := p.Thickness
	return []paneJob{
		{&p.Running, t.Likely, p.Depth[0]},
		{&p.Brim[0], t.Low, p.Depth[1]},
		{&p.Brim[1], t.Likely, p.Depth[1]},
		{&p.Brim[2], t.High, p.Depth[1]},
	}
}

// paneJob is one state to be solved.
type paneJob struct {
	to       *PaneState
	t, depth float64
}

// HeldTop returns the brim-full state of a pane if its top edge were held, which
// is what tables of tank sides tell.
func (p *GlassPane) HeldTop(weight float64) (PaneState, error) {
	q := *p
	q.FreeTop = false
	return q.at(p.Thickness.Likely, p.Depth[1], weight)
}

// OfThickness returns the brim-full state of a pane of another thickness.
func (p *GlassPane) OfThickness(t, weight float64) (PaneState, error) {
	return p.at(t, p.Depth[1], weight)
}

// WaterWeight returns the weight of the enclosure's water, N/m3.
func WaterWeight(e *enclosure.Enclosure, c enclosure.Case) float64 {
	return waterWeight(c.Of(e.WaterTemperature))
}
