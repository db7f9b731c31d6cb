package faults

import (
	"slices"
	"strings"
	"testing"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/examples"
)

// swapped is a design file with pieces of its text replaced.
func swapped(tb testing.TB, data []byte, pairs ...string) string {
	tb.Helper()
	s := string(data)
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(s, pairs[i]) {
			tb.Fatalf("the design has no %q", pairs[i])
		}
		s = strings.ReplaceAll(s, pairs[i], pairs[i+1])
	}
	return s
}

// without is a design file without some of its sections.
func without(text string, sections ...string) string {
	kept, drop := []string{}, false
	for _, line := range strings.SplitAfter(text, "\n") {
		if key, _, ok := strings.Cut(line, ":"); ok && !strings.HasPrefix(line, " ") && !strings.HasPrefix(line, "#") {
			drop = slices.Contains(sections, key)
		}
		if !drop {
			kept = append(kept, line)
		}
	}
	return strings.Join(kept, "")
}

// resolved reads a design file that must be sound.
func resolved(tb testing.TB, text string) *enclosure.Enclosure {
	tb.Helper()
	d, list := design.Read("test.yaml", []byte(text))
	if list.HasErrors() {
		tb.Fatal(list)
	}
	cat, err := catalogue.Builtin()
	if err != nil {
		tb.Fatal(err)
	}
	e, list := enclosure.Resolve(d, cat, nil)
	if list.HasErrors() {
		tb.Fatal(list)
	}
	return e
}

// demo is a demo with pieces of its text replaced and nothing that hangs over.
func demo(tb testing.TB, data []byte, pairs ...string) *enclosure.Enclosure {
	tb.Helper()
	return resolved(tb, without(swapped(tb, data, pairs...), "bridges", "scenarios", "top-up"))
}

func metric(tb testing.TB, pairs ...string) *enclosure.Enclosure {
	tb.Helper()
	return demo(tb, examples.CorridorCabinet, pairs...)
}

// rig makes an enclosure ready at its likely figures.
func rig(tb testing.TB, e *enclosure.Enclosure) *Rig {
	tb.Helper()
	r, err := NewRig(e, e.Likely())
	if err != nil {
		tb.Fatal(err)
	}
	return r
}

// course follows a rig through steps.
func course(tb testing.TB, r *Rig, o Options, lasts float64, steps ...enclosure.Step) *Result {
	tb.Helper()
	res, err := r.Run(&enclosure.Scenario{Name: "test", Lasts: lasts, Steps: steps}, o)
	if err != nil {
		tb.Fatal(err)
	}
	return res
}

// when is the time of the first event with the given words, -1 for none.
func when(res *Result, words string) float64 {
	for _, e := range res.Events {
		if strings.Contains(e.What, words) {
			return e.At
		}
	}
	return -1
}
