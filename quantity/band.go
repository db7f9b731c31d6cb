package quantity

import "strings"

// Band is a figure known only roughly: the low end, the likely value and the
// high end. An exactly known figure has all three equal. Low <= Likely <= High.
type Band[T ~float64] struct {
	Low, Likely, High T
}

// Exactly returns the band of a figure that is known exactly.
func Exactly[T ~float64](v T) Band[T] { return Band[T]{v, v, v} }

// IsExact reports whether the band has no width.
func (b Band[T]) IsExact() bool { return b.Low == b.High }

// At returns the low end for side < 0, the likely value for 0 and the high end
// for side > 0.
func (b Band[T]) At(side int) T {
	switch {
	case side < 0:
		return b.Low
	case side > 0:
		return b.High
	}
	return b.Likely
}

// Scale returns the band with all three figures multiplied by k >= 0.
func (b Band[T]) Scale(k float64) Band[T] {
	return Band[T]{T(float64(b.Low) * k), T(float64(b.Likely) * k), T(float64(b.High) * k)}
}

// UnmarshalText reads a band: "12 to 13 mm", "12 mm to 1/2 in", "12.5 mm ± 0.5
// mm", "2.6 to 2.9 to 3.2 m" for low, likely and high, or one figure for an
// exact band. With two figures the likely one is in the middle. A unit written
// once at the end holds for all. The error is an *Error.
func (b *Band[T]) UnmarshalText(text []byte) error {
	dim := dimensionOf[T]()
	p := &parser{string(text), dim}
	s := fold(string(text))
	if s == "" {
		return p.fail("nothing is written here", "")
	}
	if centre, spread, ok := cutPlusMinus(s); ok {
		return b.fromSpread(p, centre, spread)
	}
	parts := splitTo(s)
	if len(parts) > 3 {
		return p.fail("more than three figures", "write low to likely to high, such as 2 to 2.5 to 3 m")
	}
	values, err := p.figures(parts)
	if err != nil {
		return err
	}
	low, high := T(values[0]), T(values[len(values)-1])
	likely := low + (high-low)/2
	if len(values) == 3 {
		likely = T(values[1])
	}
	if low > high || likely < low || likely > high {
		return p.fail("the figures do not rise", "write the lowest first")
	}
	*b = Band[T]{low, likely, high}
	return nil
}

func (b *Band[T]) fromSpread(p *parser, centre, spread string) error {
	values, err := p.figures([]string{centre, spread})
	if err != nil {
		return err
	}
	c, d := values[0], values[1]
	if p.dim == dimTemperature {
		// A spread is a difference: 72 F ± 5 F is not 72 F ± -15 C.
		zero, _ := p.figures([]string{"0", spread})
		d -= zero[0]
	}
	if d < 0 {
		return p.fail("a spread below nothing", "write a spread such as ± 1 mm")
	}
	*b = Band[T]{T(c - d), T(c), T(c + d)}
	return nil
}

// figures parses the figures of a band, lending a unit written once at the end
// to those that have none.
func (p *parser) figures(parts []string) ([]float64, error) {
	all := make([][]term, len(parts))
	for i, part := range parts {
		t, err := p.terms(part)
		if err != nil {
			return nil, err
		}
		all[i] = t
	}
	last := all[len(all)-1]
	lend := last[len(last)-1]
	values := make([]float64, len(parts))
	for i, t := range all {
		if i < len(all)-1 && len(t) == 1 && t[0].word == "" {
			t[0].word, t[0].unit = lend.word, lend.unit
		}
		v, err := p.sum(t)
		if err != nil {
			return nil, err
		}
		values[i] = v
	}
	return values, nil
}

func cutPlusMinus(s string) (centre, spread string, ok bool) {
	for _, sign := range []string{"±", "+/-", "+-"} {
		if c, d, found := strings.Cut(s, sign); found {
			return strings.TrimSpace(c), strings.TrimSpace(d), true
		}
	}
	return "", "", false
}

// splitTo splits at the word "to".
func splitTo(s string) []string {
	var parts []string
	for {
		i := strings.Index(s, " to ")
		if i < 0 {
			return append(parts, strings.TrimSpace(s))
		}
		parts = append(parts, strings.TrimSpace(s[:i]))
		s = s[i+4:]
	}
}

// dimensionOf returns the dimension of a quantity type.
func dimensionOf[T ~float64]() dimension {
	var zero T
	switch any(zero).(type) {
	case Length:
		return dimLength
	case Area:
		return dimArea
	case Volume:
		return dimVolume
	case Flow:
		return dimFlow
	case FlowPerWidth:
		return dimFlowPerWidth
	case Speed:
		return dimSpeed
	case Duration:
		return dimDuration
	case Temperature:
		return dimTemperature
	case Mass:
		return dimMass
	case Power:
		return dimPower
	case Pressure:
		return dimPressure
	case Angle:
		return dimAngle
	case Ratio:
		return dimRatio
	}
	return noDimension
}
