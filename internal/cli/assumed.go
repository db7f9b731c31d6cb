package cli

import (
	"fmt"
	"strings"

	"rillwright"
	"rillwright/enclosure"
	"rillwright/quantity"
)

// printAssumed lists what the answers rest on that the file does not say, and
// what was measured in place of the plan. Doubts with one reason, such as the
// tolerances of parts, stand together under it.
func printAssumed(b *strings.Builder, r *rillwright.Report) {
	e := r.Enclosure
	b.WriteString("Taken for granted, since the file does not say otherwise\n")
	for _, a := range e.Assumed {
		wrap(b, "  - ", "    ", fmt.Sprintf("%s: %s (%s; %s would say it)", a.What, a.Value, a.Why, a.Field))
	}
	done := map[string]bool{}
	for i := range e.Doubts {
		d := &e.Doubts[i]
		if d.Pos.Line > 0 || done[d.Why] {
			continue
		}
		done[d.Why] = true
		var rows [][2]string
		for k := i; k < len(e.Doubts); k++ {
			if o := &e.Doubts[k]; o.Why == d.Why && o.Pos.Line == 0 {
				rows = append(rows, [2]string{o.What, doubtText(o, e.Units)})
			}
		}
		if len(rows) == 1 {
			wrap(b, "  - ", "    ", fmt.Sprintf("%s: %s (%s)", rows[0][0], rows[0][1], d.Why))
			continue
		}
		wrap(b, "  - ", "    ", d.Why+":")
		printRows(b, "      ", rows)
	}
	for _, o := range e.Design.Overrides() {
		plan := "where the plan said " + o.Planned
		if o.Planned == "" {
			plan = "where the plan said nothing"
		}
		wrap(b, "  - ", "    ", fmt.Sprintf("as built, %s is %s %s%s", o.Path, o.Measured, plan, onLine(o.Pos.Line)))
	}
}

// doubtText shows a doubt as a band: "15.5 to 16.5 mm, likely 16.0 mm".
func doubtText(d *enclosure.Doubt, sys quantity.System) string {
	low, high := d.Show(d.Low, sys), d.Show(d.High, sys)
	if _, unit, ok := cutLast(high); ok {
		if v, u, ok := cutLast(low); ok && u == unit {
			low = v
		}
	}
	return fmt.Sprintf("%s to %s, likely %s", low, high, d.Show(d.Likely, sys))
}

// cutLast cuts a text at its last blank.
func cutLast(text string) (before, after string, ok bool) {
	i := strings.LastIndexByte(text, ' ')
	if i < 0 {
		return text, "", false
	}
	return text[:i], text[i+1:], true
}
