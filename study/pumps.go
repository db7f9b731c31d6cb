package study

import (
	"math"

	"rillwright/enclosure"
	"rillwright/hydraulics"
	"rillwright/hydraulics/network"
)

// pumpLaw is a pump behind its strainer as a law: the head it gives is a head
// not lost.
type pumpLaw struct {
	set      hydraulics.PumpSet
	strainer float64 // m for each (m3/s)^2, and what else is narrow there
	air      float64 // m, whatever the flow
}

// Loss implements network.Law.
func (p *pumpLaw) Loss(q float64) (h, slope float64) {
	h, slope = p.set.Head(q)
	a := math.Abs(q)
	return p.strainer*q*a + p.air - h, 2*p.strainer*a - slope
}

func (b *supply) pumps() {
	for i := range b.e.Pumps {
		p := &b.e.Pumps[i]
		in := b.sump
		if !p.InSump {
			in = b.free(p.Name, " inlet")
		}
		b.curves = append(b.curves, caseCurve(&p.Curve, b.c))
		b.pumpIn = append(b.pumpIn, in)
		b.pumpOut = append(b.pumpOut, b.free(p.Name, " outlet"))
	}
}

// pumpLinks joins each pump's two sides, with the loss of its strainer.
func (b *supply) pumpLinks() {
	for i := range b.e.Pumps {
		p := &b.e.Pumps[i]
		b.laws = append(b.laws, pumpLaw{set: b.curves[i].at(p.Speed * b.s.speed()), strainer: b.strainer(p, i) + p.OutletLoss, air: p.AirHead})
		b.pumpLink = append(b.pumpLink, b.link(network.Link{
			ID: p.Name, From: b.pumpIn[i], To: b.pumpOut[i], Law: &b.laws[i], OneWay: true, Guess: 0.35 * b.curves[i].zeroHead,
		}))
	}
}

// strainer returns the loss of a pump's strainer for each square of the flow.
func (b *supply) strainer(p *enclosure.Pump, i int) float64 {
	r := p.StrainerLoss
	if p.StrainerK > 0 {
		if bore := b.outletBore(i); bore > 0 {
			a := hydraulics.CircleArea(bore)
			r += p.StrainerK / (2 * hydraulics.G * a * a)
		}
	}
	return r * b.c.Of(b.e.StrainerDirt)
}

// outletBore is the bore of a pump's outlet, or of what is put on it; 0 if neither
// is known.
func (b *supply) outletBore(i int) float64 {
	if d := b.e.Pumps[i].OutletBore; d > 0 {
		return d
	}
	for k := range b.e.Runs {
		if u := &b.e.Runs[k]; u.From.Kind == enclosure.AtPump && u.From.Index == i && len(u.Pieces) > 0 {
			return b.c.Of(u.Pieces[0].Bore)
		}
	}
	return 0
}

type pumpCurve struct {
	curve    hydraulics.Curve
	zeroHead float64 // flow without lift
}

// at returns the pump at a share of its full speed.
func (p pumpCurve) at(speed float64) hydraulics.PumpSet {
	return hydraulics.PumpSet{Pump: p.curve, Speed: speed, Parallel: 1, Series: 1}
}

// caseCurve returns a pump's curve in a case. Curves were checked by Resolve.
func caseCurve(c *enclosure.Curve, k enclosure.Case) pumpCurve {
	if c.Label {
		curve, err := hydraulics.LabelCurve(c.HMax, c.QMax, k.Of(c.Shape))
		if err == nil {
			return pumpCurve{curve, c.QMax}
		}
	}
	curve, err := hydraulics.NewTableCurve(c.Flow, c.Head)
	if err != nil {
		return pumpCurve{hydraulics.PowerCurve{C: 1}, 0}
	}
	return pumpCurve{curve, c.Flow[len(c.Flow)-1]}
}

// pumpHead returns the head of a pump of the circuit at a flow.
func (b *supply) pumpHead(i int, q float64) float64 {
	h, _ := b.curves[i].at(b.e.Pumps[i].Speed * b.s.speed()).Head(q)
	return h
}

// PumpHead returns the head of a pump at a flow in a case, for plots.
func PumpHead(p *enclosure.Pump, c enclosure.Case, s Setting, q float64) float64 {
	h, _ := caseCurve(&p.Curve, c).at(p.Speed * s.speed()).Head(q)
	return h
}

// CurveHead returns the head of a pump given by points at a flow, at full
// speed.
func CurveHead(c *enclosure.Curve, q float64) float64 {
	h, _ := caseCurve(c, nil).curve.Head(q)
	return h
}
