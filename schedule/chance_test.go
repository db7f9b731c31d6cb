package schedule

import "testing"

// Starts drawn of a task are those at which what it waits for is over: between the
// shortest and the longest of that. A task that is not there has none.
func TestDrawnStarts(t *testing.T) {
	days := func() Lasting {
		return Lasting{Low: 86400, Likely: 2 * 86400, High: 86400 * 5}
	}
	p := &Project{Tasks: []Task{
		{ID: "cure", Wait: days()},
		{ID: "fill", After: []Cause{{Task: "cure"}}, Work: Lasting{Low: 3600, Likely: 3600, High: 3600}},
	}}
	c, err := Draw(p, 500, 1, "fill", "none", "cure")
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Starts[0]) != 500 || len(c.Starts[1]) != 0 || c.Starts[2][499] != 0 {
		t.Fatalf("%d, %d starts, the last of the first task at %d", len(c.Starts[0]), len(c.Starts[1]), c.Starts[2][499])
	}
	for i, s := range c.Starts[0] {
		if s < DayMinutes || s > 5*DayMinutes || i > 0 && s < c.Starts[0][i-1] {
			t.Errorf("start %d at %d", i, s)
		}
		if c.Finishes[i] != s+60 {
			t.Errorf("ends at %d, begun at %d", c.Finishes[i], s)
		}
	}
	if c.Starts[0][0] == c.Starts[0][499] {
		t.Error("all draws are alike")
	}
}
