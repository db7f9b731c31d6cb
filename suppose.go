package rillwright

import (
	"fmt"
	"io/fs"
	"strings"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/finding"
	"rillwright/fixes"
	"rillwright/schedule"
)

// Moved is an answer that comes out otherwise with a change.
type Moved struct {
	ID       string          `json:"id"`
	Question string          `json:"question"`
	From     answers.Verdict `json:"from"`
	To       answers.Verdict `json:"to"`
	Figures  []MovedFigure   `json:"figures"`
	New      bool            `json:"new,omitempty"`  // it is not asked as drawn
	Gone     bool            `json:"gone,omitempty"` // it is not asked with the change
}

// MovedFigure is a figure before and after.
type MovedFigure struct {
	Name string `json:"name"`
	From string `json:"from"` // "" if there was none
	To   string `json:"to"`
}

// Suppose answers a design with some things changed, and lists every answer that moves,
// worst first. A change is the path of a key and its new text, "dam.height=210 mm", or one
// of fixes.InsteadWords and words that one of its choices has and no other, "hose=5/8 in".
// The report is of the changed design; findings are those of its text. The error is of a
// change that cannot be made, and says what to write instead, or of a design that cannot be
// computed.
func Suppose(file string, data []byte, beside fs.FS, today schedule.Day, changes []string) (moved []Moved, edits []design.Edit, changed *Report, err error) {
	build := func(text []byte) (*Report, error) {
		return Build(file, text, Options{Beside: beside, NoFixes: true, Structure: true, Faults: MainFaults, Today: today})
	}
	drawn, err := build(data)
	if err != nil || drawn.Findings.HasErrors() {
		return nil, nil, drawn, err
	}
	for _, c := range changes {
		more, err := supposed(drawn.Enclosure, c)
		if err != nil {
			return nil, nil, drawn, err
		}
		edits = append(edits, more...)
	}
	all, ok := drawn.Design.Replanned(edits)
	if !ok {
		return nil, nil, drawn, fmt.Errorf("a measured fact names a piece by its number, and the numbers change\n  do: take the fact out of as-built first")
	}
	edits = all
	text, err := design.Apply(data, edits)
	if err != nil {
		return nil, edits, drawn, err
	}
	if changed, err = build(text); err != nil || changed.Findings.HasErrors() {
		return nil, edits, changed, err
	}
	return movedOf(drawn.Answers, changed.Answers), edits, changed, nil
}

// supposed returns the edits of one change.
func supposed(e *enclosure.Enclosure, change string) ([]design.Edit, error) {
	what, to, given := strings.Cut(change, "=")
	what, to = strings.TrimSpace(what), strings.TrimSpace(to)
	if !given || what == "" || to == "" {
		return nil, fmt.Errorf("%q does not say what becomes of what\n  do: write a key and its new text, dam.height=210 mm; or a thing and which, hose=5/8 in", change)
	}
	list, ok := fixes.InsteadOf(e, e.Parts, what)
	if !ok {
		if near, ok := finding.Nearest(what, fixes.InsteadWords()); ok && !strings.ContainsAny(what, ".[") {
			return nil, fmt.Errorf("%q is no thing that can be told by a word\n  do: write %s=%s, or a key", what, near, to)
		}
		return []design.Edit{{Path: what, To: to}}, nil
	}
	var fits []fixes.Instead
	var names []string
	for _, c := range list[1:] {
		if strings.EqualFold(c.Do, to) {
			return c.Edits, nil
		}
		if strings.Contains(" "+strings.ToLower(c.Do)+" ", strings.ToLower(to)) {
			fits = append(fits, c)
		}
		names = append(names, c.Do)
	}
	switch {
	case len(fits) == 1:
		return fits[0].Edits, nil
	case len(names) == 0:
		return nil, fmt.Errorf("there is no other %s for this design\n  do: change its keys: rillwright suppose wall.yaml \"dam.height=210 mm\"", what)
	case len(fits) > 1:
		names = names[:0]
		for _, c := range fits {
			names = append(names, c.Do)
		}
		return nil, fmt.Errorf("%q may be several\n  do: write more of one of: %s", change, strings.Join(names, "; "))
	}
	return nil, fmt.Errorf("there is no %s %q\n  do: write a part of one of: %s", what, to, strings.Join(names, "; "))
}

// movedOf compares two lists of answers.
func movedOf(before, after []answers.Answer) []Moved {
	was := map[string]*answers.Answer{}
	for i := range before {
		was[before[i].ID] = &before[i]
	}
	var out []Moved
	for i := range after {
		b := &after[i]
		a := was[b.ID]
		delete(was, b.ID)
		m := Moved{ID: b.ID, Question: b.Question, To: b.Verdict, New: a == nil}
		if a != nil {
			m.From = a.Verdict
		}
		from := map[string]string{}
		if a != nil {
			for _, f := range a.Figures {
				from[f.Name] = f.Text
			}
		}
		for _, f := range b.Figures {
			if t, ok := from[f.Name]; !ok || t != f.Text {
				m.Figures = append(m.Figures, MovedFigure{f.Name, t, f.Text})
			}
		}
		if m.New || m.From != m.To || len(m.Figures) > 0 {
			out = append(out, m)
		}
	}
	for i := range before {
		if a := &before[i]; was[a.ID] != nil {
			out = append(out, Moved{ID: a.ID, Question: a.Question, From: a.Verdict, Gone: true})
		}
	}
	return out
}
