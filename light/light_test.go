package light

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rillwright/geom"
)

var (
	up   = geom.Vec{Z: 1}
	down = geom.Vec{Z: -1}
	east = geom.Vec{X: 1}
)

func TestPointRows(t *testing.T) {
	for _, r := range rows(t, "point_source") {
		l := Lamp{Kind: Point, Flux: r.num("photon_flux_umol_s"), At: geom.Vec{Z: r.num("distance_m")}, Aim: down, Beam: r.num("n")}
		e := l.On(geom.Vec{X: r.num("offset_m")}, up)
		r.want("PPFD_umol_m2_s", e, five)
		r.want("DLI_mol_m2_d", DLI(e, 3600*r.num("hours")), five)
	}
}

func TestStripRows(t *testing.T) {
	for _, r := range rows(t, "strip_source") {
		l := Lamp{Kind: Strip, Flux: r.num("photon_flux_umol_s"), At: geom.Vec{Z: r.num("depth_m")}, Aim: down, Along: east, Length: r.num("strip_length_m"), Beam: 1}
		p := geom.Vec{X: r.num("x_from_centre_m"), Y: r.num("lateral_offset_m")}
		r.want("PPFD_horizontal", l.On(p, up), five)
		r.want("PPFD_on_vertical_face", l.On(p, geom.Vec{Y: -1}), five)
	}
}

func TestPanelRows(t *testing.T) {
	for _, r := range rows(t, "panel_source") {
		a, b := r.num("panel_a_m"), r.num("panel_b_m")
		l := Lamp{Kind: Panel, Flux: r.num("photon_flux_umol_s"), At: geom.Vec{X: a / 2, Y: b / 2, Z: r.num("distance_m")}, Aim: down, Along: east, Length: a, Width: b, Beam: 1}
		r.want("PPFD_umol_m2_s", l.On(geom.Vec{X: r.num("x_from_corner_m"), Y: r.num("y_from_corner_m")}, up), five)
	}
}

func TestQuadratureRows(t *testing.T) {
	for _, c := range []struct {
		kind                      Kind
		flux, a, b, h, x, y, want float64
	}{ // Lambertian sources by scipy quadrature, outside this project
		{Strip, 40, 0.6, 0, 0.5, 0, 0, 41.660227},
		{Strip, 40, 0.6, 0, 0.5, 0.3, 0.1, 27.208216},
		{Strip, 25, 0.9, 0, 0.9, 0, 0.2, 7.752365},
		{Panel, 60, 0.3, 0.2, 0.4, 0, 0, 105.273511},
		{Panel, 60, 0.3, 0.2, 0.4, 0.2, 0.1, 67.967495},
		{Panel, 60, 0.3, 0.2, 0.8, 0, 0.3, 22.422618},
	} {
		l := Lamp{Kind: c.kind, Flux: c.flux, At: geom.Vec{Z: c.h}, Aim: down, Along: east, Length: c.a, Width: c.b, Beam: 1}
		if got := l.On(geom.Vec{X: c.x, Y: c.y}, up); !within(got, c.want, 1e-7) {
			t.Errorf("%+v: %.9g", c, got)
		}
	}
}

func TestViewFactorRows(t *testing.T) {
	for _, r := range rows(t, "view_factors") {
		p, q, z := r.num("p_m"), r.num("q_m"), r.num("r_m")
		if r.text("kind") == "opposite" {
			r.want("view_factor", Opposite(p, q, z), 2*five)
			r.want("view_factor", parallel(span{0, p}, span{0, q}, span{0, p}, span{0, q}, z)/(p*q), 2*five)
			continue
		}
		r.want("view_factor", Adjacent(q, z, p), 2*five)
		r.want("view_factor", square(span{0, z}, span{0, q}, span{0, p}, span{0, q})/(q*z), 2*five)
	}
	for _, c := range []struct{ got, want float64 }{
		{Opposite(1, 1, 1), 0.1998249},
		{Opposite(2, 0.5, 1), 0.16526922},
		{Opposite(0.3, 4, 1), 0.12372064},
		{Adjacent(1, 1, 1), 0.20004378},
		{Adjacent(1, 2, 0.5), 0.07865027},
		{Adjacent(1, 0.7, 3), 0.28306097},
	} {
		if !within(c.got, c.want, 1e-7) {
			t.Errorf("view factor %.9g, want %.9g", c.got, c.want)
		}
	}
}

func TestLidRows(t *testing.T) {
	for _, r := range rows(t, "lid_transmission") {
		r.want("T_unpolarised", Transmission(r.num("n"), r.num("absorption_per_m"), r.num("thickness_m"), r.num("incidence_deg")*math.Pi/180), five)
	}
	for _, r := range rows(t, "lid_diffuse") {
		l := NewLid(r.num("n"), r.num("absorption_per_m"), r.num("thickness_m"))
		// Steps of the cosine where it falls steeply at grazing angles: 1e-4.
		r.want("T_hemispherical_diffuse", l.Diffuse(), 1e-4)
		if cos := 0.5; !within(l.At(cos), Transmission(r.num("n"), r.num("absorption_per_m"), r.num("thickness_m"), math.Pi/3), 1e-5) {
			t.Errorf("%s: table gives %g at 60 degrees", r.text("case"), l.At(cos))
		}
	}
}

func TestDLIRows(t *testing.T) {
	for _, r := range rows(t, "dli_conversion") {
		r.want("DLI_mol_m2_d", DLI(r.num("PPFD_umol_m2_s"), 3600*r.num("hours")), five)
		r.want("photon_flux_umol_s", r.num("lumens")*r.num("umol_s_per_lm"), five)
	}
}

