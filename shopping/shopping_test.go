package shopping

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/quantity"
	"rillwright/study"
	"rillwright/takeoff"
)

// demo resolves a design and takes it off.
func demo(t testing.TB, file []byte) (*enclosure.Enclosure, study.Joints) {
	t.Helper()
	e := trial.Resolved(t, file, enclosure.Resolve)
	return e, study.SealedJoints(e, study.Glass(e, e.Likely(), 0.15))
}

func listOf(t testing.TB, e *enclosure.Enclosure, needs []takeoff.Need, prices ...Price) *List {
	t.Helper()
	l, err := Of(e, needs, prices)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func find(t testing.TB, l *List, name string) *Item {
	t.Helper()
	for i := range l.Items {
		if l.Items[i].Name == name {
			return &l.Items[i]
		}
	}
	t.Fatalf("no line %q", name)
	return nil
}

// Every pack of the built-in list reads, and there is one for every key that a design
// is taken off by.
func TestGoods(t *testing.T) {
	for _, us := range []bool{false, true} {
		goods, err := catalogue.Goods(us)
		if err != nil {
			t.Fatal(err)
		}
		for key, g := range goods {
			for _, p := range g.Packs {
				if k, err := design.ReadPack(p.Text, us); err != nil || !(k.Size > 0) {
					t.Errorf("%s: pack %q: %v", key, p.Text, err)
				}
			}
		}
	}
	for us, file := range map[bool][]byte{false: examples.CorridorCabinet, true: examples.CounterWall} {
		goods, err := catalogue.Goods(us)
		if err != nil {
			t.Fatal(err)
		}
		e, joints := demo(t, file)
		for _, n := range takeoff.Of(e, joints) {
			if _, ok := goods[n.Key]; !ok && n.Group != takeoff.Other {
				t.Errorf("%s is sold as %q, which is on no list", n.Name, n.Key)
			}
		}
	}
}

// bare is an enclosure with some stock and no more.
func bare(us bool, stock ...design.StockItem) *enclosure.Enclosure {
	e := &enclosure.Enclosure{Design: &design.Design{Stock: stock}}
	if us {
		e.Units = quantity.US
	}
	return e
}

func stocked(what, size string, n int) design.StockItem {
	var s design.StockItem
	set(&s.What, what, what)
	set(&s.Size, size, size)
	set(&s.Count, n, "")
	return s
}

// What is bought and what is on hand is never less than the need, at either end; what
// is left is never below nothing, no more is taken than is there, and one more of what
// is on hand never costs more.
func TestPacksCover(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom([]struct {
			key, size string
			unit      takeoff.Unit
			each      float64 // in the unit, of one on hand
			most      float64
		}{
			{"sealant", "300 ml", takeoff.CubicMetres, 300e-6, 0.004},
			{"sealant", "80 ml", takeoff.CubicMetres, 80e-6, 0.004},
			{"media", "20 L", takeoff.CubicMetres, 0.020, 0.15},
			{"wood", "1 kg", takeoff.Kilograms, 1, 12},
			{"elbow", "", takeoff.Pieces, 1, 20},
			{"cable tie", "100 pieces", takeoff.Pieces, 100, 450},
		}).Draw(t, "kind")
		low := rapid.Float64Range(0, kind.most).Draw(t, "low")
		likely := rapid.Float64Range(low, kind.most).Draw(t, "likely")
		high := rapid.Float64Range(likely, kind.most).Draw(t, "high")
		if kind.unit == takeoff.Pieces {
			low, likely, high = math.Ceil(low), math.Ceil(likely), math.Ceil(high)
		}
		n := takeoff.Need{Name: kind.key, Key: kind.key, Unit: kind.unit, Amount: takeoff.Band{Low: low, Likely: likely, High: high}}
		have := rapid.IntRange(0, 12).Draw(t, "have")
		us := rapid.Bool().Draw(t, "us")
		cost := func(have int) (*Item, float64) {
			l, err := Of(bare(us, stocked(kind.key, kind.size, have)), []takeoff.Need{n}, nil)
			if err != nil {
				t.Fatal(err)
			}
			return &l.Items[0], l.Cost.Likely
		}
		it, before := cost(have)
		for e, want := range ends(n.Amount) {
			got := float64(have)*kind.each + float64(it.Packs[e])*packSize(t, it, us)
			if got < want*(1-1e-9) {
				t.Errorf("end %d: %v for %v", e, got, want)
			}
			if left := ends(it.Left)[e]; left < 0 || left > got-want+1e-9 {
				t.Errorf("end %d: %v left of %v for %v", e, left, got, want)
			}
		}
		if _, after := cost(have + 1); after > before+1e-9 {
			t.Errorf("%d on hand: %v, one more: %v", have, before, after)
		}
	})
}

