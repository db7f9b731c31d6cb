package sheets

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Things keep their order and distance, stay between the ends, and do not move
// if they need not.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 12).Draw(t, "n")
		want, sizes := make([]float64, n), make([]float64, n)
		sum := 0.0
		for i := range n {
			want[i] = rapid.Float64Range(0, 100).Draw(t, "want")
			sizes[i] = rapid.Float64Range(0.1, 8).Draw(t, "size")
			sum += sizes[i]
		}
		slices.Sort(want)
		got := spread(want, sizes, 0, 100)
		if len(got) != n {
			t.Fatalf("%d of %d", len(got), n)
		}
		free := true
		for i, x := range got {
			if x < -1e-9 || x > 100+1e-9 {
				t.Fatalf("%g is outside", x)
			}
			if i == 0 {
				continue
			}
			gap := (sizes[i-1] + sizes[i]) / 2
			free = free && want[i]-want[i-1] > gap
			if x-got[i-1] < gap-1e-9 && sum < 100 {
				t.Fatalf("%g and %g are closer than %g", got[i-1], x, gap)
			}
		}
		for i := range got {
			if free && math.Abs(got[i]-want[i]) > 1e-9 {
				t.Fatalf("%g moved to %g without need", want[i], got[i])
			}
		}
	})
	// Three of size 2 at one place: the middle one stays. By hand.
	if got := spread([]float64{5, 5, 5}, []float64{2, 2, 2}, 0, 10); !slices.Equal(got, []float64{3, 5, 7}) {
		t.Error(got)
	}
	// Too many for the room: they share it.
	if got := spread([]float64{5, 5, 5}, []float64{20, 20, 20}, 0, 10); !slices.Equal(got, []float64{0, 5, 10}) {
		t.Error(got)
	}
}

func TestClock(t *testing.T) {
	for _, c := range []struct {
		t    float64
		want string
	}{
		{0, "0 s"},
		{4.24, "4.2 s"},
		{9.96, "10 s"},
		{92.7, "93 s"},
		{119.6, "2 min"},
		{184.4, "3 min 4 s"},
		{hour - 0.4, "60 min"},
		{2*hour - 0.4, "2 h"},
		{5*hour + 12*minute + 10, "5 h 12 min"},
		{2*day - 10, "2 days"},
		{4*day + 22.7*hour, "4 days 23 h"},
		{4*day + 23.9*hour, "5 days"},
		{365 * day, "365 days"},
	} {
		if got := clock(c.t); got != c.want {
			t.Errorf("clock(%g) = %q, not %q", c.t, got, c.want)
		}
	}
}

// From seconds to years an axis has between 3 and 11 ticks and ends with what it
// must show, not beyond what there is.
func TestTimeAxis(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		end := math.Exp(rapid.Float64Range(math.Log(1), math.Log(3*365*day)).Draw(t, "log end"))
		most := end * rapid.Float64Range(1, 3).Draw(t, "most")
		u := timeUnit(end)
		a := newTimeAxis(u, end, most)
		if n := len(a.ticks()); n < 3 || n > 12 {
			t.Fatalf("%d ticks to %g s", n, end)
		}
		if s := a.max * u.si; s < end*(1-1e-9) || s > most*(1+1e-8) {
			t.Fatalf("%g s of %g, at most %g", s, end, most)
		}
	})
}
