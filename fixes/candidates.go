package fixes

import (
	"fmt"
	"strings"

	"rillwright/answers"
	"rillwright/enclosure"
)

// candidates lists the changes that could help an answer.
func (f *finder) candidates(a *answers.Answer) []change {
	var out []change
	id, _, _ := strings.Cut(a.ID, "[")
	switch id {
	case "lift":
		out = append(out, f.openValves()...)
		out = append(out, f.pumps(true)...)
		out = append(out, f.hoses()...)
		out = append(out, f.moreWater()...)
	case "too-strong":
		out = append(out, f.throttle()...)
		out = append(out, f.pumps(false)...)
	case "pump-size":
		out = append(out, f.pumps(true)...)
		out = append(out, f.hoses()...)
	case "even", "outlets":
		out = append(out, f.feeds()...)
		out = append(out, f.manifoldBores()...)
		out = append(out, f.holes()...)
		// Which outlet is the driest may change, and with it what hurts it.
		for i := range out {
			out[i].anew = true
		}
	case "drain", "levels":
		out = append(out, f.drains()...)
		out = append(out, f.throttle()...)
		out = append(out, f.lowerLips()...)
	case "quiet":
		out = append(out, f.vent()...)
		out = append(out, f.drains()...)
		out = append(out, f.throttle()...)
	}
	return out
}

// moreWater tries bigger holes, which cost the pump less head.
func (f *finder) moreWater() []change {
	var out []change
	for i := range f.s.E.Manifolds {
		out = append(out, f.holeChange(i, 1)...)
	}
	return out
}

// holes tries smaller holes, which even the outlets out.
func (f *finder) holes() []change {
	var out []change
	for i := range f.s.E.Manifolds {
		out = append(out, f.holeChange(i, -1)...)
	}
	return out
}

func (f *finder) holeChange(i, step int) []change {
	m := &f.s.E.Manifolds[i]
	if len(m.Groups) == 0 || m.Groups[0].Hole.Value == 0 {
		return nil
	}
	have := m.Groups[0].Hole.Value
	size, ok := answers.NextDrill(have, step, f.s.E.Units)
	if !ok {
		return nil
	}
	name := answers.DrillName(size, f.s.E.Units)
	word := "larger"
	if step < 0 {
		word = "smaller"
	}
	return []change{{
		do: fmt.Sprintf("drill the %s %s, %s holes", m.Name, word, name), cost: nothing("nothing before drilling"),
		edit: fmt.Sprintf("manifolds[%s].outlets[1].hole: %s", m.Name, name), edits: drilled(m, name),
		apply: func(e *enclosure.Enclosure) bool {
			e.Redrill(i, size)
			return true
		},
	}}
}

// feeds tries an end-fed manifold fed at its centre.
func (f *finder) feeds() []change {
	var out []change
	for i := range f.s.E.Runs {
		u := &f.s.E.Runs[i]
		if u.To.Kind != enclosure.AtManifold {
			continue
		}
		m := &f.s.E.Manifolds[u.To.Index]
		if u.At > 0 && u.At < m.Length {
			continue
		}
		out = append(out, change{
			do:   fmt.Sprintf("feed the %s at its centre", m.Name),
			cost: cost{words: "a tee and some hose", amount: 6}, // assumed, no source
			edit: fmt.Sprintf("manifolds[%s].feed: centre", m.Name), edits: f.centred(i),
			apply: func(e *enclosure.Enclosure) bool {
				e.Runs[i].At = m.Length / 2
				return true
			},
		})
	}
	return out
}