func packSize(t *rapid.T, it *Item, us bool) float64 {
	k, err := design.ReadPack(it.Pack, us)
	if err != nil {
		t.Fatal(err)
	}
	return k.Size
}

// Foam: each layer takes cans of its own at the bad end, and the cans hold what stays
// and what is carved off.
func TestFoam(t *testing.T) {
	n := takeoff.Need{Name: "foam", Key: "foam", Unit: takeoff.CubicMetres, Layers: 2, Amount: takeoff.Band{Low: 0.020, Likely: 0.022, High: 0.0246}}
	it := listOf(t, bare(false), []takeoff.Need{n}).Items[0]
	// 750 ml give 10 to 20 L in layers: 20/20, 22/15 and two layers of 12.3/10.
	if it.Packs != (Ends{1, 2, 4}) {
		t.Errorf("%v", it.Packs)
	}
	it = listOf(t, bare(false, stocked("foam", "750 ml", 3)), []takeoff.Need{n}).Items[0]
	if it.Packs != (Ends{0, 0, 1}) || it.Hold != "3 x 750 ml" {
		t.Errorf("%v, %s", it.Packs, it.Hold)
	}
	// A can of 12 oz yields a fifth of one of 750 ml at the bad end: ten do for two.
	it = listOf(t, bare(false, stocked("foam", "12 oz", 10)), []takeoff.Need{n}).Items[0]
	if it.Packs != (Ends{0, 0, 2}) {
		t.Errorf("%v, %s", it.Packs, it.Hold)
	}
}

// A price for the lot is paid once, whatever number of lines it covers; a line with a
// price of its own is not covered; money of another currency is not used.
func TestPrices(t *testing.T) {
	need := func(name, key string) takeoff.Need {
		return takeoff.Need{Name: name, Key: key, Group: takeoff.Plumbing, Amount: takeoff.Band{Low: 2, Likely: 2, High: 2}}
	}
	needs := []takeoff.Need{need("elbow 90 solvent 1 in", "elbow"), need("bulkhead 1 in", "bulkhead"), need("union solvent 1 in", "union")}
	eur := func(v float64) quantity.Money { return quantity.Money{Amount: v, Currency: "EUR"} }
	each := design.Pack{Size: 1}
	l := listOf(t, bare(false), needs,
		Price{What: "plumbing", Pack: design.Pack{Kind: design.PackLot, Size: 1}, Money: eur(60), From: "line 1"},
		Price{What: "bulkhead", Pack: each, Money: eur(9), From: "line 2"},
		Price{What: "unions", Pack: each, Money: quantity.Money{Amount: 1, Currency: "USD"}, From: "line 3"},
		Price{What: "waterfall", Pack: each, Money: eur(5), From: "line 4"},
	)
	if l.Cost != (takeoff.Band{Low: 78, Likely: 78, High: 78}) || l.Currency != "EUR" {
		t.Errorf("%v %s", l.Cost, l.Currency)
	}
	if it := find(t, l, "bulkhead 1 in"); it.Lot != "" || it.Cost.Likely != 18 {
		t.Errorf("%+v", it)
	}
	if len(l.Unused) != 1 || l.Unused[0].What != "waterfall" {
		t.Errorf("unused: %+v", l.Unused)
	}
	// A pack of the builder's: two come in one bag of ten.
	l = listOf(t, bare(false), needs[:1], Price{What: "elbow", Pack: design.Pack{Size: 10}, PackText: "10 pieces", Money: eur(7)})
	if it := l.Items[0]; it.Packs[1] != 1 || it.Left.Likely != 8 || l.Cost.Likely != 7 {
		t.Errorf("%+v", it)
	}
	// In a currency in which nothing generic is known, nothing is made up.
	l = listOf(t, bare(false), needs, Price{What: "elbow", Pack: each, Money: quantity.Money{Amount: 3, Currency: "GBP"}})
	if l.Currency != "GBP" || l.Cost.Likely != 6 || len(l.Unpriced) != 2 {
		t.Errorf("%s %v, no price for %q", l.Currency, l.Cost, l.Unpriced)
	}
}

