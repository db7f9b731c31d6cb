package answers

import (
	"fmt"
	"strings"
)

// joints answers whether every end fits the next.
func (s *Survey) joints() Answer {
	a := Answer{ID: "fits", Question: "Does every hose and pipe fit its end?"}
	a.Limit = Limit{Text: "form, system and size of the two ends", Source: "practice", Mark: "thread and pipe standards, from memory"}
	bad, open := 0, 0
	for i := range s.E.Joints {
		j := &s.E.Joints[i]
		switch {
		case !j.Known:
			open++
			text := j.Where + ": one of the two ends is not given"
			if j.Say != "" {
				text += "; " + j.Say + " would say it"
			}
			a.Cautions = append(a.Cautions, text)
		case !j.OK:
			bad++
			if a.LimitingLine == 0 {
				a.Limiting, a.LimitingLine = j.Where, j.Pos.Line
			}
			text := fmt.Sprintf("%s: %s on %s: %s", j.Where, j.A, j.B, j.Why)
			if len(j.Help) > 0 {
				text += "; would join them: " + strings.Join(j.Help, ", or ")
			}
			a.Cautions = append(a.Cautions, text)
		case j.Why != "":
			a.Verdict = max(a.Verdict, Tight)
			a.Cautions = append(a.Cautions, j.Where+": "+j.Why)
		}
	}
	for i := range s.E.Drains {
		if text, ok := s.holeFits(i); !ok {
			bad++
			a.Cautions = append(a.Cautions, text)
			if a.LimitingLine == 0 {
				a.Limiting, a.LimitingLine = s.E.Drains[i].Name, s.E.Drains[i].Pos.Line
			}
		}
	}
	n := len(s.E.Joints)
	a.Figures = append(a.Figures, Figure{Name: "joints looked at", Low: float64(n), Likely: float64(n), High: float64(n), Text: fmt.Sprint(n)})
	switch {
	case bad > 0:
		a.Verdict = Fails
		a.Say = fmt.Sprintf("No: %s. See below.", count(bad, "place does not fit", "places do not fit"))
	case open > 0:
		a.Verdict = max(a.Verdict, Unknown)
		a.Say = fmt.Sprintf("What is given fits; %s.", count(open, "joint has an end that is not given", "joints have an end that is not given"))
	case a.Verdict == Tight:
		a.Say = "They go together, with the cautions below."
	default:
		a.Say = fmt.Sprintf("Yes, all %d joints go together.", n)
	}
	return a
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// holeFits checks the hole in the glass against the bulkhead's range.
func (s *Survey) holeFits(i int) (string, bool) {
	d := &s.E.Drains[i]
	size, b := float64(d.Hole.Size.Value), d.Part.Hole
	if !d.Hole.Given() || b.High == 0 || size >= float64(b.Low)-0.5e-3 && size <= float64(b.High)+0.5e-3 {
		return "", true
	}
	return fmt.Sprintf("%s: a hole of %s for a %s, which usually wants %s: measure the thread of the fitting in your hand before drilling",
		d.Name, d.Hole.Size.Text, d.Part.Name, b.Show(s.E.Units)), false
}
