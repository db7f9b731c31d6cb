package catalogue

import (
	"math"
	"slices"
	"strings"
	"testing"
)

func builtin(t testing.TB) *Catalogue {
	t.Helper()
	c, err := Builtin()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func find(t testing.TB, c *Catalogue, name string) Part {
	t.Helper()
	p, ok := c.Find(name)
	if !ok {
		t.Fatalf("no part %q", name)
	}
	return p
}

func names(parts []Part) []string {
	var out []string
	for _, p := range parts {
		out = append(out, p.Name)
	}
	return out
}

func TestEveryPart(t *testing.T) {
	c := builtin(t)
	seen := map[string]string{}
	for _, p := range c.Parts() {
		k := key(p.Name)
		if other, ok := seen[k]; ok {
			t.Errorf("%q and %q are one name", p.Name, other)
		}
		seen[k] = p.Name
		if got, ok := c.Find(p.Name); !ok || got.Name != p.Name {
			t.Errorf("Find(%q) = %q, %v", p.Name, got.Name, ok)
		}
		if !slices.Contains(Kinds(), p.Kind) {
			t.Errorf("%s: kind %q", p.Name, p.Kind)
		}
		if !slices.Contains(Marks(), p.Mark) {
			t.Errorf("%s: mark %q", p.Name, p.Mark)
		}
		if !(p.Bore.Low <= p.Bore.Likely && p.Bore.Likely <= p.Bore.High) || p.Bore.Low < 0 {
			t.Errorf("%s: bore %v", p.Name, p.Bore)
		}
		if p.Hole.Low > p.Hole.High || p.Hole.High > 0 && p.Hole.Low <= p.Bore.High {
			t.Errorf("%s: hole %v, bore %v", p.Name, p.Hole, p.Bore)
		}
		noBore := p.Kind == KindPump || p.Kind == KindEmitter || p.Name == "sponge strainer"
		if noBore != (p.Bore.Likely == 0) {
			t.Errorf("%s: bore %v", p.Name, p.Bore)
		}
		if p.Outside > 0 && p.Outside <= p.Bore.High {
			t.Errorf("%s: outside %v inside of bore %v", p.Name, p.Outside, p.Bore)
		}
		for _, e := range p.Ends {
			if again, err := ParseEnd(e.String()); err != nil || again != e {
				t.Errorf("%s: end %q does not read back: %v", p.Name, e, err)
			}
			if in, ok := e.Inside(); ok && p.Kind.HasLength() && math.Abs(float64(in-p.Bore.Likely)) > 1e-6 {
				t.Errorf("%s: the end says %v inside, the part %v", p.Name, in, p.Bore.Likely)
			}
			if out, ok := e.Outside(); ok && p.Outside > 0 && math.Abs(float64(out-p.Outside)) > 1e-6 {
				t.Errorf("%s: the end says %v outside, the part %v", p.Name, out, p.Outside)
			}
		}
		if p.Loss.Method == LossThreeK && (p.Loss.NominalInches <= 0 || p.Loss.Mark == "" || p.Loss.Source == "") {
			t.Errorf("%s: loss %+v", p.Name, p.Loss)
		}
		if p.Kind.HasLength() && p.Roughness <= 0 {
			t.Errorf("%s: no roughness", p.Name)
		}
		if p.Kind == KindTee && len(p.Ends) != 3 {
			t.Errorf("%s: %d ends", p.Name, len(p.Ends))
		}
		if p.Kind == KindStrainer && p.Strainer.Clogged != 4 {
			t.Errorf("%s: clogged %g", p.Name, p.Strainer.Clogged)
		}
	}
}

func TestFind(t *testing.T) {
	c := builtin(t)
	for _, w := range []struct{ ask, want string }{
		{"Vinyl  Hose 1/2 in", "vinyl hose 1/2 in"},
		{"vinyl hose ½\"", "vinyl hose 1/2 in"},
		{"vinyl hose 16mm", "vinyl hose 16 mm"},
		{"rigid pipe 1-1/4 in sch 40", "rigid pipe 1 1/4 in sch 40"},
		{"elbow 90 barbed 16 mm", "elbow 90 barbed 16 mm"},
		{"elbow 90 solvent 25 mm", "elbow 90 solvent 25 mm"},
		{"tee barbed 16 mm", "tee barbed 16 mm"},
		{"ball valve 16 mm", "ball valve barbed 16 mm"},
		{"gate valve 1/2 in", "gate valve threaded 1/2 in"},
		{"check valve 1/2 in", "check valve barbed 1/2 in"},
		{"union 25 mm", "union solvent 25 mm"},
		{"coupling 1/2 in", "coupling solvent 1/2 in"},
		{"barb 1/2 in", "barb 1/2 in"},
		{"reducer barb 3/4 in to 1/2 in", "reducer barb 3/4 in to 1/2 in"},
		{"hose adapter thread NPT 1/2 in male to barb 1/2 in", "hose adapter thread NPT 1/2 in male to barb 1/2 in"},
		{"bulkhead 25 mm", "bulkhead 25 mm"},
		{"sponge", "sponge strainer"},
		{"slotted strainer 25 mm", "slotted strainer 25 mm"},
		{"button emitter 1/2 US gal/h", "button emitter 1/2 US gal/h"},
		{"pump 350 us gal/h 8 ft", "pump 350 US gal/h 8 ft"},
	} {
		if p, ok := c.Find(w.ask); !ok || p.Name != w.want {
			t.Errorf("Find(%q) = %q, %v; want %q", w.ask, p.Name, ok, w.want)
		}
	}
	if p, ok := c.Find("vinyl hose 14 mm"); ok {
		t.Errorf("found %q", p.Name)
	}
}

func TestSearch(t *testing.T) {
	c := builtin(t)
	// Sizes rise within each unit system, and what only mentions vinyl hose in
	// its note comes last.
	if got := names(c.Search("Vinyl hose")); len(got) < 22 || !slices.Equal(got[:11], []string{
		"vinyl hose 1/8 in", "vinyl hose 3/16 in", "vinyl hose 1/4 in", "vinyl hose 5/16 in",
		"vinyl hose 3/8 in", "vinyl hose 1/2 in", "vinyl hose 5/8 in", "vinyl hose 3/4 in", "vinyl hose 1 in",
		"vinyl hose 6 mm", "vinyl hose 8 mm",
	}) || got[21] != "irrigation tube 1/2 in" {
		t.Errorf("hoses: %v", got)
	}
	if got := names(c.Search("hose 16mm", "vinyl")); !slices.Equal(got, []string{"vinyl hose 16 mm"}) {
		t.Errorf("16 mm hose: %v", got)
	}
	if got := names(c.Search("rigid", "sch", "1/2")); !slices.Equal(got, []string{"rigid pipe 1/2 in sch 40"}) {
		t.Errorf("1/2 in pipe: %v", got)
	}
	if got := names(c.Search("rigid sch 1 1/2")); !slices.Equal(got, []string{"rigid pipe 1 1/2 in sch 40"}) {
		t.Errorf("1 1/2 in pipe: %v", got)
	}
	if got := c.Search("rope"); len(got) != 0 {
		t.Errorf("rope: %v", names(got))
	}
	if got, all := len(c.Search()), c.Len(); got != all {
		t.Errorf("no words: %d of %d", got, all)
	}
	pipes := names(c.Search("rigid pipe PN16"))
	if !slices.Equal(pipes, []string{"rigid pipe 20 mm PN16", "rigid pipe 25 mm PN16", "rigid pipe 32 mm PN16", "rigid pipe 40 mm PN16", "rigid pipe 50 mm PN16"}) {
		t.Errorf("PN16: %v", pipes)
	}
}

func TestWith(t *testing.T) {
	c := builtin(t)
	u := c.With([]Part{
		{Name: "Vinyl hose 1/2 IN", Kind: KindHose, Note: "mine"},
		{Name: "grey hose 17 mm", Kind: KindHose, Also: []string{"grey hose"}},
		{Name: "my valve", Kind: KindValve, Also: []string{"ball valve 16 mm", "union solvent 25 mm"}},
		{Name: "union 25 mm", Kind: KindUnion},
	})
	for ask, want := range map[string]string{
		"ball valve 16 mm": "my valve", "union 25 mm": "union 25 mm", "union solvent 25 mm": "union solvent 25 mm",
	} {
		if p := find(t, u, ask); p.Name != want {
			t.Errorf("Find(%q) = %q, want %q", ask, p.Name, want)
		}
	}
	if p := find(t, u, "vinyl hose 1/2 in"); p.Note != "mine" || !u.IsUser(p.Name) {
		t.Errorf("not overridden: %+v", p)
	}
	if p := find(t, u, "GREY hose"); p.Name != "grey hose 17 mm" || !u.IsUser("grey hose") {
		t.Errorf("not added: %+v", p)
	}
	if u.Len() != c.Len()+3 || u.IsUser("vinyl hose 16 mm") || c.IsUser("vinyl hose 1/2 in") {
		t.Error("wrong parts marked as the user's")
	}
	if p := find(t, c, "vinyl hose 1/2 in"); p.Note == "mine" {
		t.Error("the built-in catalogue changed")
	}
	if v := u.With(nil); !v.IsUser("grey hose 17 mm") {
		t.Error("a second With forgets the first")
	}
}

func TestNextBore(t *testing.T) {
	c := builtin(t)
	for _, w := range []struct {
		from   string
		bigger bool
		want   string
	}{
		{"vinyl hose 1/2 in", true, "vinyl hose 5/8 in"},
		{"vinyl hose 1/2 in", false, "vinyl hose 3/8 in"},
		{"vinyl hose 16 mm", true, "vinyl hose 19 mm"},
		{"rigid pipe 2 in sch 40", true, ""},
		{"rigid pipe 25 mm PN16", true, "rigid pipe 32 mm PN16"},
		{"elbow 90 solvent 1 in", true, "elbow 90 solvent 1 1/4 in"},
		{"bulkhead 3/4 in", true, "bulkhead 1 in"},
		{"pump 1200 L/h 2.4 m", true, ""},
	} {
		p, ok := c.NextBore(find(t, c, w.from), w.bigger)
		if ok != (w.want != "") || p.Name != w.want {
			t.Errorf("NextBore(%s, %v) = %q, want %q", w.from, w.bigger, p.Name, w.want)
		}
	}
}

// Every joint of the trade that has an adapter in the aisle finds one here.
func TestAdapters(t *testing.T) {
	c := builtin(t)
	for _, w := range []struct{ a, b, want string }{
		{"hose 1/2 in", "thread NPT 1/2 in male", "hose adapter thread NPT 1/2 in female to barb 1/2 in"},
		{"thread NPT 1/2 in male", "thread R 1/2 female", "adapter thread NPT 1/2 in female to thread R 1/2 male"},
		{"garden hose thread 3/4 male", "thread NPT 3/4 in female", "adapter garden hose thread 3/4 female to thread NPT 3/4 in male"},
		{"hose 3/4 in", "hose 1/2 in", "reducer barb 3/4 in to 1/2 in"},
		{"spigot 25 mm", "hose 19 mm", "hose adapter socket 25 mm to barb 19 mm"},
		{"irrigation tube 16 mm", "hose 13 mm", "adapter irrigation barb 16 mm to barb 13 mm"},
		{"spigot 1 in", "spigot 1 in", "coupling solvent 1 in"},
		{"hose 16 mm", "hose 16 mm", "barb 16 mm"},
	} {
		a, _ := ParseEnd(w.a)
		b, _ := ParseEnd(w.b)
		if got := names(c.Adapters(a, b)); !slices.Contains(got, w.want) {
			t.Errorf("Adapters(%s, %s) = %s, want %q among them", a, b, strings.Join(got, "; "), w.want)
		}
	}
}

func BenchmarkBuiltin(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Builtin(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSearch(b *testing.B) {
	c := builtin(b)
	b.ReportAllocs()
	for b.Loop() {
		c.Search("elbow", "16 mm")
	}
}

func TestNearest(t *testing.T) {
	c := builtin(t)
	for _, w := range []struct{ ask, want string }{
		{"vinil hose 1/2 in", "vinyl hose 1/2 in"},
		{"elbow 16 mm", "elbow 90 barbed 16 mm"},
		{"pipe 25 mm PN16", "rigid pipe 25 mm PN16"},
		{"ball valve for hose 16 mm", "ball valve barbed 16 mm"},
	} {
		if got := c.Nearest(w.ask); !slices.Contains(got, w.want) || len(got) > maxNearest {
			t.Errorf("Nearest(%q) = %q, want %q among at most %d", w.ask, got, w.want, maxNearest)
		}
	}
	if got := c.Nearest("umbrella"); got != nil {
		t.Errorf("umbrella: %q", got)
	}
}