func TestReadPrices(t *testing.T) {
	got, list := ReadPrices("my.csv", []byte("what,pack,price,shop,note\nsealant,300 ml,8.50 EUR,corner,\n\"hose, clear\",5 m,12 EUR,,\n"), "EUR", false)
	if list.HasErrors() || len(got) != 2 || got[1].What != "hose, clear" || got[1].Pack != (design.Pack{Kind: design.PackLength, Size: 5}) || got[0].Money.Amount != 8.5 || got[1].Line != 3 {
		t.Errorf("%+v %+v", got, list)
	}
	if got, list := ReadPrices("my.csv", []byte("Price;What\r\n8 EUR;foam\r\n"), "", false); list.HasErrors() || len(got) != 1 || got[0].What != "foam" {
		t.Errorf("with semicolons: %+v %+v", got, list)
	}
	for _, c := range []struct{ text, field, what string }{
		{"", "", "empty"},
		{"what,cost\nfoam,8 EUR\n", "cost", "no column"},
		{"what,pack\nfoam,1\n", "price", "is missing"},
		{"what,price\n,8 EUR\n", "what", "not said what"},
		{"what,price\nfoam,8\n", "price", "no currency"},
		{"what,price\nfoam,$8\n", "price", "which dollar"},
		{"what,price\nfoam,8 USD\n", "price", "another currency"},
		{"what,price\nfoam,-8 EUR\n", "price", "below 0"},
		{"what,price,pack\nfoam,8 EUR,much\n", "pack", "what a pack holds"},
		{"what,price\n\"foam,8 EUR\n", "", "cannot be read"},
		{"what,price\nfoam\xff,8 EUR\n", "", "UTF-8"},
	} {
		got, list := ReadPrices("my.csv", []byte(c.text), "EUR", false)
		if len(got) != 0 || !list.HasErrors() {
			t.Errorf("%q passes: %+v", c.text, got)
			continue
		}
		f := list[0]
		if f.Field != c.field || !strings.Contains(f.What, c.what) || f.Do == "" || f.Place.File != "my.csv" || f.Place.Line < 1 {
			t.Errorf("%q: %+v", c.text, f)
		}
	}
}

// The examples: no line is cheaper than nothing, sums are the sums of their lines, and
// each change that saves money comes to what it says when it is made.
func TestDemos(t *testing.T) {
	for _, file := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		e, joints := demo(t, file)
		l := listOf(t, e, takeoff.Of(e, joints))
		var sum takeoff.Band
		for i := range l.Items {
			it := &l.Items[i]
			if it.Cost.Low < 0 || it.Cost.Low > it.Cost.Likely || it.Cost.Likely > it.Cost.High || it.Packs[0] > it.Packs[1] || it.Packs[1] > it.Packs[2] {
				t.Errorf("%s: %v for %v", it.Name, it.Cost, it.Packs)
			}
			sum = plus(sum, it.Cost)
		}
		for i := range l.Lots {
			sum = plus(sum, l.Lots[i].Cost)
		}
		if math.Abs(sum.Likely-l.Cost.Likely) > 1e-9 || len(l.Unpriced) > 0 || len(l.Unused) > 0 {
			t.Errorf("%v, %v; no price for %q, for nothing %+v", sum, l.Cost, l.Unpriced, l.Unused)
		}
		changes, all, err := Cheaper(e, joints, nil, l)
		if err != nil || len(changes) == 0 || len(all) == 0 || !(all[len(all)-1].Likely < l.Total.Likely) {
			t.Fatalf("%v %v %v", changes, all, err)
		}
		for i := range changes {
			c := &changes[i]
			if len(c.Edits) == 0 {
				continue
			}
			data, err := design.Apply(file, c.Edits)
			if err != nil {
				t.Fatalf("%s: %v", c.Do, err)
			}
			after, joints := demo(t, data)
			if got := listOf(t, after, takeoff.Of(after, joints)); math.Abs(got.Total.Likely-c.After.Likely) > 0.01 || math.Abs(got.Total.High-c.After.High) > 0.01 {
				t.Errorf("%s: says %v, comes to %v", c.Do, c.After, got.Total)
			}
		}
	}
}

// What stands in for hose is of the next bore, with the part that joins the two.
func TestInstead(t *testing.T) {
	e, joints := demo(t, examples.CounterWall)
	it := find(t, listOf(t, e, takeoff.Of(e, joints)), "vinyl hose 1/2 in")
	if got := strings.Join(it.Instead, "; "); got != "if no vinyl hose 1/2 in, then vinyl hose 5/8 in, at each end with a reducer barb 5/8 in to 1/2 in" {
		t.Error(got)
	}
	it = find(t, listOf(t, e, takeoff.Of(e, joints)), "rigid pipe 1/2 in sch 40")
	if got := strings.Join(it.Instead, "; "); got != "if no rigid pipe 1/2 in sch 40, then rigid pipe 3/4 in sch 40, its own fittings, and a reducer solvent 3/4 in to 1/2 in where the two sizes meet" {
		t.Error(got)
	}
}
