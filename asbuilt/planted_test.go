package asbuilt

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"rillwright/record"
)

// planted is one build with a fault in it: what was read of it when it was new, and
// what anything reads now.
type planted struct {
	fit    *Fit
	before []record.Reading
	m      *model
	bad    *model    // with the fault
	u      []float64 // how it was built
	fault  string
	y      []float64
}

// noticed is by how many doubts of reading some figure must have changed for
// anybody to look for a fault.
const noticed = 4

// plant makes a build like one of the examples, fits it to its first readings if
// asked to, and plants a fault that can be noticed. Which outlets are blocked is
// drawn: up to a quarter of them, each giving up to half.
func plant(tb testing.TB, rng *rand.Rand, k int, base bool, noise float64) planted {
	tb.Helper()
	e := built(tb, k%2)
	m := newModel(e)
	u := drawn(rng, m)
	p := planted{m: m, u: u}
	var err error
	p.fit = nothing(e)
	if base {
		y := make([]float64, len(Sites(e)))
		if err := m.foretell(u, y); err != nil {
			tb.Fatal(err)
		}
		p.before = rough(noise, rng, e, y, append(firstWater, cups(e), "top-up")...)
		if p.fit, err = Of(e, p.before); err != nil {
			tb.Fatal(err)
		}
	}
	sound := make([]float64, len(Sites(e)))
	if err := m.foretell(u, sound); err != nil {
		tb.Fatal(err)
	}
	j, err := newJudge(nothing(e), nil)
	if err != nil {
		tb.Fatal(err)
	}
	copy(j.y, sound)
	for {
		p.y = make([]float64, len(sound))
		low := map[int]float64{}
		n := len(e.Manifolds[0].Outlets)
		for range 1 + rng.IntN(max(n/4, 1)) {
			low[rng.IntN(n)] = rng.Float64() / 2
		}
		list := suspects(m, u, []map[int]float64{low})
		f := &list[1+rng.IntN(len(list)-1)]
		bad := f.from * math.Pow(f.to/f.from, rng.Float64())
		if p.bad = m.with(f, bad); p.bad.foretell(u, p.y) != nil {
			continue // the pool would run over, or nothing would run
		}
		p.fault = f.ID
		for s := range p.y {
			x := j.wouldRead(s)
			if math.Abs(p.y[s]-sound[s]) > noticed*x.total(j.sites) {
				return p
			}
		}
	}
}

// tally counts how a run of plants was judged.
type tally struct{ n, first, three, sureWrong, asked int }

// judgePlants plants faults and lets each be found: from the readings of a first
// round, and with up to more that the program asks for.
func judgePlants(tb testing.TB, builds, more int, base bool, noise float64) (out tally, missed map[string]int) {
	tb.Helper()
	rng := rand.New(rand.NewPCG(11, 12))
	missed = map[string]int{}
	for k := range builds {
		p := plant(tb, rng, k, base, noise)
		now := rough(noise, rng, p.m.e, p.y, append(firstWater, cups(p.m.e), "top-up")...)
		d, err := Diagnose(p.fit, p.before, now)
		for range more {
			if err != nil {
				tb.Fatal(err)
			}
			if d.Next == nil || d.Next.Apart < 0.3 {
				break
			}
			out.asked++
			now = append(now, rough(noise, rng, p.m.e, p.y, d.Next.ID)...)
			d, err = Diagnose(p.fit, p.before, now)
		}
		if err != nil {
			tb.Fatal(err)
		}
		out.n++
		at := slices.IndexFunc(d.Suspects, func(s Suspect) bool { return s.ID == p.fault })
		switch {
		case at == 0:
			out.first++
			out.three++
		default:
			missed[word(p.fault)+" taken for "+word(d.Suspects[0].ID)]++
			if at > 0 && at < 3 {
				out.three++
			}
			if d.Suspects[0].Probability > 0.95 {
				out.sureWrong++
			}
		}
	}
	return out, missed
}

// The planted fault is ranked first in 85 of 100, among the first three in 97, and
// another is called all but sure in fewer than 2: that is what is aimed at. 200 builds
// were judged for the figures in docs/log.md, which RILLWRIGHT_BUILDS=200 does
// again; here fewer are, with room for chance.
func TestPlanted(t *testing.T) {
	builds := 24
	if n, err := strconv.Atoi(os.Getenv("RILLWRIGHT_BUILDS")); err == nil {
		builds = n
	}
	got, missed := judgePlants(t, builds, 3, true, 1)
	t.Logf("with first readings and up to 3 asked for: %+v, %v", got, missed)
	if builds >= 200 {
		one, missed := judgePlants(t, builds, 0, true, 1)
		t.Logf("with first readings, none asked for: %+v, %v", one, missed)
		one, missed = judgePlants(t, builds, 3, false, 1)
		t.Logf("without first readings, up to 3 asked for: %+v, %v", one, missed)
		one, missed = judgePlants(t, builds, 3, true, 2)
		t.Logf("with first readings and up to 3 asked for, all twice as rough as is thought: %+v, %v", one, missed)
	}
	if n := float64(got.n); float64(got.first) < 0.8*n || float64(got.three) < 0.9*n || float64(got.sureWrong) > 0.05*n {
		t.Errorf("%+v, missed %v", got, missed)
	}
}

// BenchmarkFitAndDiagnose is of some twenty readings before and as many now.
func BenchmarkFitAndDiagnose(b *testing.B) {
	rng := rand.New(rand.NewPCG(13, 14))
	p := plant(b, rng, 0, true, 1)
	ids := append(slices.Clone(firstWater), cups(p.m.e), "top-up")
	now := append(typed(rng, p.m.e, p.y, ids...), typed(rng, p.m.e, p.y, firstWater...)...)
	now = append(now, typed(rng, p.m.e, p.y, "no-strainer[main pump]", "no-barb[main pump]", "manifold", "wall")...)
	for b.Loop() {
		f, err := Of(p.m.e, p.before)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := Diagnose(f, p.before, now); err != nil {
			b.Fatal(err)
		}
	}
}
