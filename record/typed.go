package record

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// Names are the parts of a design that readings may be about.
type Names struct{ Pumps, Manifolds []string }

func (n *Names) of(o Of) []string {
	switch o {
	case Pump:
		return n.Pumps
	case Manifold:
		return n.Manifolds
	case Whole, Thing:
	}
	return nil
}

// Typed reads a short line such as is typed at the floor: a word, the part if
// there are several, the figures, and a note behind #.
//
//	bare 10 L in 43 s, 44 s, 43 s
//	bare second pump 800 L/h   # after the new rotor
//	cups 40 38 41 ml in 30 s
//	cleaned strainer
//
// The reading has no time and no design yet. The error says what to write.
func Typed(line string, names Names) (Reading, error) {
	line, note, _ := strings.Cut(line, "#")
	word, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
	word, rest = strings.ToLower(word), strings.Join(strings.Fields(rest), " ")
	r := Reading{Note: strings.TrimSpace(note)}
	if word == "" {
		return r, fmt.Errorf("there is nothing to note\n  do: %s", wordSlip(""))
	}
	if name, part, ok := strings.Cut(word, "["); ok { // bare[main pump]: an id
		both := part
		if rest != "" {
			both += " " + rest
		}
		inside, after, closed := strings.Cut(both, "]")
		if !closed {
			return r, fmt.Errorf("%q has no end\n  do: put ] behind the part", line)
		}
		word, rest = name, strings.TrimSpace(inside+" "+strings.TrimSpace(after))
	}
	w, ok := FindWord(word)
	if !ok {
		return r, fmt.Errorf("%q cannot be noted\n  do: %s", word, wordSlip(word))
	}
	r.What, r.Kind = w.Name, w.Kind
	var err error
	if r.Part, r.Text, err = r.split(w, rest, names); err != nil {
		return r, err
	}
	if w.Kind != Event && r.Text == "" {
		return r, fmt.Errorf("%s: %w\n  do: write %s %s", word, errNoFigure, word, Example(w.Kind))
	}
	if r.Values, err = ParseValue(w.Kind, r.Text); err != nil {
		return r, fmt.Errorf("%s: %w\n  do: write %s %s", word, err, word, Example(w.Kind))
	}
	r.Text = dash(r.Text)
	return r, nil
}

// split parts what stands behind the word into the part and the figures.
func (r *Reading) split(w Word, rest string, names Names) (part, text string, err error) {
	switch w.Of {
	case Whole:
		return "", rest, nil
	case Thing:
		if rest == "" {
			return "", "", fmt.Errorf("%s what?\n  do: write %s and the part, as %s strainer", w.Name, w.Name, w.Name)
		}
		return rest, "", nil
	case Pump, Manifold:
	}
	known := names.of(w.Of)
	longest := ""
	for _, n := range known {
		if len(n) > len(longest) && (rest == n || strings.HasPrefix(strings.ToLower(rest), strings.ToLower(n)+" ")) {
			longest = n
		}
	}
	switch {
	case longest != "":
		return longest, strings.TrimSpace(rest[len(longest):]), nil
	case len(known) == 1:
		return known[0], rest, nil
	case len(known) == 0:
		return "", "", fmt.Errorf("%s: the design has none that it could be of\n  do: leave this reading out", w.Name)
	}
	return "", "", fmt.Errorf("%s of which?\n  do: write %s and then one of: %s", w.Name, w.Name, strings.Join(known, ", "))
}

// ParseTime reads the time of a reading: RFC 3339, or a date with or without hours
// and minutes, which is meant where in is; a date alone is noon. Dates with strokes
// are refused, since half the world puts the month first.
func ParseTime(text string, in *time.Location) (time.Time, error) {
	text = strings.TrimSpace(text)
	if t, err := time.Parse(time.RFC3339, text); err == nil {
		return t, nil
	}
	if t, err := time.ParseInLocation("2006-01-02 15:04", strings.Replace(text, "T", " ", 1), in); err == nil {
		return t, nil
	}
	if t, err := time.ParseInLocation(time.DateOnly, text, in); err == nil {
		return t.Add(12 * time.Hour), nil
	}
	return time.Time{}, fmt.Errorf("%q is no time\n  do: write 2026-11-26 18:30, or 2026-11-26", text)
}

// index returns which column has a name, -1 for none.
func index(head []string, name string) int {
	return slices.IndexFunc(head, func(h string) bool { return strings.EqualFold(strings.TrimSpace(h), name) })
}
