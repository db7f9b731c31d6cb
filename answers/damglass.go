package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/design"
	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/study"
)

// damMore adds to the dam's answer what a table of tank sides would say, and the
// glass that it could be made of: what is on hand, then what is sold.
func (s *Survey) damMore(a *Answer, p *study.GlassPane) error {
	weight := study.WaterWeight(s.E, s.E.Likely())
	held, err := p.HeldTop(weight)
	if err != nil {
		return err
	}
	if held.Bow > 0 {
		times := bowOf(p.Brim[1]) / held.Bow
		a.Figures = append(a.Figures, Figure{
			Name: "bow over that of tables of tank sides, whose top is held", Low: times, Likely: times, High: times,
			Text: fmt.Sprintf("%.0f times", times),
		})
	}
	if err := s.damStock(a, p); err != nil {
		return err
	}
	shown := 0
	for _, n := range s.nominal() {
		if n.Actual.Likely <= p.Thickness.Likely*0.75 || shown == 3 || math.Abs(n.Actual.Likely-p.Thickness.Likely) < 1e-4 {
			continue
		}
		shown++
		if err := s.choice(a, p, "in "+n.Name+" glass at most, pool full", n.Actual.Low); err != nil {
			return err
		}
	}
	return nil
}

// nominal lists the thicknesses that are sold where the builder is.
func (s *Survey) nominal() []structure.Nominal {
	if s.E.Units == quantity.US {
		return structure.USFloat()
	}
	return structure.MetricFloat()
}

// choice adds what a dam of annealed glass of a thickness would bear.
func (s *Survey) choice(a *Answer, p *study.GlassPane, name string, t float64) error {
	q := *p
	if q.IsPlastic() {
		q.Kind = structure.Annealed
	}
	st, err := q.State(study.Ask{Thickness: t, Side: -1, Coarse: true})
	if err != nil {
		return err
	}
	f := s.stressFigure(name, same(st))
	if limit, ok := structure.PermanentLimit(q.Kind); ok {
		f = bounded(f, limit.Likely/s.stressUnit())
	}
	f.Text += " and " + small(bowOf(st), s.E.Units) + " of bow"
	a.Figures = append(a.Figures, f)
	return nil
}

// damStock adds the sheets of glass on hand of which a dam could be cut.
func (s *Survey) damStock(a *Answer, p *study.GlassPane) error {
	for i := range s.E.Design.Stock {
		it := &s.E.Design.Stock[i]
		sheet, ok := glassSheet(it)
		if !ok {
			continue
		}
		name := fmt.Sprintf("in your %s of %s at most, pool full", it.What.Value, it.Size.Value)
		if sheet.long < max(p.Width, p.Height)-1e-6 || sheet.short < min(p.Width, p.Height)-1e-6 {
			a.Figures = append(a.Figures, Figure{Name: name, Text: "too small for the dam"})
			continue
		}
		if err := s.choice(a, p, name, sheet.thick.Low); err != nil {
			return err
		}
		a.Cautions = append(a.Cautions, fmt.Sprintf("The %s is taken as annealed: look at it through polarised light before it is cut; toughened glass bursts.", it.What.Value))
	}
	return nil
}

// sheet is a piece of glass on hand, m.
type sheet struct {
	long, short float64
	thick       quantity.Band[float64]
}

// glassSheet reads a piece of stock that is glass and whose size has three parts,
// as "500 x 250 x 6 mm" or "20 in x 10 in x 1/4 in": a part without a unit has that
// of the next that has one.
func glassSheet(it *design.StockItem) (sheet, bool) {
	what := strings.ToLower(it.What.Value)
	if !strings.Contains(what, "glass") && !strings.Contains(what, "pane") && !strings.Contains(what, "offcut") {
		return sheet{}, false
	}
	parts := strings.FieldsFunc(it.Size.Value, func(r rune) bool { return r == 'x' || r == '×' || r == '*' })
	if len(parts) != 3 {
		return sheet{}, false
	}
	var v [3]float64
	unit := ""
	for i := 2; i >= 0; i-- {
		text := strings.TrimSpace(parts[i])
		l, err := quantity.ParseLength(text)
		if err == nil {
			unit = strings.TrimLeft(text, "0123456789./ ")
		} else if l, err = quantity.ParseLength(text + " " + unit); err != nil {
			return sheet{}, false
		}
		v[i] = float64(l)
	}
	if !(v[0] > 0 && v[1] > 0 && v[2] > 0) {
		return sheet{}, false
	}
	s := sheet{long: max(v[0], v[1]), short: min(v[0], v[1]), thick: study.SoldThickness(v[2], strings.Contains(it.Size.Value, "in"))}
	return s, true
}
