package study

import (
	"math"

	"rillwright/catalogue"
	"rillwright/enclosure"
	"rillwright/hydraulics"
	"rillwright/hydraulics/network"
)

// pieces returns the law of pieces one behind the other, as add adds them.
func (b *supply) pieces(list []enclosure.Piece, first, last, heads float64) (law *network.Conduit, bore float64, shut bool) {
	law = b.memory.laws.Conduit(b.water.Kinematic, len(list))
	bore, shut = b.add(law, list, first, last, heads)
	return law, bore, shut
}

// add adds pieces one behind the other to a law: friction, fittings and every
// change of bore between them, from the bore before the first (0 if not known)
// to that after the last (0 for an open end), and velocity heads besides. It
// returns the bore at the end and whether a shut valve closes them.
func (b *supply) add(law *network.Conduit, list []enclosure.Piece, first, last, heads float64) (bore float64, shut bool) {
	factor := b.c.Of(b.e.Fittings)
	change := func(d1, d2 float64) {
		switch {
		case d1 == 0 || d2 == 0 || math.Abs(d1-d2) < 1e-6:
		case d2 < d1:
			law.AddFitting(hydraulics.ConstantK(factor*hydraulics.Contraction(d1, d2)), d2)
		default:
			law.AddFitting(hydraulics.ConstantK(factor*hydraulics.Expansion(d1, d2)), d1)
		}
	}
	bore = first
	pipe := 0.0 // bore of the last hose or pipe
	for i := range list {
		p := &list[i]
		d := b.c.Of(p.Bore)
		if p.Kind.HasLength() {
			change(bore, d)
			law.AddPipe(d, p.Length, p.Roughness, b.c.Of(b.e.Friction))
			bore, pipe = d, d
			continue
		}
		k, open := b.fitting(p, d)
		shut = shut || !open
		for n := range p.Count {
			if n > 0 && pipe > 0 {
				// Between two of a kind there is hose or pipe again.
				change(bore, pipe)
				bore = pipe
			}
			change(bore, d)
			law.AddFitting(k.Times(factor), d)
			bore = d
		}
	}
	change(bore, last)
	if heads > 0 {
		at := pipe
		if at == 0 {
			at = bore
		}
		law.AddFitting(hydraulics.ConstantK(heads*factor), at)
	}
	return bore, shut
}

// fitting returns a fitting's loss coefficient on its own bore; open is false
// for a shut valve.
func (b *supply) fitting(p *enclosure.Piece, bore float64) (k hydraulics.KModel, open bool) {
	const inch = 0.0254
	switch l := &p.Loss; l.Method {
	case catalogue.LossThreeK:
		k = hydraulics.Darby3K(l.K1, l.KInf, l.Kd, l.NominalInches)
	case catalogue.LossTwoK:
		k = hydraulics.Hooper2K(l.K1, l.KInf, bore/inch)
	case catalogue.LossConstant:
		k = hydraulics.ConstantK(l.KInf)
	case catalogue.LossKv:
		k = hydraulics.ConstantK(hydraulics.ValveK(float64(l.Kv)*3600, bore))
	}
	if p.Kv > 0 {
		k = hydraulics.ConstantK(hydraulics.ValveK(p.Kv*3600, bore))
	}
	if p.Kind != catalogue.KindValve || b.s.OpenValves || p.Open >= 1 {
		return k, true
	}
	throttled := hydraulics.CockK(p.Open) - hydraulics.CockK(1)
	if p.Gate {
		throttled = hydraulics.GateK(p.Open) - hydraulics.GateK(1)
	}
	if math.IsInf(throttled, 1) {
		return k, false
	}
	return k.Plus(hydraulics.ConstantK(throttled)), true
}
