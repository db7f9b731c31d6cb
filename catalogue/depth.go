package catalogue

import (
	"math"

	"rillwright/quantity"
)

// Depth returns how far plain pipe goes into a solvent-cement socket at least, m;
// ok is false for ends that are no socket and for sizes that the rule or table does
// not hold. Metric sockets: half the pipe's outside and 6 mm, 12 mm or more, from 12
// to 110 mm (ISO 727-1, from memory). US inch sockets of schedule 40: the table of
// ASTM D2466, 1/2 to 2 in, from memory. A socket may be deeper: measure it.
func (e End) Depth() (l quantity.Length, ok bool) {
	if e.Form != Socket {
		return 0, false
	}
	switch e.System {
	case MetricPipe:
		d := float64(e.Size.Length)
		if d < 0.012 || d > 0.110 {
			return 0, false
		}
		return quantity.Length(math.Max(d/2+0.006, 0.012)), true
	case InchPipe:
		const inch = 0.0254
		for _, r := range [][2]float64{{0.5, 0.688}, {0.75, 0.719}, {1, 0.875}, {1.25, 0.938}, {1.5, 1.094}, {2, 1.156}} {
			if math.Abs(float64(e.Size.Length)/inch-r[0]) < 1e-6 {
				return quantity.Length(r[1] * inch), true
			}
		}
	}
	return 0, false
}
