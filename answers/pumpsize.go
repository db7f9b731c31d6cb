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
	d, err := s.duty(target)
	if err != nil {
		a.Verdict, a.Say = Unknown, "The circuit cannot carry that flow: "+err.Error()
		if run := s.shutRun(); run != "" {
			a.Say = "This cannot be said while a valve in the " + run + " is shut."
		}
		return a
	}
	need, q := d.head, float64(d.flow.High)
	a.Figures = append(a.Figures, figure("flow wanted out of the outlets", quantity.Exactly(quantity.Flow(target)), sys))
	if !d.flow.IsExact() || float64(d.flow.Likely) > target*1.001 {
		a.Figures = append(a.Figures, figure("flow through the pump for that, with the returns", d.flow, sys))
	}
	a.Key = len(a.Figures)
	a.Figures = append(a.Figures, headFigure("head the pump must give at that flow", need, sys))
	pump := &s.E.Pumps[0]
	reading, unsure := "on the pessimistic reading of its label", "only its true curve can tell"
	a.Limit = Limit{Text: "the pessimistic reading of the label, a straight line between its two figures, at the bad end of the circuit with every valve open", Source: "derived", Mark: "derived"}
	if !pump.Curve.Label {
		reading, unsure = "by its curve", "it hangs on the circuit"
		a.Limit.Text = "the pump's curve, at the bad end of the circuit with every valve open"
	}
	speed := pump.Speed
	gives := speed * speed * s.gives(&pump.Curve, q/speed)
	a.Margin = beyond(gives, float64(need.High), "head than needed, "+reading+" and at the circuit's bad end")
	if gives < 0 {
		a.Margin = "no head left at that flow, " + reading
	}
	a.Score = gives / float64(need.High)
	if gives > 0 {
		a.Figures[a.Key] = bounded(a.Figures[a.Key], inHead(gives, sys))
	}
	switch {
	case gives >= float64(need.High):
		a.Verdict = Holds
		a.Say = fmt.Sprintf("The %s is big enough for %s, %s.", pump.Name, l.name, reading)
	case speed*speed*s.best(&pump.Curve, float64(d.flow.Low)/speed) >= float64(need.Low):
		a.Verdict = Tight
		a.Say = fmt.Sprintf("The %s may do; %s.", pump.Name, unsure)
	default:
		a.Verdict = Fails
		a.Say = fmt.Sprintf("The %s is too small for %s, even at the good end of every doubt.", pump.Name, s.flowText(target))
	}
	for i := range s.E.Shelf {
		p := &s.E.Shelf[i]
		a.Figures = append(a.Figures, s.pumpFigure("shelf: "+p.Name, &p.Curve, d))
	}
	if cat != nil {
		if name, ok := s.smallest(cat, q, float64(need.High)); ok {
			a.Say += " The smallest class in the catalogue that surely does is the " + name + "."
		} else {
			a.Say += " No class in the catalogue surely does."
		}
	}
	a.Limiting, a.LimitingLine = s.hardestPiece()
	a.Cautions = []string{
		"Most small pumps should not work above 60 to 70 % of their largest lift (from memory of the trade).",
		electricalCaution(),
	}
	return a
}

// duty is what the one pump must do: its flow, and its head at that flow.
type duty struct {
	flow quantity.Band[quantity.Flow]
	head quantity.Band[quantity.Length]
}

// duty finds what the one pump must do for the outlets to give a flow, over the
// doubts that are not its own.
func (s *Survey) duty(outlets float64) (duty, error) {
	// More flow and more head at a flow are opposite: what lowers the flow
	// raises the head needed.
	signs := s.curveSenses()
	set := study.Setting{OpenValves: true, Workspace: &study.Workspace{}}
	var q, h [3]float64 // at the good end, likely, at the bad end
	for k := range q {
		c := s.E.Likely()
		for i, sign := range signs {
			switch int(sign) * (1 - k) {
			case 1:
				c[i] = s.E.Doubts[i].High
			case -1:
				c[i] = s.E.Doubts[i].Low
			}
		}
		var err error
		if q[k], h[k], err = study.PumpDuty(s.E, c, set, outlets); err != nil {
			return duty{}, err
		}
	}
	return duty{
		flow: quantity.Band[quantity.Flow]{Low: quantity.Flow(min(q[0], q[1])), Likely: quantity.Flow(q[1]), High: quantity.Flow(max(q[1], q[2]))},
		head: quantity.Band[quantity.Length]{Low: quantity.Length(min(h[0], h[1])), Likely: quantity.Length(h[1]), High: quantity.Length(max(h[1], h[2]))},
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

func (s *Survey) pumpFigure(name string, c *enclosure.Curve, d duty) Figure {
	need := d.head
	b := quantity.Band[quantity.Length]{Low: quantity.Length(s.gives(c, float64(d.flow.High))), High: quantity.Length(s.best(c, float64(d.flow.Low)))}
	b.Likely = quantity.Length(curveHead(c, float64(d.flow.Likely), 1.5)) // the likely shape of a label
	f := boundedBelow(headFigure(name+", head at that flow", b, s.E.Units), inHead(float64(need.High), s.E.Units))
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
