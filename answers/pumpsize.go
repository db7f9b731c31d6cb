package answers

import (
	"fmt"
	"math"

	"rillwright/catalogue"
	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/study"
)

// pumpSize answers how big a pump this width and look need.
func (s *Survey) pumpSize(cat *catalogue.Catalogue) Answer {
	sys := s.E.Units
	a := Answer{ID: "pump-size", Question: "How big a pump does this width and look need?"}
	target, _, _, l := s.wanted()
	if target <= 0 || len(s.E.Pumps) != 1 {
		a.Verdict = Unknown
		a.Say = "This is worked out for a design with one pump and a wall."
		return a
	}
	need, err := s.headNeeded(target)
	if err != nil {
		a.Verdict, a.Say = Unknown, "The circuit cannot carry that flow: "+err.Error()
		if run := s.shutRun(); run != "" {
			a.Say = "This cannot be said while a valve in the " + run + " is shut."
		}
		return a
	}
	a.Figures = append(a.Figures,
		figure("flow wanted", quantity.Exactly(quantity.Flow(target)), sys),
		headFigure("head the pump must give at that flow", need, sys))
	a.Limit = Limit{Text: "the pessimistic reading of the label, a straight line between its two figures, at the bad end of the circuit", Source: "derived", Mark: "derived"}
	gives := s.gives(&s.E.Pumps[0].Curve, target)
	a.Margin = beyond(gives, float64(need.High), "head than needed, on the pessimistic label and the bad circuit")
	a.Key, a.Score = 1, gives/float64(need.High)
	switch {
	case gives >= float64(need.High):
		a.Verdict = Holds
		a.Say = fmt.Sprintf("The %s is big enough for %s even on the pessimistic reading.", s.E.Pumps[0].Name, l.name)
	case s.best(&s.E.Pumps[0].Curve, target) >= float64(need.Low):
		a.Verdict = Tight
		a.Say = fmt.Sprintf("The %s may do; only its true curve can tell.", s.E.Pumps[0].Name)
	default:
		a.Verdict = Fails
		a.Say = fmt.Sprintf("The %s is too small for %s, however its label is read.", s.E.Pumps[0].Name, s.flowText(target))
	}
	for i := range s.E.Shelf {
		p := &s.E.Shelf[i]
		a.Figures = append(a.Figures, s.pumpFigure("shelf: "+p.Name, &p.Curve, target, need))
	}
	if cat != nil {
		if name, ok := s.smallest(cat, target, float64(need.High)); ok {
			a.Say += " The smallest class in the catalogue that surely does is the " + name + "."
		} else {
			a.Say += " No class in the catalogue surely does."
		}
	}
	a.LimitingLine = s.E.Pumps[0].Pos.Line
	a.Limiting, _ = s.hardestPiece()
	a.Cautions = []string{
		"Most small pumps should not work above 60 to 70 % of their largest lift (from memory of the trade).",
		electricalCaution(),
	}
	return a
}

// headNeeded is the head that the one pump must give to bring a flow, over the
// doubts that are not its own.
func (s *Survey) headNeeded(q float64) (quantity.Band[quantity.Length], error) {
	likely, err := study.SystemHead(s.E, s.E.Likely(), study.Setting{}, q)
	if err != nil {
		return quantity.Band[quantity.Length]{}, err
	}
	// More flow and more head at a flow are opposite: what lowers the flow
	// raises the head needed.
	signs := s.curveSenses()
	ends := [2]float64{}
	for side := range ends {
		c := s.E.Likely()
		for i, sign := range signs {
			switch {
			case (sign > 0) == (side == 0) && sign != 0:
				c[i] = s.E.Doubts[i].High
			case sign != 0:
				c[i] = s.E.Doubts[i].Low
			}
		}
		if ends[side], err = study.SystemHead(s.E, c, study.Setting{}, q); err != nil {
			return quantity.Band[quantity.Length]{}, err
		}
	}
	return quantity.Band[quantity.Length]{
		Low: quantity.Length(min(ends[0], likely)), Likely: quantity.Length(likely), High: quantity.Length(max(ends[1], likely)),
	}, nil
}

// gives returns the head of a curve at a flow, read pessimistically.
func (s *Survey) gives(c *enclosure.Curve, q float64) float64 { return curveHead(c, q, 1) }

// best returns it read optimistically.
func (s *Survey) best(c *enclosure.Curve, q float64) float64 { return curveHead(c, q, 2) }

func curveHead(c *enclosure.Curve, q, shape float64) float64 {
	if c.Label {
		return c.HMax * (1 - math.Pow(q/c.QMax, shape))
	}
	return study.CurveHead(c, q)
}

func (s *Survey) pumpFigure(name string, c *enclosure.Curve, q float64, need quantity.Band[quantity.Length]) Figure {
	b := quantity.Band[quantity.Length]{Low: quantity.Length(s.gives(c, q)), High: quantity.Length(s.best(c, q))}
	b.Likely = (b.Low + b.High) / 2
	f := headFigure(name+", head at that flow", b, s.E.Units)
	switch {
	case b.Low >= need.High:
		f.Text += ": does it surely"
	case b.High >= need.Low:
		f.Text += ": may do it"
	default:
		f.Text += ": does not"
	}
	return f
}

// smallest finds the smallest pump class of the catalogue, in the builder's
// units, that surely does.
func (s *Survey) smallest(cat *catalogue.Catalogue, q, head float64) (string, bool) {
	for _, p := range cat.PumpsAtLeast(quantity.Flow(q), quantity.Length(head)) {
		if us := p.Price.Currency == "USD"; us != (s.E.Units == quantity.US) && p.Price.Given() {
			continue
		}
		c := enclosure.Curve{HMax: float64(p.Label.Head), QMax: float64(p.Label.Flow), Label: true}
		if s.gives(&c, q) >= head {
			return p.Name, true
		}
	}
	return "", false
}
