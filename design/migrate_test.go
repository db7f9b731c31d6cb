package design

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"rillwright/finding"
)

// There is no older format yet, so the machinery is tried on an invented one:
// format 0 called the name "title".
func TestCurrent(t *testing.T) {
	rename := migration{from: 0, what: `"title" is called "name"`, apply: func(b []byte) ([]byte, error) {
		return bytes.Replace(b, []byte("title:"), []byte("name:"), 1), nil
	}}
	old := []byte("# mine\nrillwright:  0   # first\ntitle: x\n")
	now, list, ok := current("f", old, []migration{rename})
	if !ok || string(now) != "# mine\nrillwright:  0   # first\nname: x\n" {
		t.Errorf("got %q, %v", now, ok)
	}
	if len(list) != 1 || list[0].Severity != finding.Note || list[0].Place != (finding.Place{File: "f", Line: 2, Column: 14, Width: 1}) {
		t.Errorf("want one note at 2:14, got %+v", list)
	}
	for name, step := range map[string]migration{
		"fails":       {from: 0, apply: func([]byte) ([]byte, error) { return nil, errors.New("cannot") }},
		"moves lines": {from: 0, apply: func(b []byte) ([]byte, error) { return append([]byte("\n"), b...), nil }},
	} {
		if _, list, ok := current("f", old, []migration{step}); ok || len(list) != 1 || list[0].Severity != finding.Error {
			t.Errorf("%s: ok %v, %+v", name, ok, list)
		}
	}
	for _, text := range []string{"rillwright: 1\n", "rillwright: one\n", "rillwright:\n", "", "name: x\n"} {
		if now, list, ok := current("f", []byte(text), nil); !ok || len(list) > 0 || string(now) != text {
			t.Errorf("%q: got %q, %v, %v", text, now, list, ok)
		}
	}
}

// Each format needs a step from the one before it.
func TestMigrationsAreComplete(t *testing.T) {
	steps := migrations()
	if len(steps) != Format-1 {
		t.Fatalf("%d steps up to format %d", len(steps), Format)
	}
	for i, s := range steps {
		if s.from != i+1 || strings.TrimSpace(s.what) == "" || s.apply == nil {
			t.Errorf("step %d: %+v", i+1, s.from)
		}
	}
}
