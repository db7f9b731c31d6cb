package hydraulics

import "testing"

func TestAirGapTable(t *testing.T) {
	for _, r := range rows(t, "airgap") {
		r.want("gap_us_m", AirGapUS(r.num("outlet_bore_m"), r.text("near_wall") == "yes"))
		r.want("gap_en_m", AirGapEN(r.num("outlet_bore_m")))
	}
}

func TestSuctionTable(t *testing.T) {
	for _, r := range rows(t, "suction") {
		w := water(t, r.num("t_C"))
		d := r.num("D_m")
		p := pipe(t, r.num("L_m"), d, r.num("t_C"), r.num("K"))
		q := r.num("Q_Lh") * litrePerHour
		loss, _ := p.HeadLoss(q)
		r.want("h_f_m", loss)
		r.want("NPSHa_m", NPSHAvailable(StandardAtmosphere, w, r.num("z_s_m"), loss))
		r.want("Fr", InletFroude(d, p.Velocity(q)))
		r.want("S_min_m", Submergence(d, p.Velocity(q)))
	}
}

func TestSiphonTable(t *testing.T) {
	for _, r := range rows(t, "siphon") {
		w := water(t, r.num("t_C"))
		d := r.num("D_m")
		whole := pipe(t, r.num("L_m"), d, r.num("t_C"), r.num("K"))
		q := whole.Flow(r.num("H_m"))
		r.want("Q_Lh", q/litrePerHour)
		up, _ := pipe(t, r.num("L_up_m"), d, r.num("t_C"), 1).HeadLoss(q)
		crest := SiphonCrestHead(r.num("z_c_m"), whole.Velocity(q), up)
		r.want("crest_gauge_head_m", crest)
		r.want("margin_to_vapour_m", SiphonMargin(crest, StandardAtmosphere, w))
	}
}
