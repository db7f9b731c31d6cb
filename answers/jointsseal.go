package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/design"
	"rillwright/quantity"
	"rillwright/structure/joint"
	"rillwright/study"
	"rillwright/takeoff"
	"rillwright/works"
)

// longCure is the wait after which the trade fills large or thick tanks, s: common
// practice.
const longCure = 7 * 86400.0

// sealantFor sums the sealant of all joints still to be made, at the ends given of
// bond lines, glass and fillets (the dam has one, or one on each side).
func (s *Survey) sealantFor(found study.Joints, line, glass, fillets int) takeoff.Sealant {
	return takeoff.SealantFor(s.E.Design, found, takeoff.BondLine(s.E), takeoff.Ends{Line: line, Glass: glass, Fillets: fillets})
}

// sealantStock is the size of the cartridges on hand, how many there are and where
// the file says so; the usual size and -1 if it does not.
func (s *Survey) sealantStock() (size float64, count, line int, said string) {
	size, count = joint.Cartridge, -1
	if s.E.Units == quantity.US {
		size = joint.CartridgeUS
	}
	said = "taken, as the file has none in stock"
	for i := range s.E.Design.Stock {
		it := &s.E.Design.Stock[i]
		name := strings.ToLower(it.What.Value)
		if !strings.Contains(name, "sealant") && !strings.Contains(name, "silicone") {
			continue
		}
		pack, err := design.ReadPack(it.Size.Value, s.E.Units == quantity.US)
		v, ok := pack.Size, err == nil && pack.Kind == design.PackVolume
		switch n := max(it.Count.Value, 0); {
		case count < 0:
			count, line, said = 0, it.Pos.Line, "taken, as the file does not say its size"
			if ok {
				size, said = v, "as on the label"
			}
			fallthrough
		case !ok || math.Abs(v-size) < 1e-9:
			if !it.Count.Given() {
				n = 1
			}
			count += n
		default: // of another size: as many as hold the same
			count += int(float64(n) * v / size)
		}
	}
	return size, count, line, said
}

// sealant answers how much sealant there must be, and of what kind.
func (s *Survey) sealant(found study.Joints) Answer {
	sys := s.E.Units
	a := Answer{ID: "sealant", Question: "How much sealant does it take, and is it the right kind?"}
	size, stock, line, said := s.sealantStock()
	waste := takeoff.SealantWaste(s.E.Design)
	low, likely, high := s.sealantFor(found, -1, -1, -1), s.sealantFor(found, 0, 0, -1), s.sealantFor(found, 1, 1, 1)
	need := [3]int{joint.Cartridges(low.All(), waste.Low, size), joint.Cartridges(likely.All(), waste.Likely, size), joint.Cartridges(high.All(), waste.High, size)}
	show := quantity.Volume(size).Show(sys)
	count := Figure{
		Name: fmt.Sprintf("cartridges of %s, %s", show, said),
		Low:  float64(need[0]), Likely: float64(need[1]), High: float64(need[2]), Text: fmt.Sprint(need[2]),
	}
	if need[0] != need[2] {
		count.Text = fmt.Sprintf("%d to %d, likely %d", need[0], need[2], need[1])
	}
	volume := func(name string, of func(takeoff.Sealant) float64) Figure {
		return volumeFigure(name, quantity.Band[float64]{Low: of(low), Likely: of(likely), High: of(high)}, sys)
	}
	if stock >= 0 {
		count = bounded(count, float64(stock))
	}
	a.Figures = append(a.Figures, count)
	if stock >= 0 {
		a.Figures = append(a.Figures, Figure{Name: "on hand", Low: float64(stock), Likely: float64(stock), High: float64(stock), Text: fmt.Sprint(stock)})
	}
	a.Figures = append(a.Figures,
		figure("glass joints still to be made", quantity.Exactly(quantity.Length(likely.Length)), sys),
		volume("in their beds", func(v takeoff.Sealant) float64 { return v.Beds }),
		volume("in their fillets", func(v takeoff.Sealant) float64 { return v.Fillets }))
	if high.Grid > 0 {
		a.Figures = append(a.Figures, volume("under the spots of the grid", func(v takeoff.Sealant) float64 { return v.Grid }))
	}
	a.Figures = append(a.Figures, figure("lost in nozzles and on knives", quantity.Band[quantity.Ratio]{Low: quantity.Ratio(waste.Low), Likely: quantity.Ratio(waste.Likely), High: quantity.Ratio(waste.High)}, sys))
	s.coat(&a, waste, size)
	cure := s.cure(&a, found)
	a.Limit = Limit{Text: "plain 100 % silicone with no mould inhibitor; a cartridge that is open does not keep", Source: "practice", Mark: "common practice, no source"}
	a.Score = 1e6 / math.Max(high.All(), 1e-9)
	s.sealantVerdict(&a, need, stock, line)
	a.Say += cure
	s.sealantMatters(&a, found, waste)
	return a
}

