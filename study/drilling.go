package study

import (
	"rillwright/design"
	"rillwright/quantity"
)

// PaneThickness returns what a pane of a thickness measures, m, and whether that
// is a name under which it is sold: then it is a range.
func PaneThickness(f design.Field[quantity.Length]) (t quantity.Band[float64], named bool) {
	return thickness(f)
}
