package fixes

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/internal/trial"
)

// carried lists every change there is to what carries, whatever answer asks, and to
// openings that lie badly.
func carried(f *finder, list []answers.Answer) []change {
	out := append(f.damGlass(), f.joints()...)
	for i := range list {
		a := &list[i]
		switch id, _, _ := strings.Cut(a.ID, "["); id {
		case "pane", "bond", "standing":
			out = append(out, f.carrying(a)...)
		case "hole", "way":
			for k := range a.Fixes {
				out = append(out, f.moved(&a.Fixes[k]))
			}
		}
	}
	return out
}

// Every change to what carries, written into the file by its edits, gives what was
// tried: the same verdicts and the same figures, of what carries and of the water.
func TestStructureWrittenAsTried(t *testing.T) {
	if testing.Short() {
		t.Skip("tries many designs")
	}
	const metric, us = "metric", "us"
	const (
		pane  = "dam pane, at: dam, width: 886 mm, height: 200 mm, thickness: 6 mm, glass: annealed"
		gaps  = "  bond-line: 0.8 to 1.2 mm        # the gaps of 1 mm that the panes were cut for\n  fillet: 6 mm\n"
		hole  = "hole: { pane: back, size: 44 mm, up: 110 mm, in: 110 mm, edge: left }"
		riser = "size: 26 mm, up: 962 mm, in: 450 mm, edge: left"
	)
	for name, c := range map[string]struct {
		pairs []string
		least int // changes with edits
	}{
		"metric": {[]string{metric}, 35},
		"us":     {[]string{us}, 25},
		"one thickness, nothing sealed, on its rim": {[]string{metric, "  thickness: 6 mm\n  set-back", "  set-back", "rests: on a full board", "rests: on its rim", "sealant:\n  label: plain 100 % silicone, acetoxy, no mould inhibitor\n" + gaps, ""}, 35},
		"no dam pane, braces":                       {[]string{metric, "    - { name: " + pane + " }\n", "", "  ways:", "  braces:\n    - { name: edge strip, pane: side, runs: along, width: 40 mm, thickness: 6 mm, of: glass }\n    - { name: tie, pane: dam, to: back, runs: across, width: 60 mm, thickness: 6 mm, of: glass }\n  ways:"}, 30},
		"laminated, no stand":                       {[]string{metric, pane, strings.Replace(pane, "thickness: 6 mm, glass: annealed", "thickness: 6.38 mm, glass: laminated, ply: 3 mm", 1), "  thickness: 6 mm\n  set-back", "  thickness: 6.38 mm\n  set-back", "stand: { width: 900 mm, depth: 450 mm, weight: 34 kg, feet: 4, foot: 50 mm, inset: 0 mm, carries-sump: yes, fixed: yes }\n", ""}, 30},
		"no plies, a sump apart":                    {[]string{metric, pane, strings.Replace(pane, "annealed", "laminated", 1), "carries-sump: yes, fixed: yes }", "carries-sump: no, fixed: no }", "sump:\n", "sump:\n  left: -700 mm\n  front: 420 mm\n"}, 30},
		"measured":                                  {[]string{metric, hole, strings.Replace(hole, "in: 110", "in: 60", 1), "\nstock:", "\nas-built:\n  - { of: dam.thickness, is: 5.8 mm }\n  - { of: \"enclosure.panes[5].thickness\", is: 5.8 mm }\n  - { of: dam.height, is: 198 mm }\n  - { of: sealant.fillet, is: 5 mm }\n  - { of: \"hardscape[main root].out\", is: 121 mm }\n  - { of: stand.depth, is: 452 mm }\n  - { of: \"drains[1].hole.in\", is: 41.5 mm }\n\nstock:", "fixed: yes", "fixed: no"}, 35},
		"openings at the edge":                      {[]string{metric, hole, strings.Replace(hole, "in: 110", "in: 40", 1), riser, "size: 26 mm, up: 962 mm, in: 20 mm, edge: left"}, 35},
		"tips, a hole by inches":                    {[]string{us, "depth: 17 in, weight", "depth: 14 in, front: -1 in, weight", "inset: 0 in", "inset: 2 in", "up: 3 in, in: 3 in, edge: rear", "up: 3 in, in: 1 3/8 in, edge: rear"}, 25},
		"through the base":                          {[]string{metric, hole, "hole: { pane: base, size: 44 mm, up: 200 mm, in: 40 mm, edge: rear }"}, 35},
		"through the wall": {[]string{
			metric, "kind: standpipe", "kind: wall opening", "    standpipe: rigid pipe 1 in sch 40\n    lip-bore: 26.6 mm\n", "",
			"lip: 150 mm", "lip: 20 mm", "up: 110 mm, in: 110 mm", "up: 33 mm, in: 443 mm",
		}, 35},
	} {
		moved := map[string][]string{
			"through the wall": {"drains[main drain].hole.up", "drains[main drain].lip"},
			"through the base": {"drains[main drain].hole.in"},
		}[name]
		data := trial.Swap(t, demo(c.pairs[0]), c.pairs[1:]...)
		f, _ := surveyed(t, data)
		list, err := f.s.Structure()
		if err != nil {
			t.Fatal(err)
		}
		edited := 0
		for _, x := range carried(f, list) {
			e := f.s.E.Clone()
			own(e)
			if !x.apply(e) {
				continue
			}
			fix := f.fix(&x)
			if len(fix.Edits) == 0 {
				if !strings.Contains(fix.Do, "write it into the file yourself") {
					t.Errorf("%s: %q has no edits and does not say so", name, fix.Do)
				}
				continue
			}
			edited++
			moved = slices.DeleteFunc(moved, func(path string) bool {
				return slices.ContainsFunc(fix.Edits, func(e design.Edit) bool { return e.Path == path })
			})
			text, err := design.Apply(data, fix.Edits)
			if err != nil {
				t.Errorf("%s: %q: %v", name, x.do, err)
				continue
			}
			d, found := design.Read("written", text)
			if found.HasErrors() {
				t.Errorf("%s: %q:\n%v", name, x.do, found)
				continue
			}
			written, found := enclosure.Resolve(d, f.cat, nil)
			if found.HasErrors() {
				t.Errorf("%s: %q:\n%v", name, x.do, found)
				continue
			}
			tried := f.rebuilt(e, &x)
			if x.wets { // the water is tried with the senses found before, which is another matter
				tried = answersOf(t, e, true)
			}
			sameStructure(t, name+": "+x.do, tried, answersOf(t, written, x.wets))
		}
		if edited < c.least {
			t.Errorf("%s: only %d changes were written", name, edited)
		}
		if len(moved) > 0 {
			t.Errorf("%s: nothing moves %v", name, moved)
		}
		t.Logf("%s: %d written", name, edited)
	}
}

