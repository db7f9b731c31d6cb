package enclosure

import (
	"strings"

	"rillwright/design"
)

// PanePlace returns where a pane stands: as the file says, else what its name says
// where that is a plain word (guessed), else "".
func PanePlace(p *design.Pane) (at string, guessed bool) {
	if p.At.Value != "" {
		return p.At.Value, false
	}
	for _, word := range strings.FieldsFunc(strings.ToLower(p.Name.Value), func(r rune) bool { return r < 'a' || r > 'z' }) {
		switch word {
		case "dam", "door", "top", "back", "front", "left", "right", "bottom":
			return word, true
		case "lid":
			return "top", true
		case "base", "floor":
			return "bottom", true
		case "rear":
			return "back", true
		case "divider":
			return "inside", true
		case "side", "sides":
			if p.Count.Value == 2 {
				return "sides", true
			}
		}
	}
	return "", false
}
