package climate

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"pgregory.net/rapid"

	"rillwright/climate/moistair"
)

// stackCase is one case of testdata/enclosure_stack.json.
type stackCase struct {
	Case    string
	Inputs  map[string]float64
	Answers map[string]any
}

func stackCases(t testing.TB) []stackCase {
	t.Helper()
	data, err := os.ReadFile("testdata/enclosure_stack.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Cases []stackCase }
	if err := json.Unmarshal(data, &file); err != nil || len(file.Cases) != 4 {
		t.Fatalf("%d cases, %v", len(file.Cases), err)
	}
	return file.Cases
}

func (c stackCase) pose() (*Box, Room) {
	in := c.Inputs
	return &Box{
		Pressure: in["pressure_Pa"], Lewis: 0.865,
		Wet:   []WetFace{{in["wet_area_m2"], in["wet_h_c_W_m2K"]}},
		Panes: []Pane{{Area: in["glass_area_m2"], In: in["glass_h_i_W_m2K"], Out: in["glass_h_o_W_m2K"], Resistance: in["glass_R_m2K_W"]}},
		Vents: Vents{Low: in["vent_low_m2"], High: in["vent_high_m2"], Discharge: in["vent_C_d"], Height: in["vent_height_m"], Leak: in["leak_m3_h"] / 3600},
		Sump:  in["sump_UA_W_K"], MakeUp: in["makeup_T_C"],
		Always: Heat{Water: in["pump_W"] + in["heater_W"] + in["lamp_to_water_W"], Air: in["lamp_to_air_W"]},
	}, Room{in["room_T_C"], in["room_RH"]}
}

// The four cases print five digits of flows and 0.001 K; 0.0015 K leaves room for
// the air that is never quite still, which they do not have: 1e-5 of a flow.
func TestStackCases(t *testing.T) {
	for _, c := range stackCases(t) {
		b, room := c.pose()
		s, err := b.SteadyState(room)
		if err != nil {
			t.Fatalf("%s: %v", c.Case, err)
		}
		for _, k := range []struct {
			name          string
			got, rel, abs float64
		}{
			{"water_T_C", s.Water, 0, 0.0015},
			{"air_T_C", s.Air, 0, 0.0015},
			{"humidity_ratio", s.Ratio, 0, 1e-6},
			{"air_RH", moistair.Relative(s.Air, s.Ratio, b.Pressure), 1e-4, 0},
			{"glass_inner_T_C", s.Panes[0], 0, 0.0015},
			{"dew_point_C", moistair.DewPoint(moistair.VapourPressure(s.Ratio, b.Pressure)), 0, 0.0015},
			{"vent_flow_m3_h", s.Vent * 3600, 1e-4, 0},
			{"evaporation_g_h", s.Evaporation * 3.6e6, 1e-4, 0},
			{"condensation_g_h", s.Settles[0] * 3.6e6, 1e-4, 0},
			{"net_topup_L_day", s.MakeUp * 86400, 1e-4, 0},
			{"glass_loss_W", s.PaneOut[0], 2e-4, 0},
			{"sump_loss_W", s.SumpOut, 2e-4, 0},
			{"vent_enthalpy_W", s.VentOut, 2e-4, 0},
			{"makeup_enthalpy_W", s.MakeUpHeat, 2e-4, 0},
		} {
			if want := c.Answers[k.name].(float64); math.Abs(k.got-want) > k.rel*math.Abs(want)+k.abs {
				t.Errorf("%s, %s: got %.7g, want %.7g", c.Case, k.name, k.got, want)
			}
		}
		if s.Down != (c.Answers["flow_direction"] == "down") || (s.Settles[0] > 0) != c.Answers["fogs"].(bool) {
			t.Errorf("%s: down %v, settles %g", c.Case, s.Down, s.Settles[0])
		}
	}
}

// Rows with a fixed flow of air, as a leak.
func TestFixedFlowRows(t *testing.T) {
	for _, r := range rows(t, "climate_balance") {
		b := &Box{
			Pressure: r.num("P_Pa"), Lewis: 0.865,
			Wet:   []WetFace{{r.num("A_wet_m2"), r.num("h_c_wet_W_m2K")}},
			Panes: []Pane{{Area: r.num("A_glass_m2"), In: r.num("h_i_glass_W_m2K"), Out: r.num("h_o_glass_W_m2K"), Resistance: r.num("R_glass_m2K_W")}},
			Vents: Vents{Leak: r.num("vent_m3_per_h") / 3600},
			Sump:  r.num("UA_sump_W_K"), MakeUp: r.num("T_makeup_C"),
			Always: Heat{Water: r.num("Q_pump_W") + r.num("Q_heater_W") + r.num("Q_lamp_to_water_W"), Air: r.num("Q_lamp_to_air_W")},
		}
		room := Room{r.num("T_room_C"), r.num("RH_room")}
		s, err := b.SteadyState(room)
		if err != nil {
			t.Fatal(err)
		}
		r.want("T_water_C", s.Water, five)
		r.want("T_air_C", s.Air, five)
		r.want("humidity_ratio", s.Ratio, five)
		r.want("RH_air", moistair.Relative(s.Air, s.Ratio, b.Pressure), five)
		r.want("T_glass_inner_C", s.Panes[0], five)
		r.want("evaporation_g_per_h", s.Evaporation*3.6e6, five)
		r.want("condensation_g_per_h", s.Settles[0]*3.6e6, five)
		r.want("net_topup_L_per_day", s.MakeUp*86400, five)
		r.want("glass_loss_W", s.PaneOut[0], five)
		r.want("ventilation_enthalpy_W", s.VentOut, five)
	}
}

// draw makes an enclosure and a room within what is built.
func draw(rt *rapid.T) (*Box, Room) {
	f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
	b := &Box{
		Pressure: f("p", 8e4, 1.03e5), Lewis: f("lewis", 0.82, 0.88),
		Wet:   []WetFace{{f("wall", 0.05, 2), f("wall film", 1, 10)}, {f("pool", 0.02, 1), f("pool film", 1, 10)}},
		Vents: Vents{Low: f("low", 0, 0.05), High: f("high", 0, 0.05), Discharge: f("cd", 0.3, 0.6), Height: f("dz", 0, 1.5), Leak: f("leak", 1e-5, 1e-3), Fan: rapid.SampledFrom([]float64{0, 0, 0.002}).Draw(rt, "fan")},
		Sump:  f("sump", 0, 5), MakeUp: f("make-up", 5, 30),
		Heater: Heater{Power: rapid.SampledFrom([]float64{0, 50, 200}).Draw(rt, "heater"), Set: f("set", 20, 28), Band: f("band", 0.3, 2)},
		Mist:   rapid.SampledFrom([]float64{0, 0, 1e-5, 2e-4}).Draw(rt, "mist"),
		Water:  f("mass", 5, 200), Volume: f("volume", 0.05, 2),
	}
	loss := 0.0 // through the panes
	for i := range rapid.IntRange(1, 4).Draw(rt, "panes") {
		area := f("area", 0.1, 2)
		b.Panes = append(b.Panes, Pane{Area: area, In: f("in", 2, 10), Out: f("out", 5, 12), Resistance: f("r", 0.002, 0.5), Capacity: 1.2e4 * area, Holds: 0.05})
		loss += area / (1/b.Panes[i].In + b.Panes[i].Resistance + 1/b.Panes[i].Out)
		b.Always.Panes[i] = area * rapid.SampledFrom([]float64{0, 0, 20}).Draw(rt, "lamp on pane")
	}
	// At most 30 K over the room, were there no vents: a sealed box can cook.
	through := b.Sump + b.Wet[0].Area*b.Wet[0].Film + b.Wet[1].Area*b.Wet[1].Film
	b.Always.Water, b.Always.Air = min(loss, through)*f("water", 0, 15), loss*f("air", 0, 15)
	return b, Room{f("room", 8, 35), f("rh", 0.1, 0.9)}
}

// The balance is found whatever the enclosure, and closes.
func TestSteadyCloses(t *testing.T) {
	most := 0
	rapid.Check(t, func(rt *rapid.T) {
		b, room := draw(rt)
		s, err := b.SteadyState(room)
		if err != nil {
			rt.Fatalf("%v: %+v in %+v", err, b, room)
		}
		most = max(most, s.Iterations)
		// Heat and water as a whole, from what passes the walls of the room.
		heat := b.Always.Water + b.Always.Air + s.HeaterOutput + s.MakeUpHeat + s.MistHeat
		out := s.SumpOut + s.VentOut
		var into [3 + MaxPanes]float64
		size, vapour := b.gains(&s.Flows, &b.Always, &into)
		for i := range b.Panes {
			heat += b.Always.Panes[i]
			out += s.PaneOut[i]
		}
		if math.Abs(heat-out) > 1e-9*size*float64(3+len(b.Panes)) {
			rt.Fatalf("%.12g W in, %.12g W out", heat, out)
		}
		if gain := s.MakeUp + b.Mist; math.Abs(gain-s.VentVapour) > 1e-9*vapour {
			rt.Fatalf("%.12g kg/s in, %.12g kg/s out", gain, s.VentVapour)
		}
		if rh := moistair.Relative(s.Air, s.Ratio, b.Pressure); rh > 1.15 {
			rt.Fatalf("relative humidity %g", rh)
		}
	})
	t.Logf("at most %d steps", most)
}

// More vent never makes the air moister than it was, where it is moister than the
// room and water and air are not colder. (Where they are, more of the room's warmth
// may bring more evaporation than it carries off.)
func TestMoreVentNeverMoister(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b, room := draw(rt)
		s, err := b.SteadyState(room)
		if err != nil {
			rt.Fatal(err)
		}
		o := b.outside(room.Celsius, room.vapour())
		b.Vents.Leak += rapid.Float64Range(1e-6, 0.02).Draw(rt, "more")
		more, err := b.SteadyState(room)
		if err != nil {
			rt.Fatal(err)
		}
		if s.Water < room.Celsius || s.Air < room.Celsius {
			return
		}
		if s.Ratio > o.ratio && more.Ratio > s.Ratio+1e-9 {
			rt.Fatalf("moister with more air: %g, then %g; room %g", s.Ratio, more.Ratio, o.ratio)
		}
	})
}

