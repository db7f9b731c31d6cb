package catalogue

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"rillwright/document"
	"rillwright/finding"
	"rillwright/quantity"
)

// special reads what only some kinds of part have, and reports what a part of
// this kind cannot have.
func (r *partsReader) special(e *partEntry, p *Part) {
	if r.badKind(e) {
		return
	}
	curvePos := document.Pos{}
	if len(e.Curve) > 0 {
		curvePos = e.Curve[0].Pos
	}
	for _, c := range []struct {
		pos  document.Pos
		key  string
		kind Kind
	}{
		{e.Label.Pos, "label", KindPump},
		{curvePos, "curve", KindPump},
		{e.CurveFile.Pos, "curve-file", KindPump},
		{e.Power.Pos, "power", KindPump},
		{e.Emitter.Pos, "emitter", KindEmitter},
		{e.Hole.Pos, "hole", KindBulkhead},
		{e.Flange.Pos, "flange", KindBulkhead},
		{e.OpenArea.Pos, "open-area", KindStrainer},
	} {
		if c.pos.Line > 0 && p.Kind != c.kind {
			r.at(c.pos, r.name+"."+c.key, fmt.Sprintf("%q belongs to a %s, and this is a %s", c.key, c.kind, p.Kind), "take it away, or change the kind")
		}
	}
	switch p.Kind {
	case KindPump:
		r.pump(e, p)
	case KindEmitter:
		r.emitter(e, p)
	case KindBulkhead:
		if e.Hole.Given() && p.Hole.Low <= p.Bore.High && !r.bad[e.Hole.Pos.Line] {
			r.at(e.Hole.Pos, r.name+".hole", fmt.Sprintf("the hole %s is not larger than the bore", e.Hole.Text), "write the size of the hole in the glass")
		}
	case KindStrainer:
		p.Strainer = Strainer{OpenArea: e.OpenArea.Value, Clogged: cloggedFactor}
		if e.OpenArea.Given() && e.OpenArea.Value <= 0 && !r.bad[e.OpenArea.Pos.Line] {
			r.at(e.OpenArea.Pos, r.name+".open-area", fmt.Sprintf("open-area %q is not above 0", e.OpenArea.Text), "write it as a multiple of the pipe's: 400 %")
		}
		r.strainerLoss(e, p)
	}
}

// openDischarge is the discharge coefficient of a strainer's openings: assumed.
const openDischarge = 0.6

// strainerLoss gives a strainer without a loss the one its open area suggests.
func (r *partsReader) strainerLoss(e *partEntry, p *Part) {
	if p.Loss.Method != LossNone {
		return
	}
	p.Loss = Loss{Method: LossConstant, KInf: 1, Mark: Assumed}
	if a := float64(p.Strainer.OpenArea); a > 0 {
		p.Loss.KInf = 1 / (openDischarge * a * openDischarge * a)
	}
}

func (r *partsReader) pump(e *partEntry, p *Part) {
	hasLabel := e.Label.Pos.Line > 0
	hasCurve, hasFile := len(e.Curve) > 0, e.CurveFile.Given()
	switch {
	case !hasLabel && !hasCurve && !hasFile:
		r.at(e.Kind.Pos, r.name, "a pump needs its label or its curve", "write label: with the flow and head on the box, or curve: with at least two points")
	case hasCurve && hasFile:
		r.at(e.CurveFile.Pos, r.name+".curve-file", "both curve and curve-file are given", "keep one of the two")
	case hasFile && strings.TrimSpace(e.CurveFile.Value) == "":
		r.at(e.CurveFile.Pos, r.name+".curve-file", "curve-file has no name", "write the name of a CSV file beside this one")
	}
	if hasLabel {
		p.Label = Label{e.Label.Flow.Value, e.Label.Head.Value}
		r.labelPart(e.Label.Flow.Pos, "flow", e.Label.Flow.Text, float64(p.Label.Flow))
		r.labelPart(e.Label.Head.Pos, "head", e.Label.Head.Text, float64(p.Label.Head))
	}
	if !hasCurve {
		return
	}
	var points []placedPoint
	for i := range e.Curve {
		c := &e.Curve[i]
		if !c.Flow.Given() || !c.Head.Given() || r.bad[c.Flow.Pos.Line] || r.bad[c.Head.Pos.Line] {
			return // reported by the decoder
		}
		if !usable(float64(c.Flow.Value)) || !usable(float64(c.Head.Value)) {
			r.at(c.Pos, r.name+".curve", "a flow or head of the curve is negative", "write numbers from 0 up")
			return
		}
		points = append(points, placedPoint{
			Point: Point{c.Flow.Value, c.Head.Value},
			place: finding.Place{File: r.file, Line: c.Flow.Pos.Line, Column: c.Flow.Pos.Column, Width: c.Flow.Pos.Width},
			text:  c.Flow.Text,
		})
	}
	first := points[0].place
	empty := lines{file: r.file, text: r.text}
	r.list = append(r.list, checkCurve(&empty, points, first)...)
	p.Curve = sortCurve(points)
}

func (r *partsReader) labelPart(at document.Pos, key, text string, v float64) {
	if at.Line > 0 && !r.bad[at.Line] && v <= 0 {
		r.at(at, r.name+".label."+key, fmt.Sprintf("%s %q is not above 0", key, text), "write the figure on the box")
	}
}

func (r *partsReader) emitter(e *partEntry, p *Part) {
	m := &e.Emitter
	if m.Pos.Line == 0 {
		r.at(e.Kind.Pos, r.name, "an emitter needs its flow", "write emitter: with flow: and at:, as 2 L/h at 10.2 m")
		return
	}
	p.Emitter = Emitter{
		Flow: m.Flow.Value, AtHead: m.At.Value, MinHead: m.MinHead.Value,
		Exponent: usualExponent, Cv: usualCv,
	}
	if m.Exponent.Given() {
		p.Emitter.Exponent = float64(m.Exponent.Value)
	}
	if m.Spread.Given() {
		p.Emitter.Cv = float64(m.Spread.Value)
	}
	r.positive(m.At, "emitter.at")
	r.positive(m.MinHead, "emitter.least-head")
	if m.Flow.Given() && !r.bad[m.Flow.Pos.Line] && m.Flow.Value <= 0 {
		r.at(m.Flow.Pos, r.name+".emitter.flow", fmt.Sprintf("flow %q is not above 0", m.Flow.Text), "write the flow on its label")
	}
	r.between(m.Exponent, "emitter.exponent", 1)
	r.between(m.Spread, "emitter.spread", 1)
}

// between reports a ratio that is not from 0 to limit.
func (r *partsReader) between(f field[quantity.Ratio], key string, limit quantity.Ratio) {
	if f.Given() && !r.bad[f.Pos.Line] && (f.Value < 0 || f.Value > limit) {
		r.at(f.Pos, r.name+"."+key, fmt.Sprintf("%s %q is not from 0 to %g", key, f.Text, float64(limit)), "look at the maker's sheet")
	}
}

func sortByPlace(list finding.List) {
	slices.SortStableFunc(list, func(a, b finding.Finding) int {
		return cmp.Or(cmp.Compare(a.Place.Line, b.Place.Line), cmp.Compare(a.Place.Column, b.Place.Column))
	})
}
