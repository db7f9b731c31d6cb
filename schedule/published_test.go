package schedule

import (
	"math"
	"slices"
	"testing"

	"rillwright/quantity"
)

const week = 7 * 24 * 3600

func weeks(low, likely, high float64) Lasting {
	return Lasting{Low: quantity.Duration(low * week), Likely: quantity.Duration(likely * week), High: quantity.Duration(high * week)}
}

// reliable is the building project of Hillier and Lieberman, Introduction to
// Operations Research, 7th edition 2001, chapter 10: activities, causes and weeks
// of table 10.1, the likely value; the ends of table 10.4 are from memory.
func reliable() *Project {
	p := &Project{}
	for _, a := range []struct {
		id               string
		after            string
		low, mid, likely float64
		high             float64
	}{
		{"A", "", 1, 2, 2, 3},
		{"B", "A", 2, 3.5, 4, 8},
		{"C", "B", 6, 9, 10, 18},
		{"D", "C", 4, 5.5, 6, 10},
		{"E", "C", 1, 4.5, 4, 5},
		{"F", "E", 4, 4, 5, 10},
		{"G", "D", 5, 6.5, 7, 11},
		{"H", "EG", 5, 8, 9, 17},
		{"I", "C", 3, 7.5, 7, 9},
		{"J", "FI", 3, 9, 8, 9},
		{"K", "J", 4, 4, 4, 4},
		{"L", "J", 1, 5.5, 5, 7},
		{"M", "H", 1, 2, 2, 3},
		{"N", "KL", 5, 5.5, 6, 9},
	} {
		t := Task{ID: a.id, Work: weeks(a.low, a.likely, a.high)}
		for _, c := range a.after {
			t.After = append(t.After, Cause{Task: string(c)})
		}
		p.Tasks = append(p.Tasks, t)
		// Table 10.4's mean and table 10.1's duration are the same.
		if mean := (a.low + 4*a.mid + a.high) / 6; math.Abs(mean-a.likely) > 1e-9 {
			panic(a.id)
		}
	}
	return p
}

// The book: 44 weeks along A B C E F J L N; slack of D, G, H and M 4 weeks, of I 2,
// of K 1.
func TestPublishedPasses(t *testing.T) {
	p := reliable()
	passes, err := Passes(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := Make(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	const w = week / 60
	slack := map[string]Moment{"D": 4, "G": 4, "H": 4, "M": 4, "I": 2, "K": 1}
	start := []Moment{0, 2, 6, 16, 16, 20, 22, 29, 16, 25, 33, 33, 38, 38}
	for i, pass := range passes {
		id := p.Tasks[i].ID
		if pass.Slack != slack[id]*w || pass.EarlyStart != start[i]*w || pass.LateStart != (start[i]+slack[id])*w {
			t.Errorf("%s: %+v", id, pass)
		}
		// Without hours and resources the plan is the forward pass.
		if it := plan.Items[i]; it.Start != pass.EarlyStart || it.Finish != pass.EarlyFinish || it.Slack != pass.Slack {
			t.Errorf("%s: %+v, pass %+v", id, it, pass)
		}
	}
	if plan.Finish != 44*w {
		t.Errorf("ends after %d min", plan.Finish)
	}
	if got, want := plan.Chain(), []string{"A", "B", "C", "E", "F", "J", "L", "N"}; !slices.Equal(got, want) {
		t.Errorf("chain %v", got)
	}
}

// The book's approximation by the mean critical path: mean 44 weeks, variance 9,
// so 47 weeks are met with a probability of 0.84; the book adds that this is too
// high, since other paths may become the longest.
func TestPublishedChances(t *testing.T) {
	p := reliable()
	mid := []float64{2, 3.5, 9, 5.5, 4.5, 4, 6.5, 8, 7.5, 9, 4, 5.5, 2, 5.5}
	for i := range p.Tasks {
		p.Tasks[i].Work.Likely = quantity.Duration(mid[i] * week)
	}
	only := &Project{} // the critical path alone
	for i, id := range []string{"A", "B", "C", "E", "F", "J", "L", "N"} {
		for _, task := range p.Tasks {
			if task.ID == id {
				task.After = nil
				if i > 0 {
					task.After = []Cause{{Task: only.Tasks[i-1].ID}}
				}
				only.Tasks = append(only.Tasks, task)
			}
		}
	}
	const n = 10000
	path, err := Draw(only, n, 1)
	if err != nil {
		t.Fatal(err)
	}
	var mean, square float64
	for _, f := range path.Finishes {
		x := float64(f) * 60 / week
		mean, square = mean+x/n, square+x*x/n
	}
	// Three standard errors of the mean are 0.09. The beta of these ends has not
	// quite the variance ((high - low)/6)^2 that the book takes.
	if variance := square - mean*mean; math.Abs(mean-44) > 0.09 || variance < 7 || variance > 11.5 {
		t.Errorf("mean %.3f, variance %.3f", mean, variance)
	}
	by := Moment(47 * week / 60)
	if share := path.By(by); math.Abs(share-0.84) > 0.04 {
		t.Errorf("47 weeks on the path alone: %.3f", share)
	}
	all, err := Draw(p, n, 1)
	if err != nil {
		t.Fatal(err)
	}
	if all.By(by) > path.By(by) {
		t.Errorf("with all paths %.3f, more than %.3f with one", all.By(by), path.By(by))
	}
	again, _ := Draw(p, n, 1)
	if !slices.Equal(all.Finishes, again.Finishes) {
		t.Error("the same seed draws otherwise")
	}
}

// Moments of a beta distribution: mean (low + 4 likely + high)/6, variance
// (mean - low)(high - mean)/7 (shapes add up to 6).
func TestDrawnLengths(t *testing.T) {
	for _, l := range []Lasting{{Low: 0, Likely: 6e5, High: 6e6}, {Low: 6e5, Likely: 6e5, High: 9e5}, {Low: 0, Likely: 6e6, High: 6e6}} {
		r := random{state: 7}
		const n = 200000
		low, mode, high := float64(l.Low)/60, float64(l.Likely)/60, float64(l.High)/60
		var sum, square float64
		for range n {
			x := float64(r.lasting(l)) - low
			if x < 0 || x > high-low {
				t.Fatal("out of its band")
			}
			sum, square = sum+x/n, square+x*x/n
		}
		mean := (low+4*mode+high)/6 - low
		variance := mean * (high - low - mean) / 7
		if math.Abs(sum-mean) > 4*math.Sqrt(variance/n) || math.Abs(square-sum*sum-variance) > 0.02*variance {
			t.Errorf("%v: mean %g, not %g; variance %g, not %g", l, sum, mean, square-sum*sum, variance)
		}
	}
}
