package answers

import (
	"fmt"

	"rillwright/quantity"
	"rillwright/structure"
)

// Units of the United States in SI, by their definitions: the pound is 0.45359237
// kg, the inch 25.4 mm (NIST SP 811), and forces take the standard gravity.
const (
	pound = 0.45359237
	inch  = 0.0254
	foot  = 12 * inch
	lbf   = pound * structure.G
	psi   = lbf / (inch * inch)
)

// forceText shows a force, N.
func forceText(newtons float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.0f lbf", newtons/lbf)
	}
	return fmt.Sprintf("%.0f N", newtons)
}
