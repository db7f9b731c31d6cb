package schedule

import (
	"fmt"
	"testing"

	"rillwright/quantity"
)

// made is a project of n tasks of one builder's evenings, each after one to three
// of the forty before it.
func made(n int) *Project {
	start, _ := DayOf(2026, 3, 2)
	p := &Project{Start: start.At(0), Resources: []Resource{{Name: "builder", Hours: evenings(), Count: 1}, {Name: "shop", Hours: evenings()}}}
	r := random{state: 3}
	for i := range n {
		hour := quantity.Duration(3600 * (0.2 + r.uniform()))
		t := Task{ID: fmt.Sprint(i), Work: Lasting{Low: hour / 2, Likely: hour, High: 2 * hour}, Needs: []Need{{"builder", 1}}}
		if i%3 == 0 {
			t.Wait = Lasting{Low: 24 * 3600, Likely: 48 * 3600, High: 120 * 3600}
		}
		for range 1 + i%3 {
			if i > 0 {
				t.After = append(t.After, Cause{Task: fmt.Sprint(max(0, i-1-int(40*r.uniform())))})
			}
		}
		p.Tasks = append(p.Tasks, t)
	}
	return p
}

func BenchmarkPlan(b *testing.B) {
	for _, n := range []int{40, 2000} {
		p := made(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := Make(p, 0); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkDraw10000(b *testing.B) {
	p := made(40)
	for b.Loop() {
		if _, err := Draw(p, 10000, 1); err != nil {
			b.Fatal(err)
		}
	}
}