// The rows have one patch a face; the panel is the whole top.
func TestBoxRows(t *testing.T) {
	for _, r := range rows(t, "box_radiosity") {
		a, b, h := r.num("a_m"), r.num("b_m"), r.num("height_m")
		room := Room{Box: geom.Box{Max: geom.Vec{X: a, Y: b, Z: h}}}
		ps := room.patches(1)
		f := factors(ps)
		r.want("F_top_floor", f[6*int(MostZ)+int(LeastZ)], 2*five)
		r.want("F_top_wall_a", f[6*int(MostZ)+int(LeastY)], 2*five)
		r.want("F_top_wall_b", f[6*int(MostZ)+int(LeastX)], 2*five)
		w := r.num("wall_reflectance")
		rho := []float64{w, w, w, w, r.num("floor_reflectance"), r.num("top_reflectance")}
		own := make([]float64, 6)
		own[MostZ] = r.num("photon_flux_umol_s") / (a * b)
		direct := Incident(f, own)
		r.want("floor_direct", direct[LeastZ], five)
		r.want("wall_a_direct", direct[LeastY], five)
		once := append([]float64(nil), own...)
		for i := range once {
			once[i] += rho[i] * direct[i]
		}
		r.want("floor_one_bounce", Incident(f, once)[LeastZ], five)
		j, err := Radiosity(f, own, rho)
		if err != nil {
			t.Fatal(err)
		}
		all := Incident(f, j)
		r.want("floor_all_bounces", all[LeastZ], five)
		r.want("wall_a_all_bounces", all[LeastY], five)
		swallowed := 0.0
		for i := range ps {
			swallowed += ps[i].area * (1 - rho[i]) * all[i]
		}
		r.want("absorbed_total_umol_s", swallowed, 1e-9)
	}
}

// Between all pieces of any box: reciprocity, and all that leaves a piece arrives.
func TestFactorsClose(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := func(name string) float64 { return rapid.Float64Range(0.2, 2).Draw(rt, name) }
		room := Room{Box: geom.Box{Min: geom.Vec{X: f("x0"), Y: f("y0"), Z: f("z0")}}}
		room.Box.Max = room.Box.Min.Add(geom.Vec{X: f("x"), Y: f("y"), Z: f("z")})
		ps := room.patches(rapid.IntRange(1, 3).Draw(rt, "cuts"))
		v, n := factors(ps), len(ps)
		for i := range n {
			sum := 0.0
			for j := range n {
				sum += v[i*n+j]
				if math.Abs(ps[i].area*v[i*n+j]-ps[j].area*v[j*n+i]) > 1e-12 {
					rt.Fatalf("%d and %d: no reciprocity", i, j)
				}
			}
			if math.Abs(sum-1) > 1e-9 {
				rt.Fatalf("piece %d sees %.12g of itself and others", i, sum)
			}
		}
	})
}

// A view factor from a small face is an integral over the quad: 200 by 200 points
// come within 1e-3 of the closed form for any tilt and any quad that is not near.
func TestFactorAgainstPoints(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := func(name string) float64 { return rapid.Float64Range(-1, 1).Draw(rt, name) }
		n := geom.Vec{X: f("nx"), Y: f("ny"), Z: f("nz")}
		if size(n) < 0.1 {
			return
		}
		n = unit(n)
		q := Quad{geom.Vec{X: f("x"), Y: f("y"), Z: 1.5 + 0.5*f("z")}, geom.Vec{X: 1, Y: 0.3 * f("u")}, geom.Vec{X: 0.3 * f("v"), Y: 1, Z: 0.3 * f("w")}}
		qn, da := q.Normal(), q.Area()/(200*200)
		sum := 0.0
		for i := range 200 {
			for j := range 200 {
				way := q.At(middle(i, 200), middle(j, 200))
				r2 := way.Dot(way)
				if c := way.Dot(n); c > 0 {
					sum += c * math.Abs(way.Dot(qn)) / (math.Pi * r2 * r2) * da
				}
			}
		}
		if got := q.Factor(geom.Vec{}, n); math.Abs(got-sum) > 1e-3*sum+2e-5 {
			rt.Fatalf("%.8g, by points %.8g", got, sum)
		}
	})
}

// A strip lights a face of any tilt as many points in its place do.
func TestStripAgainstPoints(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := func(name string) float64 { return rapid.Float64Range(-1, 1).Draw(rt, name) }
		n := geom.Vec{X: f("nx"), Y: f("ny"), Z: f("nz")}
		if size(n) < 0.1 {
			return
		}
		n = unit(n)
		l := Lamp{Kind: Strip, Flux: 10, At: geom.Vec{Z: 0.7}, Aim: down, Along: east, Length: 1, Beam: 1}
		p := geom.Vec{X: f("x"), Y: f("y"), Z: 0.3 * f("z")}
		sum := 0.0
		const k = 4000
		for i := range k {
			one := Lamp{Kind: Point, Flux: 10.0 / k, At: l.spot(i, k, 0, 1), Aim: down, Beam: 1}
			sum += one.On(p, n)
		}
		if got := l.On(p, n); math.Abs(got-sum) > 1e-4*sum+1e-5 {
			rt.Fatalf("%.8g, by points %.8g", got, sum)
		}
	})
}

func TestBeam(t *testing.T) {
	for _, deg := range []float64{30, 60, 90, 120} {
		n := BeamExponent(deg * math.Pi / 180)
		if half := math.Pow(math.Cos(deg/2*math.Pi/180), n); !within(half, 0.5, 1e-12) {
			t.Errorf("%g degrees: %g at the edge", deg, half)
		}
	}
	if n := BeamExponent(2 * math.Pi / 3); !within(n, 1, 1e-12) {
		t.Errorf("an even glow falls to half at 120 degrees, not by exponent %g", n)
	}
}