// volumeUnit is what cartridges are labelled in.
func volumeUnit(sys quantity.System) (float64, string) {
	if sys == quantity.US {
		return joint.CartridgeUS / 10.1, "fl oz"
	}
	return 1e-6, "ml"
}

// volumeFigure makes a Figure of a band of sealant, m3.
func volumeFigure(name string, b quantity.Band[float64], sys quantity.System) Figure {
	k, unit := volumeUnit(sys)
	v := b.Scale(1 / k)
	f := Figure{Name: name, Low: v.Low, Likely: v.Likely, High: v.High, Unit: unit, Text: bandText(v, unit)}
	if text := bandText(quantity.Exactly(v.Likely), unit); text != f.Text {
		f.Text += ", likely " + text
	}
	return f
}

// sealantVerdict judges the label, then the count.
func (s *Survey) sealantVerdict(a *Answer, need [3]int, stock, line int) {
	f := s.E.Design.Sealant.Label
	l := joint.ReadLabel(f.Value)
	take := count(need[2], "cartridge", "cartridges")
	if stock >= 0 {
		a.LimitingLine = line
		a.Margin = fmt.Sprintf("%s on hand, at most %d wanted", count(stock, "cartridge", "cartridges"), need[2])
	}
	enough := fmt.Sprintf("The joints and the grid take %s at most.", take)
	if stock > need[2] {
		enough = fmt.Sprintf("The joints and the grid take %s at most; %d are left for the coat.", take, stock-need[2])
	}
	switch {
	case f.Given() && l.Verdict() == joint.LabelWrong:
		a.Verdict, a.LimitingLine = Fails, f.Pos.Line
		a.Say = fmt.Sprintf("Not this kind: its label says %s, which does not belong in a tank (a poison against mould, or no pure silicone). %s", quoted(l.Bad), enough)
	case !f.Given():
		a.Verdict = Unknown
		a.Say = enough + " Of what kind it is the file does not say: copy the words on the tube into sealant.label."
	case l.Verdict() != joint.LabelRight:
		a.Verdict, a.LimitingLine = Unknown, f.Pos.Line
		a.Say = enough + " The label does not say enough to tell its kind: look for \"100 % silicone\" and for anything against mould, or ask for its data sheet (sealant.label)."
	case stock >= 0 && stock < need[2]:
		a.Verdict = Tight
		a.Say = fmt.Sprintf("The right kind, but %d may be too few: have %s before you begin, since a bed that has skinned takes no more.", stock, take)
	default:
		a.Verdict = Holds
		a.Say = fmt.Sprintf("The right kind by its label (%s). %s", strings.Join(l.Good, ", "), enough)
	}
	fumes := "Sealant gives off fumes as it cures: air the room, keep your head out of the enclosure."
	if l.Smell != "" {
		fumes = "As it cures it gives off " + l.Smell + ". Keep your head out of the enclosure."
	}
	a.Cautions = append(a.Cautions, fumes, "New silicone does not bond to cured silicone: cut back to clean glass. Nobody here has tested what is in the tube; with animals ask for its data sheet.")
}

// coat tells what a texture coat would take, which is not counted.
func (s *Survey) coat(a *Answer, waste quantity.Band[float64], size float64) {
	area := s.E.Wall.Width * s.E.Wall.Height
	if !(area > 0) {
		return
	}
	thick := takeoff.CoatThickness()
	low, high := area*thick.Low, area*thick.High
	n := [2]int{joint.Cartridges(low, waste.Low, size), joint.Cartridges(high, waste.High, size)}
	text := fmt.Sprint(n[1])
	if n[0] != n[1] {
		text = fmt.Sprintf("%d to %d", n[0], n[1])
	}
	f := volumeFigure("not counted: a coat over the wall", quantity.Band[float64]{Low: low, Likely: (low + high) / 2, High: high}, s.E.Units)
	f.Text, _, _ = strings.Cut(f.Text, ",")
	f.Text += ": " + text + " more cartridges"
	a.Figures = append(a.Figures, f)
}

