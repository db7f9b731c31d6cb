package quantity

import (
	"math"
	"strings"
)

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
// mm", "12.5 mm ± 4 %", "2.6 to 2.9 to 3.2 m" for low, likely and high, or one
// figure for an exact band. With two figures the likely one is in the middle. A
// unit written once at the end holds for all. The error is an *Error.
func (b *Band[T]) UnmarshalText(text []byte) error {
	p := parser{string(text), dimensionOf[T]()}
	v, err := p.band(fold(p.text))
	if err != nil {
		return err
	}
	*b = Band[T]{T(v[0]), T(v[1]), T(v[2])}
	return nil
}

// band reads low, likely and high from a folded text.
func (p *parser) band(s string) (v [3]float64, err error) {
	if s == "" {
		return v, p.fail("nothing is written here", "")
	}
	if centre, spread, ok := cutPlusMinus(s); ok {
		v, err = p.spread(centre, spread)
	} else {
		v, err = p.ends(s)
	}
	if err != nil {
		return v, err
	}
	if v[0] > v[2] || v[1] < v[0] || v[1] > v[2] {
		return v, p.fail("the figures do not rise", "write the lowest first")
	}
	for _, x := range v {
		if !(math.Abs(x) <= largest) {
			return v, p.tooLarge()
		}
		if err := p.bounds(x); err != nil {
			return v, err
		}
	}
	return v, nil
}

// ends reads "low to high", "low to likely to high" or one figure.
func (p *parser) ends(s string) (v [3]float64, err error) {
	var parts [3]string
	n := 0
	for more := true; more; n++ {
		if n == len(parts) {
			return v, p.fail("more than three figures", "write low to likely to high, such as 2 to 2.5 to 3 m")
		}
		parts[n], s, more = cutTo(s)
	}
	var space [maxTerms]term
	last, err := p.terms(space[:0], parts[n-1])
	if err != nil {
		return v, err
	}
	high, err := p.sum(last)
	if err != nil {
		return v, err
	}
	for i := range n - 1 {
		if v[i], err = p.lent(parts[i], last); err != nil {
			return v, err
		}
	}
	switch n {
	case 1:
		v = [3]float64{high, high, high}
	case 2:
		v = [3]float64{v[0], v[0] + (high-v[0])/2, high}
	default:
		v[2] = high
	}
	return v, nil
}

// lent reads a figure that may borrow its unit from another.
func (p *parser) lent(s string, from []term) (float64, error) {
	var space [maxTerms]term
	terms, err := p.terms(space[:0], s)
	if err != nil {
		return 0, err
	}
	// "1 to 2 ft 6 in" does not say what the 1 is.
	if len(terms) == 1 && terms[0].word == "" && len(from) == 1 {
		terms[0] = from[0].with(terms[0].value)
	}
	return p.sum(terms)
}

// spread reads a centre and what it may be off by: an amount, or a share of the
// centre. A unit written on one side holds for both.
func (p *parser) spread(centre, spread string) (v [3]float64, err error) {
	if isRange(centre) || isRange(spread) {
		return v, p.fail("more than one range", "write 12 to 13 mm or 12.5 mm ± 0.5 mm")
	}
	var spaceC, spaceD [maxTerms]term
	c, err := p.terms(spaceC[:0], centre)
	if err != nil {
		return v, err
	}
	d, err := p.terms(spaceD[:0], spread)
	if err != nil {
		return v, err
	}
	share := len(d) == 1 && d[0].unit != nil && d[0].unit.dim == dimRatio && p.dim != dimRatio && p.dim != dimTemperature
	switch {
	case share:
	case len(c) == 1 && c[0].word == "" && len(d) == 1:
		c[0] = d[0].with(c[0].value)
	case len(d) == 1 && d[0].word == "" && len(c) == 1:
		d[0] = c[0].with(d[0].value)
	}
	likely, err := p.sum(c)
	if err != nil {
		return v, err
	}
	var off float64
	if share {
		off = d[0].si() * max(likely, -likely)
	} else {
		if off, err = p.sum(d); err != nil {
			return v, err
		}
		if p.dim == dimTemperature {
			// A spread is a difference: 72 F ± 5 F is not 72 F ± -15 C.
			off = d[0].value * d[0].unit.scale()
		}
	}
	if off < 0 {
		return v, p.fail("a spread below nothing", "write a spread such as 12.5 mm ± 0.5 mm")
	}
	return [3]float64{likely - off, likely, likely + off}, nil
}

// cutPlusMinus cuts a folded text at a plus-minus sign.
func cutPlusMinus(s string) (centre, spread string, ok bool) {
	for _, sign := range [...]string{"±", "+/-", "+-"} {
		if c, d, found := strings.Cut(s, sign); found {
			return strings.TrimSpace(c), strings.TrimSpace(d), true
		}
	}
	return "", "", false
}

// cutTo cuts a folded text at the first word "to".
func cutTo(s string) (before, after string, ok bool) {
	for i := 0; i+4 <= len(s); i++ {
		if s[i] == ' ' && strings.EqualFold(s[i:i+4], " to ") {
			return strings.TrimSpace(s[:i]), strings.TrimSpace(s[i+4:]), true
		}
	}
	return strings.TrimSpace(s), "", false
}

// isRange reports whether a folded text is written as a range, with something
// on both sides.
func isRange(s string) bool {
	before, after, ok := cutPlusMinus(s)
	if !ok {
		before, after, ok = cutTo(s)
	}
	return ok && before != "" && after != ""
}
