package cli

import (
	"fmt"
	"strings"

	"rillwright"
	"rillwright/internal/wire"
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
				rows = append(rows, [2]string{o.What, wire.DoubtText(o, e.Units)})
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