// cure tells how long the widest beds take to set through, and says so if that is
// long.
func (s *Survey) cure(a *Answer, found study.Joints) string {
	factor := 1.0
	cold := false
	if air := s.E.Design.Place.Air; air.Given() {
		factor = joint.CureFactor(float64(air.Value.Low), 0.5)
		cold = air.Value.Low < 15
	}
	if cold {
		a.Cautions = append(a.Cautions, "Below 15 C silicone cures slower than reckoned here, and on glass that sweats it does not bond: warm the room for it.")
	}
	rate := joint.CureRate().Band
	if k := works.SealantOf(s.E); k.Rate.Likely > 0 {
		rate = k.Rate
	}
	add := func(name string, path float64) float64 {
		b := quantity.Band[quantity.Duration]{
			Low:    quantity.Duration(joint.CureTime(rate.High*factor, path)),
			Likely: quantity.Duration(joint.CureTime(rate.Likely*factor, path)),
			High:   quantity.Duration(joint.CureTime(rate.Low*factor, path)),
		}
		a.Figures = append(a.Figures, figure(name, b, s.E.Units))
		return float64(b.High)
	}
	leg := float64(s.E.Design.Sealant.Fillet.Value)
	var widest *study.Joint
	for i := range found.List {
		if m := &found.List[i]; !m.Old && (widest == nil || m.Bite.High > widest.Bite.High) {
			widest = m
		}
	}
	say := ""
	if widest != nil {
		// Air reaches it from its dry edge and through the fillet on the other.
		path := (widest.Bite.High + joint.Fillet{A: leg, B: leg}.Throat()) / 2
		if add(fmt.Sprintf("cure of the widest bed (%s)", widest.Name), path) > longCure {
			say = " At its slowest the widest bed cures for longer than the usual week: wait for it before you fill."
		}
	}
	spot := 0.0
	for i := range s.E.Design.Grid {
		if g := &s.E.Design.Grid[i]; g.Bond.Given() && g.At.Value != "floor" {
			spot = math.Max(spot, math.Min(float64(g.Bond.Width.Value), float64(g.Bond.Height.Value)))
		}
	}
	if spot > 0 && add("cure of a spot under something solid", spot/2) > longCure {
		say += " A spot of the grid cures only from its rim: under a solid stand-off that takes weeks, through the open cells of the sheet far less. Lay narrow strips, or wait."
	}
	return say
}

// sealantMatters ranks what moves the amount, each moved alone.
func (s *Survey) sealantMatters(a *Answer, found study.Joints, waste quantity.Band[float64]) {
	sys := s.E.Units
	likely := s.sealantFor(found, 0, 0, -1).All() * (1 + waste.Likely)
	if likely == 0 {
		return
	}
	add := func(m Matter, low, high float64) {
		if high-low < 1e-9 {
			return
		}
		k, unit := volumeUnit(sys)
		m.Effect, m.Swing = bandText(quantity.Band[float64]{Low: low / k, High: high / k}, unit), (high-low)/likely
		a.Matters = append(a.Matters, m)
	}
	with := func(line, glass, fillets int) float64 {
		return s.sealantFor(found, line, glass, fillets).All() * (1 + waste.Likely)
	}
	line, given := s.bondLine()
	m := Matter{What: "thickness of beds and spots", Range: biteText(line, sys), Why: "assumed, rule of the trade", Settle: "spacers of a known thickness"}
	if given {
		m.Why, m.Line = "as the file has it", s.E.Design.Sealant.BondLine.Pos.Line
	}
	add(m, with(-1, 0, -1), with(1, 0, -1))
	add(Matter{What: "true thickness of the glass", Range: "by the limits of its name", Why: "the name is not the size", Settle: "callipers on the edge"}, with(0, -1, -1), with(0, 1, -1))
	add(Matter{What: "fillets of the dam", Range: "on its wet side to on both", Why: "the file does not say"}, with(0, 0, -1), with(0, 0, 1))
	all := s.sealantFor(found, 0, 0, -1).All()
	w := Matter{What: "share lost in nozzles and on the knife", Range: quantity.Band[quantity.Ratio]{Low: quantity.Ratio(waste.Low), Likely: quantity.Ratio(waste.Likely), High: quantity.Ratio(waste.High)}.Show(sys), Why: "10 to 20 % published, more assumed"}
	if f := s.E.Design.Sealant.Waste; f.Given() {
		w.Why, w.Line = "as the file has it", f.Pos.Line
	}
	add(w, all*(1+waste.Low), all*(1+waste.High))
	rank(a.Matters)
}
