package takeoff

import (
	"math"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/structure/joint"
	"rillwright/study"
)

func demo(t testing.TB, file []byte) (*enclosure.Enclosure, study.Joints) {
	t.Helper()
	e := trial.Resolved(t, file, enclosure.Resolve)
	return e, study.SealedJoints(e, study.Glass(e, e.Likely(), 0.15))
}

func find(t testing.TB, list []Need, name string) *Need {
	t.Helper()
	for i := range list {
		if list[i].Name == name {
			return &list[i]
		}
	}
	t.Fatalf("no %q", name)
	return nil
}

// Nothing is less than what it is made of, at either end, and no band is crossed.
func TestSums(t *testing.T) {
	for _, file := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		e, joints := demo(t, file)
		list := Of(e, joints)
		names := map[string]bool{}
		for i := range list {
			n := &list[i]
			if names[n.Name] {
				t.Errorf("%s is listed twice", n.Name)
			}
			names[n.Name] = true
			var sum Band
			for _, f := range n.From {
				sum = plus(sum, f.Amount)
			}
			if n.Amount.Low < sum.Low*(1-1e-9) || n.Amount.Likely < sum.Likely*(1-1e-9) || n.Amount.High < sum.High*(1-1e-9) {
				t.Errorf("%s: %v of %v", n.Name, n.Amount, n.From)
			}
			if !(n.Amount.Low > 0) || n.Amount.Low > n.Amount.Likely || n.Amount.Likely > n.Amount.High {
				t.Errorf("%s: %v", n.Name, n.Amount)
			}
		}
		// Sealant is never less than its joints, each counted by itself.
		joints.List = append([]study.Joint(nil), joints.List...)
		bond := BondLine(e)
		for side := -1; side <= 1; side++ {
			all := 0.0
			for i := range joints.List {
				one := study.Joints{List: joints.List[i : i+1]}
				v := SealantFor(e.Design, one, bond, Ends{side, side, side})
				all += v.Beds + v.Fillets
			}
			if v := SealantFor(e.Design, joints, bond, Ends{side, side, side}); v.All() < all || find(t, list, "sealant").Amount.At(side) < v.All() {
				t.Errorf("%v m3 for joints of %v", v.All(), all)
			}
		}
	}
}

// A cartridge of 300 ml gives what sealant cost guides publish (area in mm2 is ml for
// each metre): 42, 24, 15, 10.6 and 6 m of a round bead of 3, 4, 5, 6 and 8 mm; one of
// 10.1 fl oz 124, 55, 31 and 14 ft of 1/8, 3/16, 1/4 and 3/8 in.
func TestBead(t *testing.T) {
	for mm, m := range map[float64]float64{3: 42, 4: 24, 5: 15, 6: 10.6, 8: 6} {
		if got := 300e-6 / joint.Volume(joint.RoundBead(mm/1000), 1); math.Abs(got/m-1) > 0.03 {
			t.Errorf("%g mm: %.1f m, published %g", mm, got, m)
		}
	}
	for in, ft := range map[float64]float64{1.0 / 8: 124, 3.0 / 16: 55, 1.0 / 4: 31, 3.0 / 8: 14} {
		if got := joint.CartridgeUS / joint.Volume(joint.RoundBead(in*0.0254), 1) / 0.3048; math.Abs(got/ft-1) > 0.03 {
			t.Errorf("%g in: %.1f ft, published %g", in, got, ft)
		}
	}
}

// The corridor cabinet by hand: panes and fillets 1.5 cartridges of 300 ml at most
// with waste, grid up to 0.5, the coat 2 to 4.
func TestByHand(t *testing.T) {
	e, joints := demo(t, examples.CorridorCabinet)
	n := find(t, Of(e, joints), "sealant")
	part := map[string]Band{}
	for _, f := range n.From {
		part[f.What] = f.Amount.Scale(1 / 300e-6)
	}
	if c := part["coat: texture"]; math.Abs(c.Low-2.07) > 0.01 || math.Abs(c.High-4.13) > 0.01 {
		t.Errorf("coat: %v", c)
	}
	if v := part["beds between panes"].High + part["fillets"].High; v > 1.5 || v < 0.3 {
		t.Errorf("panes and fillets: %v", v)
	}
	if g := part["spots under the grid"]; g.High > 0.5 || g.Low < 0.05 {
		t.Errorf("grid: %v", g)
	}
	// Foam of 18 L once carved; one drain and one elbow under its pipe and one behind.
	if f := find(t, Of(e, joints), "foam").Amount; math.Abs(f.Low-0.81*0.75*0.03*1.1) > 1e-9 {
		t.Errorf("foam: %v", f)
	}
	if b := find(t, Of(e, joints), "elbow 90 solvent 1 in"); b.Amount.Likely != 2 || len(b.From) != 2 {
		t.Errorf("elbows: %+v", b)
	}
}

// A shop tank is bought whole: of its panes only the dam is cut.
func TestTank(t *testing.T) {
	e, joints := demo(t, examples.CounterWall)
	list := Of(e, joints)
	glass := 0
	for i := range list {
		if list[i].Key == "glass" {
			glass++
		}
	}
	if tank := find(t, list, "shop tank"); glass != 1 || math.Abs(tank.Amount.Likely/3.785411784e-3-48.4) > 0.1 {
		t.Errorf("%d panes, tank of %v", glass, tank.Amount)
	}
	spare := false
	no := trial.Resolved(t, []byte(string(examples.CounterWall)+"  spares: no\n"), enclosure.Resolve)
	for _, n := range Of(no, joints) {
		spare = spare || n.Spare
	}
	if spare {
		t.Error("spares are listed against the file")
	}
}
