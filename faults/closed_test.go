package faults

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"rillwright/enclosure"
	"rillwright/hydraulics"
)

// closed reads the rows of one case of the closed forms that package hydraulics is
// checked with.
func closed(t *testing.T, name string) (in []map[string]float64, want []float64) {
	t.Helper()
	f, err := os.Open("../hydraulics/testdata/transient.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range all {
		if row[0] != name {
			continue
		}
		m := map[string]float64{}
		for _, pair := range strings.Split(row[1], ";") {
			key, text, _ := strings.Cut(pair, "=")
			if m[key], err = strconv.ParseFloat(text, 64); err != nil {
				t.Fatal(err)
			}
		}
		v, err := strconv.ParseFloat(row[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		in, want = append(in, m), append(want, v)
	}
	if len(want) == 0 {
		t.Fatalf("no rows of %s", name)
	}
	return in, want
}

// basin is the metric demo with a plain pool of a plan area, its drain's lip far
// up, and a wall that holds nothing.
func basin(t *testing.T, area, floor, top float64) *enclosure.Enclosure {
	t.Helper()
	e := metric(t).Clone()
	p := &e.Pool
	p.Width, p.Depth, p.Displaced, p.Floor, p.DamTop = area, 1, enclosure.Known(0), floor, floor+top
	e.Drains[0].Lip = p.DamTop - 0.02
	e.Drains[0].BulkheadAt = floor
	e.FilmHoldUp = enclosure.Known(0)
	return e
}

var atPool = enclosure.Place{Kind: enclosure.AtPool, Index: 0, Name: "pool"}

// stillAt are steps that stop everything and set the pool to a depth.
func stillAt(r *Rig, depth float64) []enclosure.Step {
	steps := []enclosure.Step{{What: "power off", Index: -1}, {What: "drain blocks", Share: 1}}
	by := r.PoolVolume(r.E.Pool.Floor+depth) - r.PoolVolume(r.Start.PoolLevel)
	step := enclosure.Step{What: "water added", Place: atPool, Volume: by}
	if by < 0 {
		step.What, step.Volume = "water taken", -by
	}
	return append([]enclosure.Step{step}, steps...)
}

// hole is a leak in the pool's floor; the table's discharge coefficients are made
// up for by its size, for here every leak has 0.6.
func hole(d, cd float64) enclosure.Step {
	return enclosure.Step{What: "leak starts", Place: atPool, Size: d * math.Sqrt(cd/0.6), Height: math.NaN()}
}

// The step's tolerance of the runs below, m3. It leaves some 1e-7 of what moves.
var fine = Options{Tolerance: 1e-11, Tended: true}

// Torricelli: a pool that empties through a hole. The leak's flow grows with the
// head itself within a nanometre of its height, and at 1e-6 of the volume that
// shows only in the last drops of those that run empty.
func TestTorricelli(t *testing.T) {
	in, want := closed(t, "torricelli")
	for i, m := range in {
		r := rig(t, basin(t, m["A"], 0.8, 0.6))
		res := course(t, r, fine, want[i], append(stillAt(r, m["h1"]), hole(m["d"], m["Cd"]))...)
		full := m["A"] * m["h1"]
		left := res.End[0]
		if math.Abs(left-m["A"]*m["h2"]) > 1e-6*full {
			t.Errorf("row %d: %.9g m3 left after %g s, want %.9g", i+1, left, want[i], m["A"]*m["h2"])
		}
		if math.Abs(res.Spilled-(full-left)) > 1e-12 {
			t.Errorf("row %d: %.9g m3 spilled, %.9g gone", i+1, res.Spilled, full-left)
		}
	}
}

// A pool fills evenly and runs over: when, to 1e-9 of the time.
func TestFillToOverflow(t *testing.T) {
	in, want := closed(t, "fill_to_overflow")
	for i, m := range in {
		r := rig(t, basin(t, m["A"], 0.8, m["h_of"]))
		fill := enclosure.Step{What: "water added", Place: atPool, Flow: m["Q_Lh"] * 1e-3 / 3600}
		res := course(t, r, fine, 2*want[i], append(stillAt(r, m["h0"]), fill)...)
		if got := when(res, "over the dam"); math.Abs(got-want[i]) > 1e-9*want[i] {
			t.Errorf("row %d: runs over at %.12g s, want %g", i+1, got, want[i])
		}
	}
}

// Water runs in and out of a hole at once.
func TestInflowAndHole(t *testing.T) {
	in, want := closed(t, "inflow_plus_orifice")
	for i, m := range in {
		r := rig(t, basin(t, m["A"], 0.8, 0.6))
		fill := enclosure.Step{What: "water added", Place: atPool, Flow: m["Q_Lh"] * 1e-3 / 3600}
		res := course(t, r, fine, want[i], append(stillAt(r, m["h0"]), fill, hole(m["d"], m["Cd"]))...)
		if got := res.PoolEnd - 0.8; math.Abs(got-m["h1"]) > 1e-6*m["h1"] {
			t.Errorf("row %d: %.9g m deep after %g s, want %g", i+1, got, want[i], m["h1"])
		}
	}
}

// A pool empties through a hose full of water, the same Darcy friction in all its
// regimes: the time is a quadrature of package hydraulics, checked there with
// scipy, here with the two velocity heads that a hose is taken to lose besides.
// Row 4 has those and is compared with scipy's figure itself.
func TestDrainDownThroughHose(t *testing.T) {
	in, printed := closed(t, "pipe_drain_down_DW")
	for i, m := range in {
		e := basin(t, m["A"], 2, m["H1"]+0.1)
		e.WaterTemperature = enclosure.Known(m["t_C"])
		// The end hangs free at the pool's floor's height.
		e.Bridges = []enclosure.Bridge{{
			Name: "hose", Kind: "hose", From: atPool, To: enclosure.Place{Kind: enclosure.AtFloor, Name: "floor"},
			Foot: 2, Crest: 2 + m["H1"], End: 2, Bore: m["D"], Length: m["L"],
		}}
		r := rig(t, e)
		pipe, err := hydraulics.NewPipe(m["L"], m["D"], m["eps"], r.parts.Kinematic(), hydraulics.ConstantK(2))
		if err != nil {
			t.Fatal(err)
		}
		want := hydraulics.DrainDownTime(pipe, m["A"], m["H1"], m["H2"])
		if m["K"] == 2 && math.Abs(want/printed[i]-1) > 1e-9 {
			t.Errorf("row %d: %.10g s, scipy %.10g", i+1, want, printed[i])
		}
		res := course(t, r, fine, want, stillAt(r, m["H1"])...)
		if got := res.PoolEnd - 2; math.Abs(got-m["H2"]) > 1e-6*m["H2"] {
			t.Errorf("row %d: %.9g m after %g s, want %g", i+1, got, want, m["H2"])
		}
	}
}

// A stopped pump lets the pool siphon back through a return that ends under water:
// how much comes, and how high the sump stands then. The hose rises evenly and
// stays full to the sump's level. Limits: what one thread of water of 1 mm2 along
// the hose holds (it joins hoses that meet; 1 mL a metre), the last micrometre of
// the pool over the hose's end, at which air gets in, and where both waters come
// level, the last tenth of a millimetre, which they take long for.
func TestBackSiphon(t *testing.T) {
	in, want := closed(t, "back_siphon")
	for i, m := range in {
		e := returning(t, m["At"], m["As"], m["z_tank_floor"], m["lip"], m["V_pipe"])
		r := rig(t, e)
		steps := stillAt(r, m["ht"])
		// The sump likewise, before the power fails.
		by := r.SumpVolume(m["hs"]) - r.SumpVolume(r.Start.SumpLevel)
		sump := enclosure.Step{What: "water added", Place: enclosure.Place{Kind: enclosure.AtSump}, Volume: by}
		if by < 0 {
			sump.What, sump.Volume = "water taken", -by
		}
		res := course(t, r, Options{Tended: true}, 6*3600, append([]enclosure.Step{sump}, steps...)...)
		ends := m["z_tank_floor"] + m["lip"]
		back := hydraulics.BackSiphon{
			TankArea: m["At"], SumpArea: m["As"], TankFloor: m["z_tank_floor"], TankLevel: m["ht"], SumpLevel: m["hs"], BreakLevel: m["lip"], PipeVolume: m["V_pipe"],
		}
		if got := back.End().Returned * 1e3; math.Abs(got-want[i]) > 1e-9*want[i] {
			t.Fatalf("row %d: %g L, the table has %g", i+1, got, want[i])
		}
		// All of the hose comes back in the table; here what stands under the
		// sump's water stays.
		stays := m["V_pipe"] * math.Min(res.SumpEnd/ends, 1)
		back.PipeVolume -= stays
		end := back.End()
		limit := 1e-6*ends + 1e-6*m["At"] + 1e-9
		if end.Equal {
			limit += 1e-4 * m["At"]
		}
		came := m["At"]*m["ht"] - res.End[0] + m["V_pipe"] - stays
		if math.Abs(came-end.Returned) > limit {
			t.Errorf("row %d: %.6f L came back, want %.6f to %.4f", i+1, 1e3*came, 1e3*end.Returned, 1e3*limit)
		}
		if math.Abs(res.SumpEnd-end.SumpLevel) > limit/m["As"] {
			t.Errorf("row %d: the sump ends at %.7f m, want %.7f", i+1, res.SumpEnd, end.SumpLevel)
		}
		if res.Spilled != 0 {
			t.Errorf("row %d: %g m3 spilled", i+1, res.Spilled)
		}
	}
}

// returning is an enclosure whose one run is a return that ends in the pool, of a
// volume, and a sump that is one box.
func returning(t *testing.T, pool, sump, floor, end, volume float64) *enclosure.Enclosure {
	t.Helper()
	e := basin(t, pool, floor, 0.6)
	e.Sump = enclosure.Sump{Width: sump, Depth: 1, Height: 0.55, Level: 0.2, Running: true}
	e.Pumps[0].Inlet = 0.01
	e.Manifolds = nil
	u := &e.Runs[0]
	u.To, u.EndHeight = atPool, floor+end
	u.Pieces = u.Pieces[:1]
	bore := e.Likely().Of(u.Pieces[0].Bore)
	u.Pieces[0].Length = volume / hydraulics.CircleArea(bore)
	d := &e.Drains[0]
	d.To.Index = 0
	return e
}

// Common practice, no source: a return that ends above the water keeps a stopped
// pump from siphoning, and so does a hole in it just under the water.
func TestReturnAboveWater(t *testing.T) {
	e := returning(t, 0.3, 0.2, 0.6, 0.65, 0.0004)
	r := rig(t, e)
	res := course(t, r, Options{Tended: true}, 3600, enclosure.Step{What: "power off", Index: -1})
	if at := when(res, "siphons"); at >= 0 || res.End[0] < r.PoolVolume(e.Drains[0].Lip)-1e-8 {
		t.Errorf("siphons at %g s; %g m3 left", at, res.End[0])
	}
	e.Runs[0].EndHeight, e.Runs[0].BreakHole = 0.7, enclosure.BreakHole{Height: e.Drains[0].Lip - 0.005, Size: 0.004}
	r = rig(t, e)
	for _, blocked := range []bool{false, true} {
		steps := []enclosure.Step{{What: "power off", Index: -1}}
		if blocked {
			steps = append([]enclosure.Step{{What: "holes block", Index: -1}}, steps...)
		}
		res := course(t, r, Options{}, 6*3600, steps...)
		fell := r.Start.PoolLevel - res.PoolEnd
		if low := fell > 0.05; low != blocked {
			t.Errorf("hole blocked %v: the pool fell by %g m", blocked, fell)
		}
	}
}

// Common practice, no source: a pool left full for two days shows its leaks. The
// smallest that is followed, a hole of half a millimetre, lets out so much that
// anybody sees it; nothing else may.
func TestTwoDaysFull(t *testing.T) {
	e := metric(t)
	r := rig(t, e)
	off := enclosure.Step{What: "power off", Index: -1}
	tight := course(t, r, Options{Tended: true}, 2*86400, off)
	leaks := course(t, r, Options{Tended: true}, 2*86400, off, hole(0.0005, 0.6))
	if tight.Spilled != 0 || math.Abs(tight.PoolEnd-e.Drains[0].Lip) > 1e-3 {
		t.Errorf("a tight pool spills %g m3 and ends %g m from the lip", tight.Spilled, tight.PoolEnd-e.Drains[0].Lip)
	}
	if fell := tight.PoolEnd - leaks.PoolEnd; fell < 0.05 {
		t.Errorf("a hole of half a millimetre lets the pool fall by %g m", fell)
	}
}