func TestBoxRefuses(t *testing.T) {
	good, room := stackCases(t)[0].pose()
	for name, change := range map[string]func(*Box, *Room){
		"pressure":   func(b *Box, _ *Room) { b.Pressure = 101 },
		"lewis":      func(b *Box, _ *Room) { b.Lewis = 0 },
		"panes":      func(b *Box, _ *Room) { b.Panes = make([]Pane, MaxPanes+1) },
		"pane":       func(b *Box, _ *Room) { b.Panes = []Pane{{}} },
		"wet":        func(b *Box, _ *Room) { b.Wet = []WetFace{{-1, 1}} },
		"vents":      func(b *Box, _ *Room) { b.Vents.Low = math.NaN() },
		"sump":       func(b *Box, _ *Room) { b.Sump = -1 },
		"thermostat": func(b *Box, _ *Room) { b.Heater = Heater{Power: 10} },
		"make-up":    func(b *Box, _ *Room) { b.MakeUp = 293 },
		"no way out": func(b *Box, _ *Room) { b.Panes, b.Sump = nil, 0 },
		"cooked":     func(b *Box, _ *Room) { b.Always.Water, b.Sump, b.Vents, b.Panes[0].Resistance = 500, 0, Vents{}, 1 },
		"room":       func(_ *Box, r *Room) { r.Humidity = 45 },
	} {
		b, r := *good, room
		change(&b, &r)
		if _, err := b.SteadyState(r); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func BenchmarkSteadyState(b *testing.B) {
	for _, c := range stackCases(b) {
		b.Run(c.Case, func(b *testing.B) {
			box, room := c.pose()
			b.ReportAllocs()
			for b.Loop() {
				if _, err := box.SteadyState(room); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
