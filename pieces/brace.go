package pieces

import (
	"fmt"
	"math"

	"rillwright/quantity"
)

// square is the bevel up to which an end counts as cut square, rad: a fifth of what a
// hand saw strays by, assumed.
const square = 0.2 * math.Pi / 180

// Ends tells how a brace is sawn from its strip: "sawn 341 mm long on its longer side,
// the end in its panel 30 deg off square through its depth, the other square".
func (b *Brace) Ends(sys quantity.System) string {
	off := func(a float64) string {
		if a < square {
			return "square"
		}
		return fmt.Sprintf("%.0f deg off square", a*180/math.Pi)
	}
	long := "sawn " + quantity.Length(b.Length).Show(sys) + " long"
	switch near, far := off(b.Bevels[0]), off(b.Bevels[1]); {
	case near == "square" && far == "square":
		return long + ", both ends square"
	case near == far:
		return long + " on its longer side, both ends " + near + " through its depth"
	default:
		return long + " on its longer side, through its depth the end in its panel " + near + ", the other " + far
	}
}
