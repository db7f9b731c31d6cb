package answers

import (
	"fmt"
	"strings"

	"rillwright/quantity"
)

func quoted(names []string) string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = fmt.Sprintf("%q", n)
	}
	return strings.Join(out, ", ")
}

// onePress shows the stress in a joint, kPa or psi.
func onePress(v float64, sys quantity.System) string {
	return press(quantity.Exactly(v), sys)
}

// press shows a band of them.
func press(b quantity.Band[float64], sys quantity.System) string {
	k, unit := pressUnit(sys)
	return bandText(b.Scale(1/k), unit)
}

func pressUnit(sys quantity.System) (float64, string) {
	if sys == quantity.US {
		return psi, "psi"
	}
	return 1e3, "kPa"
}

// bandText shows a band in a unit with two or three figures.
func bandText(b quantity.Band[float64], unit string) string {
	decimals := 0
	switch {
	case b.High < 1:
		decimals = 2
	case b.High < 10:
		decimals = 1
	}
	low, high := fmt.Sprintf("%.*f", decimals, b.Low), fmt.Sprintf("%.*f", decimals, b.High)
	if low == high {
		return high + " " + unit
	}
	return low + " to " + high + " " + unit
}

// pressFigure makes a Figure of a band of stresses.
func pressFigure(name string, b quantity.Band[float64], sys quantity.System) Figure {
	k, unit := pressUnit(sys)
	s := b.Scale(1 / k)
	f := Figure{Name: name, Low: s.Low, Likely: s.Likely, High: s.High, Unit: unit, Text: press(b, sys)}
	if text := onePress(b.Likely, sys); text != f.Text {
		f.Text += ", likely " + text
	}
	return f
}

// sizeText shows a bite or leg.
func sizeText(v float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.2f in", v/0.0254)
	}
	return fmt.Sprintf("%.1f mm", v*1000)
}

// biteText shows a band of them.
func biteText(b quantity.Band[float64], sys quantity.System) string {
	low, high := sizeText(b.Low, sys), sizeText(b.High, sys)
	if low == high {
		return high
	}
	return fromTo(low, high)
}