// answersOf surveys an enclosure anew for what carries, and for the water.
func answersOf(t *testing.T, e *enclosure.Enclosure, water bool) []answers.Answer {
	t.Helper()
	s, err := answers.NewSurvey(e)
	if err != nil {
		t.Fatal(err)
	}
	list, err := s.Structure()
	if err != nil {
		t.Fatal(err)
	}
	if water {
		list = append(list, s.Water()...)
	}
	return list
}

// sameStructure holds what was tried against what was written.
func sameStructure(t *testing.T, what string, tried, list []answers.Answer) {
	t.Helper()
	atLine := regexp.MustCompile(` \(lines? \d+( and \d+)?\)`) // lines move when some are added
	plain := func(s string) string { return atLine.ReplaceAllString(s, "") }
	if len(tried) != len(list) {
		t.Errorf("%s: %d answers tried, %d written", what, len(tried), len(list))
		return
	}
	for i := range tried {
		a, b := &tried[i], &list[i]
		if a.ID != b.ID || a.Verdict != b.Verdict || headline(a) != headline(b) {
			t.Errorf("%s: tried, %s is %v at %s; written, %s is %v at %s", what, a.ID, a.Verdict, headline(a), b.ID, b.Verdict, headline(b))
			continue
		}
		// A trial leaves out figures that no verdict turns on.
		for _, x := range a.Figures {
			if !slices.ContainsFunc(b.Figures, func(y answers.Figure) bool { return plain(y.Name) == plain(x.Name) && y.Text == x.Text }) {
				t.Errorf("%s: tried, %s has %s: %s, and not as written", what, a.ID, x.Name, x.Text)
			}
		}
	}
}
