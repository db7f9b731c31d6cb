package finding

import (
	"encoding/json"
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestSort(t *testing.T) {
	l := List{
		{Place: Place{"b.yaml", 1, 1, 0}, What: "5"},
		{Place: Place{"a.yaml", 10, 3, 0}, What: "4"},
		{Place: Place{"a.yaml", 9, 7, 0}, What: "2"},
		{Place: Place{"a.yaml", 9, 7, 0}, What: "3"},
		{Place: Place{"a.yaml", 9, 5, 0}, What: "1"},
		{Place: Place{"a.yaml", 0, 0, 0}, What: "0"},
	}
	l.Sort()
	got := ""
	for _, f := range l {
		got += f.What
	}
	if got != "012345" {
		t.Errorf("order %s, want 012345", got)
	}
}

func TestWorst(t *testing.T) {
	for _, c := range []struct {
		list   List
		worst  Severity
		ok     bool
		errors bool
	}{
		{nil, Note, false, false},
		{List{{Severity: Note}}, Note, true, false},
		{List{{Severity: Warning}, {Severity: Note}}, Warning, true, false},
		{List{{Severity: Note}, {Severity: Error}, {Severity: Warning}}, Error, true, true},
	} {
		worst, ok := c.list.Worst()
		if worst != c.worst || ok != c.ok || c.list.HasErrors() != c.errors {
			t.Errorf("%v: worst %v %v, errors %v", c.list, worst, ok, c.list.HasErrors())
		}
		if (c.list.Err() != nil) != c.errors {
			t.Errorf("%v: Err() = %v", c.list, c.list.Err())
		}
	}
}

func TestErrorText(t *testing.T) {
	err := List{
		{Place: Place{"a.yaml", 2, 3, 4}, Severity: Error, What: "no unit", Do: "write 13 mm"},
		{Severity: Warning, What: "odd"},
	}.Err()
	const want = "a.yaml:2:3: error: no unit; write 13 mm\nwarning: odd"
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %q", err, want)
	}
	if l, ok := errors.AsType[List](err); !ok || len(l) != 2 {
		t.Error("the list cannot be had back from the error")
	}
	if got := List(nil).Error(); got != "no findings" {
		t.Errorf("empty list: %q", got)
	}
}

func TestPlaceText(t *testing.T) {
	for _, c := range []struct {
		place Place
		want  string
	}{
		{Place{}, ""},
		{Place{File: "a.yaml"}, "a.yaml"},
		{Place{File: "a.yaml", Line: 4}, "a.yaml:4"},
		{Place{"a.yaml", 4, 2, 9}, "a.yaml:4:2"},
		{Place{"", 4, 2, 0}, "4:2"},
	} {
		if got := c.place.String(); got != c.want {
			t.Errorf("%#v: %q, want %q", c.place, got, c.want)
		}
	}
}

func TestJSON(t *testing.T) {
	l := List{
		{Place{"a.yaml", 41, 11, 2}, Error, "runs[return].bore", "no unit", "write 13 mm", "  bore: 13"},
		{Severity: Note, What: "assumed"},
	}
	got, err := json.Marshal(l)
	if err != nil {
		t.Fatal(err)
	}
	const want = `[{"place":{"file":"a.yaml","line":41,"column":11,"width":2},"severity":"error",` +
		`"field":"runs[return].bore","what":"no unit","do":"write 13 mm","excerpt":"  bore: 13"},` +
		`{"severity":"note","what":"assumed"}]`
	if string(got) != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	var back List
	if err := json.Unmarshal(got, &back); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(l, back); diff != "" {
		t.Errorf("written and read again (-written +read):\n%s", diff)
	}
	if got, _ := json.Marshal(struct{ Findings List }{}); string(got) != `{"Findings":[]}` {
		t.Errorf("nil list: %s", got)
	}
	if _, err := json.Marshal(Finding{Severity: 7}); err == nil {
		t.Error("an unknown severity was written")
	}
	if err := json.Unmarshal([]byte(`{"severity":"fatal"}`), &Finding{}); err == nil {
		t.Error("an unknown severity was read")
	}
}
