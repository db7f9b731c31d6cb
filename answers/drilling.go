package answers

import (
	"fmt"
	"strings"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/layout"
	"rillwright/structure"
	"rillwright/study"
)

// Refusal is one reason not to drill.
type Refusal struct {
	Opening string // "" if it is the pane as a whole
	Why     string
	Line    int
}

// Override is a broken rule of distance and the builder's dated words against it.
type Override struct {
	Refusal
	Words string
}

// Permit tells whether holes may be marked on a pane.
type Permit struct {
	Pane    string
	Refused []Refusal
	// Overridden are rules of distance that the builder breaks in writing.
	Overridden []Override
	Cautions   []string // to be shown with a template
}

// OK reports whether nothing speaks against drilling.
func (p *Permit) OK() bool { return len(p.Refused) == 0 }

// MayDrill tells why no template of a pane's openings may be made: nobody has
// looked at the pane, it bursts, it is laminated, it is the old bottom of a shop tank
// and its temper is only guessed, or an opening is nearer to something than
// glaziers drill or than its fitting has room and the builder does not override that
// in writing. A pane that the file does not list is refused.
func MayDrill(e *enclosure.Enclosure, pane string) Permit {
	out := Permit{Pane: pane}
	p := paneNamed(e, pane)
	if p == nil {
		out.Refused = append(out.Refused, Refusal{Why: fmt.Sprintf("No pane is named %q.", pane)})
		return out
	}
	if p.Count.Value > 1 {
		out.Refused = append(out.Refused, Refusal{Why: fmt.Sprintf("There are %d panes named %q: write each as a pane with a name of its own.", p.Count.Value, pane), Line: p.Count.Pos.Line})
	}
	if _, say, ok := drillKind(e, p); !ok {
		out.Refused = append(out.Refused, Refusal{Why: say, Line: p.Glass.Pos.Line})
	}
	out.Cautions = drillBut(e, p)
	list := openingsOf(e, layout.Of(e))
	for i := range list.list {
		o := list.list[i]
		if o.pane != p {
			continue
		}
		spares, err := list.spares(o, 1)
		if err != nil {
			out.Refused = append(out.Refused, Refusal{Opening: o.name, Why: "It does not lie on its pane: " + err.Error() + ".", Line: o.line})
			continue
		}
		for _, kind := range []spareKind{glaziers, fouls} {
			if c, bad := broken(spares, kind); bad {
				why := c.text(func(v float64) string { return lengthText(v, e.Units) })
				r := Refusal{Opening: o.name, Why: fmt.Sprintf("%s: %s.", strings.ToUpper(c.name()[:1])+c.name()[1:], why), Line: o.line}
				if words := list.override(&o); words != "" {
					out.Overridden = append(out.Overridden, Override{r, words})
					continue
				}
				out.Refused = append(out.Refused, r)
			}
		}
	}
	return out
}

// override is what the builder wrote against a broken rule at an opening, "" for
// nothing.
func (s *openings) override(o *opening) string {
	if o.drain >= 0 {
		return s.e.Drains[o.drain].Hole.Override.Value
	}
	return s.e.Ways[o.way].Design.Override.Value
}

// overrideNote repeats the builder's words. They change no verdict.
func (s *openings) overrideNote(o *opening) []string {
	if words := s.override(o); words != "" {
		return []string{fmt.Sprintf("Overridden in writing (line %d), which changes nothing of what is computed here: %s", o.line, words)}
	}
	return nil
}

// drillKind tells whether a pane can be drilled at home by what it is, and if not
// the verdict with the reason in words.
func drillKind(e *enclosure.Enclosure, p *design.Pane) (v Verdict, say string, ok bool) {
	kind := study.GlassKind(p.Glass.Value)
	name := p.Name.Value
	switch kind.Drilling() {
	case structure.DrillingUnknown:
		say = fmt.Sprintf("Nobody has said what pane %q is: no hole may be marked on it before somebody has looked at it through polarised light. Toughened glass bursts when it is drilled.", name)
		if old, _ := oldBottom(e, p); old {
			say += " It is the old bottom of a shop tank, the pane that is most often toughened."
		}
		return Unknown, say, false
	case structure.DrillingNever:
		return Fails, fmt.Sprintf("No: pane %q is %s and bursts when it is drilled or cut. Take another pane, or have one made with the opening in it before it is toughened.", name, kind), false
	case structure.DrillingHard:
		return Fails, fmt.Sprintf("No: pane %q is %s, which is not drilled at home: have a glass shop make it with the opening in it.", name, kind), false
	}
	return Holds, "", true
}

// drillBut are the cautions that go with a pane that may be drilled.
func drillBut(e *enclosure.Enclosure, p *design.Pane) []string {
	var out []string
	if old, byName := oldBottom(e, p); old && study.GlassKind(p.Glass.Value) == structure.Annealed {
		text := fmt.Sprintf("The file says that pane %q is annealed, and it is the old bottom of a shop tank", p.Name.Value)
		if !byName {
			text += " by where it stands"
		}
		out = append(out, text+". Old bottoms are most often toughened: look at it through crossed polarisers before the drill touches it (common practice).")
	}
	switch study.GlassKind(p.Glass.Value) {
	case structure.Acrylic, structure.Polycarbonate:
		out = append(out, "The distances are those of glass: plastics bear nearer ones, but not sharp corners (from memory).")
	}
	return out
}
