package sheets

import (
	"rillwright/answers"
	"rillwright/drawing"
	"rillwright/quantity"
)

// cautionText is the height of capitals, so that all fits on one sheet, mm.
const cautionText = 2.6

// warning is one subject of the cautions.
type warning struct {
	head string
	say  []string
}

// warnings returns the cautions. breaker is what the switch that trips on leaking
// current is called where the design is built.
func warnings(breaker string) []warning {
	return []warning{
		{"Electricity", []string{
			"Mains power and water together kill. Everything that is plugged in goes through an " + breaker + ", tested before each day's work. Switch off and pull the plug before you reach into water.",
			"Every cord hangs in a drip loop. No plug, adapter or power supply stands under water, a hose or a joint.",
			"Wiring, sockets and breakers belong to a licensed electrician; the code of the place comes first.",
		}},
		{"Glass", []string{
			"Gloves that do not cut, closed shoes, eye protection. Two people for a pane that one cannot hold level with straight arms. Seam the edges before anything else.",
			"Toughened glass bursts when it is drilled or cut: look for the mark, and at it through polarised light, before the drill is set down.",
			"Drill wet, slowly, on a flat bed, with a catch under the plug. The dust is bad for lungs: keep it wet, wipe it up, do not sweep it.",
		}},
		{"Chemicals", []string{
			"Sealant, solvent cement, foam and coats give off vapour: open windows, no flame, gloves, and the label's own words before these.",
			"Solvent cement burns. Foam sticks to skin and cannot be washed off.",
			"Cure times are those of the label, longer when it is cold or dry. Water before that is how joints fail.",
		}},
		{"Structure", []string{
			"Weight, floor and fixings are estimates from what the file says. Under a floor that is old, springy or unknown, and for anything that hangs on a wall, ask a structural engineer.",
			"Nobody leans or climbs on the enclosure. Where children come, it is fixed so that it cannot tip.",
		}},
		{"Water", []string{
			"Be there, with a dry floor, a bucket and a towel, for every first filling and every test. Do not leave it alone before a night of running is dry.",
			"Fill the sump to its mark and no higher. Put a water alarm on the floor. A valve that stops backflow is no protection by itself.",
			"Anything joined to the mains water falls under the plumbing code: backflow protection belongs to a licensed plumber.",
		}},
		{"Animals and plants", []string{
			"No animal before the water has run, the cure has no smell and the plants have rooted. What each needs is for a keeper or vet of its kind to say, and local law says what may be kept.",
			"Sap, spines and spores: wash hands, keep plants that are not known to be harmless away from children and pets.",
		}},
	}
}

// Cautions draws what may hurt people, animals or the house, and whose trade comes
// first. They are common practice, from no one source.
func Cautions(s *answers.Survey, p Print) []drawing.Sheet {
	breaker := "RCD"
	if s.E.Units == quantity.US {
		breaker = "GFCI"
	}
	g := newDraft(s.E, p).ledger(frontGroup, "Cautions")
	g.text(ledgerTitle, "Cautions")
	g.y += 1
	g.boxed(cautionText, "These papers help to plan. They approve nothing. Local codes and people licensed in their trade come before anything that is written here, and so does what you see with your own eyes. What is written is common practice, from no single source.")
	for _, w := range warnings(breaker) {
		g.head(w.head, 3*lineOf*cautionText)
		for _, t := range w.say {
			g.text(cautionText, t)
			g.y += 0.3
		}
	}
	return g.done()
}
