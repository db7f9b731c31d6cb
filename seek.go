package rillwright

import (
	"context"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/finding"
	"rillwright/fixes"
	"rillwright/schedule"
	"rillwright/seek"
)

// Seek looks for the best design among all that can be made of one by choosing what is
// open. What is open is named by fixes.InsteadWords, or is the path of a key with what it
// may be: "dam.height=190 mm|200 mm". The error is of a file that cannot be computed, or
// of what is open; each says what to write instead.
func Seek(ctx context.Context, file string, data []byte, beside fs.FS, today schedule.Day, open []string, o seek.Options) (*seek.Result, *Report, error) {
	check := func(text []byte) (*Report, error) {
		return Build(file, text, Options{Beside: beside, NoFixes: true, Structure: true, Faults: MainFaults, Today: today, Stop: ctx.Err})
	}
	r, err := check(data)
	if err != nil || r.Findings.HasErrors() {
		return nil, r, err
	}
	for _, id := range slices.Concat(o.Leave, o.Mend) {
		if err := asked(r.Answers, id); err != nil {
			return nil, r, err
		}
	}
	var slots []seek.Slot
	for _, word := range open {
		s, err := slot(r.Enclosure, word)
		if err == nil {
			err = readable(file, data, r, &s)
		}
		if err != nil {
			return nil, r, err
		}
		slots = append(slots, s)
	}
	out, err := seek.Seek(ctx, seek.Problem{
		File: file, Data: data, Design: r.Design, Parts: r.Enclosure.Parts, Curves: r.Curves, Slots: slots,
		Check: func(text []byte) ([]answers.Answer, error) {
			rep, err := check(text)
			if err != nil {
				return nil, err
			}
			return rep.Answers, nil
		},
	}, o)
	return out, r, err
}

// asked reports an answer that nobody gives. One about a part that a choice adds, as a
// second drain, is known by its first word.
func asked(list []answers.Answer, id string) error {
	word, _, _ := strings.Cut(id, "[")
	names := make([]string, len(list))
	for i := range list {
		names[i] = list[i].ID
		if known, _, part := strings.Cut(list[i].ID, "["); list[i].ID == id || part && known == word && known != id {
			return nil
		}
	}
	do := "write one of those in brackets that rillwright check prints"
	if near, ok := finding.Nearest(id, names); ok {
		do = "write " + near
	}
	return fmt.Errorf("there is no answer %q\n  do: %s", id, do)
}

// readable reports a value of a key that the file cannot have.
func readable(file string, data []byte, r *Report, s *seek.Slot) error {
	for _, c := range s.Choices {
		if len(c.Edits) == 0 || c.Do != s.Word+": "+c.Edits[0].To {
			continue // not typed
		}
		text, err := design.Apply(data, c.Edits)
		if err != nil {
			return fmt.Errorf("%s cannot be %s: %w", s.Word, c.Edits[0].To, err)
		}
		_, found := design.Read(file, text)
		for i := range found {
			if f := &found[i]; f.Severity == finding.Error {
				return fmt.Errorf("%s cannot be %s: %s\n  do: %s", s.Word, c.Edits[0].To, f.What, f.Do)
			}
		}
	}
	return nil
}

// slot is one thing that is open, by its word or path.
func slot(e *enclosure.Enclosure, word string) (seek.Slot, error) {
	path, values, given := strings.Cut(word, "=")
	if !given {
		list, ok := fixes.InsteadOf(e, e.Parts, word)
		if !ok {
			do := "write one of " + strings.Join(fixes.InsteadWords(), ", ") + ", or a key and what it may be: dam.height=190 mm|200 mm"
			if near, ok := finding.Nearest(word, fixes.InsteadWords()); ok {
				do = "write " + near
			}
			return seek.Slot{}, fmt.Errorf("%q is nothing that can be left open\n  do: %s", word, do)
		}
		if len(list) < 2 {
			return seek.Slot{}, fmt.Errorf("there is no other choice of %s for this design\n  do: leave it closed, or give a key and what it may be: dam.height=190 mm|200 mm", word)
		}
		return seek.Slot{Word: word, Choices: list}, nil
	}
	path = strings.TrimSpace(path)
	s := seek.Slot{Word: path, Choices: []fixes.Instead{{Do: "as drawn", Known: true}}}
	for v := range strings.SplitSeq(values, "|") {
		v = strings.TrimSpace(v)
		if v == "" || slices.ContainsFunc(s.Choices, func(c fixes.Instead) bool { return len(c.Edits) > 0 && c.Edits[0].To == v }) {
			continue
		}
		s.Choices = append(s.Choices, fixes.Instead{Do: path + ": " + v, Known: true, Edits: []answers.Edit{{Path: path, To: v}}})
	}
	if len(s.Choices) < 2 {
		return s, fmt.Errorf("it is not said what %s may be\n  do: write %s=190 mm|200 mm, with your own values", path, path)
	}
	return s, nil
}
