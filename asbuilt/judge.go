package asbuilt

import (
	"slices"

	"rillwright/record"
)

// judge holds what all suspects share.
type judge struct {
	m     *model
	f     *Fit
	sites []Site
	y     []float64   // foretold with nothing wrong
	move  [][]float64 // of each site, by unknown: for a flow as a share of it
	ratio []float64   // of each site: what was read before over what the fit foretells
	was   []float64   // doubt of that ratio; 0 if none was read
}

func newJudge(f *Fit, before []record.Reading) (*judge, error) {
	j := &judge{m: newModel(f.from), f: f, sites: Sites(f.from)}
	n := len(j.sites)
	j.y = make([]float64, n)
	if err := j.m.foretell(f.u, j.y); err != nil {
		return nil, err
	}
	j.move = make([][]float64, n)
	for i := range j.move {
		j.move[i] = make([]float64, len(f.u))
	}
	const h = 0.25
	u, lo, hi := slices.Clone(f.u), make([]float64, n), make([]float64, n)
	for k := range u {
		up, down := u[k]+h, u[k]-h
		was := u[k]
		u[k] = up
		if j.m.foretell(u, hi) != nil {
			up = was
			copy(hi, j.y)
		}
		u[k] = down
		if j.m.foretell(u, lo) != nil {
			down = was
			copy(lo, j.y)
		}
		u[k] = was
		if up == down {
			continue
		}
		for i := range j.move {
			j.move[i][k] = (hi[i] - lo[i]) / (up - down)
			if j.sites[i].Flow && j.y[i] > 0 {
				j.move[i][k] /= j.y[i]
			}
		}
	}
	j.cupsBefore(before)
	return j, nil
}

// cupsBefore learns what each outlet gave then, of what is foretold: holes differ,
// and go on differing in the same way.
func (j *judge) cupsBefore(before []record.Reading) {
	j.ratio, j.was = make([]float64, len(j.sites)), make([]float64, len(j.sites))
	for i := range j.ratio {
		j.ratio[i] = 1
	}
	d, _ := data(j.m.e, before)
	for i := range d {
		if s := d[i].site; j.sites[s].Cup >= 0 && j.y[s] > 0 && d[i].value > 0 {
			j.ratio[s], j.was[s] = d[i].value/j.y[s], cupRead
		}
	}
}

// low returns the outlets that give less than six tenths of what most do now, and
// what share; nil for a manifold without cups.
func (j *judge) low(d []datum) []map[int]float64 {
	out := make([]map[int]float64, len(j.m.e.Manifolds))
	for i := range out {
		id := "even[" + j.m.e.Manifolds[i].Name + "]"
		var shares []float64
		for k := range d {
			if s := d[k].site; j.sites[s].ID == id && j.y[s] > 0 {
				shares = append(shares, d[k].value/(j.y[s]*j.ratio[s]))
			}
		}
		if len(shares) == 0 {
			continue
		}
		slices.Sort(shares)
		// Of blocked ones there may be many: the upper quarter tells what is usual.
		usual := shares[len(shares)*3/4]
		out[i] = map[int]float64{}
		for k := range d {
			if s := d[k].site; j.sites[s].ID == id && j.y[s] > 0 && usual > 0 {
				if share := d[k].value / (j.y[s] * j.ratio[s]) / usual; share < 0.6 {
					out[i][j.sites[s].Cup] = share
				}
			}
		}
	}
	return out
}
