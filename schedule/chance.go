package schedule

import (
	"math"
	"slices"
)

// Chances is how a project's end is spread when every task's length is drawn.
type Chances struct {
	Finishes []Moment   // sorted
	Never    int        // draws in which a task fitted nowhere
	Starts   [][]Moment // of each task asked for, sorted; of unknown ones nothing
}

// Draw plans a project n times, with the work and the waiting of each task drawn
// from a beta distribution between its low and high ends whose mean is
// (low + 4 likely + high)/6 (PERT: Malcolm and others 1959, from memory; shapes 1 +
// 4 (likely - low)/(high - low) and its mirror image). What each task lasts is
// drawn by itself: lengths that run long together, as in a cold month, spread the
// end more. Draw number i depends on the seed and i alone. Starts are those of the
// tasks named. Errors are those of Make; that a task fits nowhere is counted.
func Draw(p *Project, n int, seed uint64, tasks ...string) (*Chances, error) {
	pl, err := newPlacer(p)
	if err != nil {
		return nil, err
	}
	pl.last(0)
	if i := pl.place(); i >= 0 {
		return nil, pl.neverFits(i)
	}
	out := &Chances{Starts: make([][]Moment, len(tasks))}
	for k := range n {
		r := random{state: mix(seed) + mix(uint64(k)+0x632be59bd9b4e019)}
		for i, t := range pl.p.Tasks {
			pl.work[i], pl.wait[i] = r.lasting(t.Work), r.lasting(t.Wait)
		}
		if pl.place() >= 0 {
			out.Never++
			continue
		}
		end := pl.now
		for _, f := range pl.finish {
			end = max(end, f)
		}
		out.Finishes = append(out.Finishes, end)
		for t, id := range tasks {
			if i, ok := pl.n.index[id]; ok {
				out.Starts[t] = append(out.Starts[t], pl.start[i])
			}
		}
	}
	slices.Sort(out.Finishes)
	for _, s := range out.Starts {
		slices.Sort(s)
	}
	return out, nil
}

// By returns the share of all draws, 0 to 1, that end by a moment.
func (c *Chances) By(m Moment) float64 {
	n, _ := slices.BinarySearch(c.Finishes, m+1)
	return float64(n) / float64(max(len(c.Finishes)+c.Never, 1))
}

// Quantile returns the moment by which a share of all draws, 0 to 1, has ended;
// ok is false if so many never do.
func (c *Chances) Quantile(share float64) (m Moment, ok bool) {
	all := len(c.Finishes) + c.Never
	k := max(int(math.Ceil(share*float64(all))), 1)
	if k > len(c.Finishes) {
		return 0, false
	}
	return c.Finishes[k-1], true
}

// random is a sequence of numbers fixed by its first state (SplitMix64: Steele,
// Lea and Flood 2014, from memory).
type random struct{ state uint64 }

func mix(z uint64) uint64 {
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// uniform returns a number between 0 and 1, never either.
func (r *random) uniform() float64 {
	r.state += 0x9e3779b97f4a7c15
	return (float64(mix(r.state)>>11) + 0.5) / (1 << 53)
}

// normal returns a standard normal number (polar method, Marsaglia 1964).
func (r *random) normal() float64 {
	for {
		u, v := 2*r.uniform()-1, 2*r.uniform()-1
		if s := u*u + v*v; s < 1 && s > 0 {
			return u * math.Sqrt(-2*math.Log(s)/s)
		}
	}
}

// gamma returns a gamma number of a shape >= 1 (Marsaglia and Tsang 2000).
func (r *random) gamma(shape float64) float64 {
	d := shape - 1.0/3
	c := 1 / math.Sqrt(9*d)
	for {
		x := r.normal()
		v := 1 + c*x
		if v <= 0 {
			continue
		}
		v = v * v * v
		u := r.uniform()
		if u < 1-0.0331*x*x*x*x || math.Log(u) < 0.5*x*x+d*(1-v+math.Log(v)) {
			return d * v
		}
	}
}

// lasting draws a length, in minutes.
func (r *random) lasting(l Lasting) Moment {
	low, likely, high := float64(l.Low), float64(l.Likely), float64(l.High)
	if high <= low {
		return minutes(l.Likely)
	}
	a := r.gamma(1 + 4*(likely-low)/(high-low))
	b := r.gamma(1 + 4*(high-likely)/(high-low))
	return Moment(math.Round((low + (high-low)*a/(a+b)) / 60))
}
