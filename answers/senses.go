package answers

import (
	"math"
	"strings"
)

// senses returns for each doubt which end raises the measure.
func (s *Survey) senses(m Measure) []int8 {
	if signs, ok := s.signs[m.ID]; ok {
		return signs
	}
	signs := make([]int8, len(s.E.Doubts))
	likely := math.Abs(s.at(m))
	sense := func(i int) {
		low, high := s.doubtEnds(m, i)
		switch d := high - low; {
		case d > 1e-7*likely:
			signs[i] = 1
		case d < -1e-7*likely:
			signs[i] = -1
		}
	}
	if s.quick {
		copy(signs, s.like[m.ID])
		for _, i := range s.fresh {
			sense(i)
		}
	} else {
		for i := range signs {
			sense(i)
		}
	}
	s.signs[m.ID] = signs
	return signs
}

// doubtEnds returns the measure with one doubt at its low and at its high end.
func (s *Survey) doubtEnds(m Measure, doubt int) (low, high float64) {
	o := 0
	if m.Open {
		o = 1
	}
	return m.Of(s.ends[o][0][doubt]), m.Of(s.ends[o][1][doubt])
}

// Matters ranks the doubts by how far each alone moves a measure, largest
// first, leaving out those that move it by less than half a per cent.
func (s *Survey) Matters(m Measure, show func(float64) string, most int) []Matter {
	if s.quick {
		return nil
	}
	likely := s.at(m)
	var out []Matter
	for i := range s.E.Doubts {
		d := &s.E.Doubts[i]
		low, high := s.doubtEnds(m, i)
		swing := math.Abs(high-low) / math.Max(math.Abs(likely), 1e-12)
		if swing < 0.005 || show(low) == show(high) {
			continue
		}
		out = append(out, Matter{
			What: d.What, Range: fromTo(d.Show(d.Low, s.E.Units), d.Show(d.High, s.E.Units)),
			Effect: fromTo(show(min(low, high)), show(max(low, high))),
			Swing:  swing, Why: d.Why, Settle: d.Settle, Line: d.Pos.Line,
		})
	}
	sortMatters(out)
	return out[:min(most, len(out))]
}

func sortMatters(m []Matter) {
	for i := 1; i < len(m); i++ {
		for k := i; k > 0 && m[k].Swing > m[k-1].Swing; k-- {
			m[k], m[k-1] = m[k-1], m[k]
		}
	}
}

// fromTo joins two figures, saying once the unit that both end with.
func fromTo(low, high string) string {
	number, unit, ok := strings.Cut(low, " ")
	if ok && strings.HasSuffix(high, " "+unit) && !strings.Contains(number, "/") && !strings.HasPrefix(unit, "1/") {
		if n, _, _ := strings.Cut(high, " "); n+" "+unit == high {
			return number + " to " + high
		}
	}
	return low + " to " + high
}
