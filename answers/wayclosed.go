package answers

import (
	"fmt"
	"strings"

	"rillwright/enclosure"
	"rillwright/quantity"
)

// froglet is the gap that a small frog may go through, m: assumed, no source.
const froglet = 0.003

// dwellers are those who may leave through a gap.
type dwellers struct {
	names   []string
	gap     float64 // that the smallest of those known goes through, m; 0 for none
	unknown []string
}

// animals reads who lives in it: plants stay where they are, frogs are known,
// whatever else must be measured.
func animals(e *enclosure.Enclosure) dwellers {
	var d dwellers
	for i := range e.Design.Occupants {
		o := &e.Design.Occupants[i]
		kind := strings.ToLower(o.Kind.Value)
		switch {
		case strings.Contains(kind, "frog"):
			d.names, d.gap = append(d.names, o.Kind.Value), froglet
		case strings.Contains(kind, "plant"):
		default:
			d.names, d.unknown = append(d.names, o.Kind.Value), append(d.unknown, o.Kind.Value)
		}
	}
	return d
}

// closing tells what is left of an opening and whether that is closed well enough
// for those who live behind it.
func (s *Survey) closing(a *Answer, w *enclosure.Way, p passages) {
	stay, taken := p.stays()
	gap, area := p.open.LargestGap(stay...), p.open.Area()-taken
	if len(p.unknown) == 0 {
		a.Figures = append(
			a.Figures,
			areaFigure("left open round what stays in it", max(area, 0), s.E.Units),
			figure("widest gap in that, with what stays pushed aside", quantity.Exactly(quantity.Length(gap)), s.E.Units),
		)
	} else {
		gap = p.open.LargestGap() // what is not known keeps nobody in
	}
	d := animals(s.E)
	say := func(v Verdict, text string) {
		a.Verdict = max(a.Verdict, v)
		a.Say = strings.TrimSpace(a.Say + " " + text)
	}
	who := strings.Join(d.names, " and ")
	field := "enclosure.ways[" + w.Name + "].closed"
	switch w.Closed {
	case "grommet", "cover plate", "sealant":
		say(Holds, fmt.Sprintf("The rest is closed: %s.", w.Closed))
		return
	case "foam plug":
		say(Holds, "A foam plug closes the rest.")
		if len(d.names) > 0 {
			a.Cautions = append(a.Cautions, "Animals push foam out: see that the plug is tight, and look at it now and then.")
		}
		return
	case "mesh":
		text := "Mesh closes the rest against animals, not against moisture and light."
		switch {
		case len(d.unknown) > 0:
			text += fmt.Sprintf(" Its holes must be smaller than the smallest of the %s.", strings.Join(d.unknown, " and "))
		case d.gap > 0:
			text += fmt.Sprintf(" Its holes must be smaller than %s for the %s (assumed, no source).", s.length(d.gap), who)
		}
		say(Holds, text)
		return
	}
	open := "It is left open"
	if w.Closed == "" {
		open = "The file does not say how the rest is closed (" + field + ")"
	}
	switch {
	case len(d.unknown) > 0 && gap > 0.0005:
		say(Unknown, fmt.Sprintf("%s, with a gap of %s: measure the smallest of the %s, or close it.", open, s.length(gap), strings.Join(d.unknown, " and ")))
	case d.gap > 0 && gap >= d.gap && w.Closed == "":
		say(Unknown, fmt.Sprintf("%s, and a gap of %s lets the %s out: %s is taken as enough for a small one (assumed, no source).", open, s.length(gap), who, s.length(d.gap)))
	case d.gap > 0 && gap >= d.gap:
		say(Fails, fmt.Sprintf("%s, and a gap of %s lets the %s out: %s is taken as enough for a small one (assumed, no source). Close it with mesh, a grommet or a plug.", open, s.length(gap), who, s.length(d.gap)))
	case len(d.names) > 0:
		say(Holds, fmt.Sprintf("%s; its gap of %s is taken as too narrow for the %s.", open, s.length(gap), who))
	default:
		say(Holds, open+": moist air and light get out, no harm with plants alone.")
	}
}

// areaFigure shows a small area.
func areaFigure(name string, v float64, sys quantity.System) Figure {
	f := Figure{Name: name, Low: v * 1e6, Likely: v * 1e6, High: v * 1e6, Unit: "mm2", Text: fmt.Sprintf("%.0f mm2", v*1e6)}
	if sys == quantity.US {
		v /= 0.0254 * 0.0254
		f.Low, f.Likely, f.High, f.Unit, f.Text = v, v, v, "in2", fmt.Sprintf("%.2f in2", v)
	}
	return f
}
