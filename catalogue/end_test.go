package catalogue

import (
	"strings"
	"testing"
)

func TestParseEnd(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"barb 1/2 in", "barb 1/2 in"},
		{"BARB  1/2\"", "barb 1/2 in"},
		{"½ in barb", "barb 1/2 in"},
		{"barb 16mm", "barb 16 mm"},
		{"hose 16 mm", "hose 16 mm"},
		{"vinyl hose 5/8 inch", "hose 5/8 in"},
		{"garden hose 1/2 in", "hose 1/2 in"},
		{"irrigation tube 16 mm", "irrigation tube 16 mm"},
		{"drip tubing 1/2 in", "irrigation tube 1/2 in"},
		{"irrigation barb 1/4 in", "irrigation barb 1/4 in"},
		{"pex tube 3/4 in", "PEX tube 3/4 in"},
		{"PEX barb 1 in", "PEX barb 1 in"},
		{"socket 25 mm", "socket 25 mm"},
		{"slip 1 1/4 in", "socket 1 1/4 in sch 40"},
		{"spigot 3/4 in sch 40", "spigot 3/4 in sch 40"},
		{"spigot 1-1/4 in sch40", "spigot 1 1/4 in sch 40"},
		{"pipe 25 mm pn16", "spigot 25 mm"},
		{"thread NPT 1/2 in male", "thread NPT 1/2 in male"},
		{"1/2 MNPT", "thread NPT 1/2 in male"},
		{"3/4 fpt", "thread NPT 3/4 in female"},
		{"thread G 1/2 male", "thread G 1/2 male"},
		{"G1/2 female", "thread G 1/2 female"},
		{"thread R 3/4 male", "thread R 3/4 male"},
		{"Rp 1/2", "thread R 1/2 female"},
		{"BSP 1 1/2 male thread", "thread BSP 1 1/2 male"},
		{"garden hose thread 3/4 male", "garden hose thread 3/4 male"},
		{"GHT 3/4 female", "garden hose thread 3/4 female"},
		{"compression 16 mm", "compression 16 mm"},
		{"irrigation compression 1/2 in", "irrigation compression 1/2 in"},
		{"Open", "open"},
	} {
		e, err := ParseEnd(c.text)
		if err != nil {
			t.Errorf("ParseEnd(%q): %v", c.text, err)
			continue
		}
		if got := e.String(); got != c.want {
			t.Errorf("ParseEnd(%q) = %q, want %q", c.text, got, c.want)
		}
		if again, err := ParseEnd(e.String()); err != nil || again != e {
			t.Errorf("%q does not read back: %v, %v", e, again, err)
		}
	}
}

func TestParseEndRefuses(t *testing.T) {
	for _, c := range []struct{ text, says string }{
		{"", "shape"},
		{"1/2 in", "shape"},
		{"barb", "size is missing"},
		{"barb 13", "no unit"},
		{"barb 16 mm 13 mm", "too much"},
		{"barb 1/0 in", "not a size"},
		{"barb 0 mm", "not a size"},
		{"barb 1e3 mm", "not known"},
		{"barb 5/4 in", "not a size"},
		{"barb 1/2 in male", "belong to threads"},
		{"thread 1/2 male", "which thread"},
		{"thread NPT 1/2", "male or female"},
		{"thread G 16 mm male", "named in inches"},
		{"thread NPT G 1/2 male", "one end at a time"},
		{"barb 1/2 in thread NPT 1/2 male", "one end at a time"},
		{"PEX thread 1/2 male", "no thread"},
		{"spigot 5/8 in", "no US inch pipe"},
		{"irrigation tube 25 mm", "the sizes are"},
		{"tube 1/2 in", "which tube"},
		{"compression 1/2 in", "irrigation or PEX"},
		{"flange 1 in", `"flange" is not known`},
		{"open 1/2 in", "open end has no size"},
	} {
		e, err := ParseEnd(c.text)
		if err == nil {
			t.Errorf("ParseEnd(%q) = %v, want an error", c.text, e)
			continue
		}
		if !strings.Contains(err.Error(), c.says) {
			t.Errorf("ParseEnd(%q): %v; want it to say %q", c.text, err, c.says)
		}
	}
}

// The traps are those that plumbing and hobby guides repeat: threads that start
// and leak, garden hose thread, metric against US sockets, irrigation against
// vinyl. Pitches: ASME B1.20.1 gives NPT 1/2 and 3/4 14, 3/8 18, 1 in 11.5;
// ISO 7-1 gives 14, 19 and 11; ASME B1.20.7 gives the garden hose 11.5.
func TestMates(t *testing.T) {
	for _, c := range []struct {
		a, b string
		ok   bool
		says string // "" with ok: no caution at all
	}{
		{"hose 1/2 in", "barb 1/2 in", true, ""},
		{"hose 16 mm", "barb 16 mm", true, ""},
		{"hose 5/8 in", "barb 16 mm", true, "tight but it works in practice"},
		{"hose 16 mm", "barb 5/8 in", true, "loose but it works in practice"},
		{"hose 12 mm", "barb 1/2 in", true, "very tight"},
		{"hose 13 mm", "barb 1/2 in", true, "loose"},
		{"hose 1/2 in", "barb 12 mm", false, "too wide"},
		{"hose 1/2 in", "barb 5/8 in", false, "reducing barb 5/8 in to 1/2 in"},
		{"hose 3/4 in", "barb 5/8 in", false, "too wide"},
		{"irrigation tube 1/2 in", "barb 1/2 in", false, "0.60 in"},
		{"irrigation tube 16 mm", "barb 16 mm", false, "outside of irrigation tube"},
		{"irrigation tube 16 mm", "irrigation barb 16 mm", true, ""},
		{"irrigation tube 1/2 in", "irrigation barb 16 mm", false, "own size"},
		{"hose 1/2 in", "irrigation barb 1/2 in", false, "not for vinyl hose"},
		{"PEX tube 1/2 in", "PEX barb 1/2 in", true, "ring"},
		{"PEX tube 1/2 in", "barb 1/2 in", false, "PEX"},
		{"hose 1/2 in", "PEX barb 1/2 in", false, "PEX"},
		{"spigot 25 mm", "socket 25 mm", true, ""},
		{"spigot 3/4 in", "socket 3/4 in", true, ""},
		{"spigot 25 mm", "socket 3/4 in", false, "never mate"},
		{"spigot 1/2 in", "socket 20 mm", false, "never mate"},
		{"spigot 1 in", "socket 3/4 in", false, "reducing bush 1 in to 3/4 in"},
		{"spigot 1/2 in", "thread NPT 1/2 female", false, "slip is not thread"},
		{"socket 1/2 in", "thread NPT 1/2 male", false, "slip is not thread"},
		{"thread NPT 1/2 male", "thread NPT 1/2 female", true, ""},
		{"thread NPT 1/2 male", "thread NPT 3/4 female", false, "reducing bush 3/4 to 1/2"},
		{"thread NPT 1/2 male", "thread R 1/2 female", false, "starts, then leaks"},
		{"thread R 3/4 male", "thread NPT 3/4 female", false, "14 threads"},
		{"thread NPT 3/8 male", "thread G 3/8 female", false, "18 and 19"},
		{"thread NPT 1 male", "thread G 1 female", false, "11.5 and 11"},
		{"thread G 1/2 male", "thread G 1/2 female", true, "washer"},
		{"thread R 1/2 male", "thread R 1/2 female", true, ""},
		{"thread R 1/2 male", "thread G 1/2 female", true, "tape"},
		{"thread G 1/2 male", "thread R 1/2 female", false, "does not seal"},
		{"thread BSP 1/2 male", "thread R 1/2 female", true, "taper"},
		{"garden hose thread 3/4 male", "garden hose thread 3/4 female", true, "washer"},
		{"garden hose thread 3/4 male", "thread NPT 3/4 female", false, "crosses and leaks"},
		{"thread G 3/4 male", "garden hose thread 3/4 female", false, "crosses and leaks"},
		{"thread NPT 1/2 male", "thread NPT 1/2 male", false, "both threads are male"},
		{"thread G 1/2 female", "thread G 1/2 female", false, "nipple"},
		{"hose 1/2 in", "thread NPT 1/2 male", false, "hose adapter"},
		{"hose 1/2 in", "hose 1/2 in", false, "join them with a barb"},
		{"barb 1/2 in", "barb 1/2 in", false, "piece of hose"},
		{"spigot 25 mm", "spigot 25 mm", false, "coupling"},
		{"socket 25 mm", "socket 25 mm", false, "piece of pipe"},
		{"barb 1/2 in", "thread NPT 1/2 male", false, "not a pair"},
		{"hose 1/2 in", "socket 1/2 in", false, "rigid pipe"},
		{"hose 16 mm", "spigot 16 mm", true, "clamp"},
		{"hose 1/2 in", "spigot 1/2 in", false, "21.3 mm outside"},
		{"irrigation tube 16 mm", "compression 16 mm", true, ""},
		{"irrigation tube 1/2 in", "compression 16 mm", false, "grips one outside"},
		{"irrigation tube 1/2 in", "PEX compression 1/2 in", false, "grips one outside"},
		{"hose 16 mm", "compression 16 mm", false, "squeezes"},
		{"open", "barb 1/2 in", false, "joins nothing"},
	} {
		a, errA := ParseEnd(c.a)
		b, errB := ParseEnd(c.b)
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		ok, why := Mates(a, b)
		if ok != c.ok || !strings.Contains(why, c.says) || c.ok && c.says == "" && why != "" {
			t.Errorf("Mates(%s, %s) = %v, %q; want %v, %q", a, b, ok, why, c.ok, c.says)
		}
		if ok2, _ := Mates(b, a); ok2 != ok {
			t.Errorf("Mates(%s, %s) depends on the order", a, b)
		}
		if !ok && why == "" {
			t.Errorf("Mates(%s, %s): no reason given", a, b)
		}
	}
}

func FuzzParseEnd(f *testing.F) {
	for _, s := range []string{"barb 1/2 in", "thread G 1/2 male", "garden hose thread 3/4 female", "½\" slip", "PEX tube 1 in", "open", "barb 0.3333 in"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		e, err := ParseEnd(s)
		if err != nil {
			return
		}
		again, err := ParseEnd(e.String())
		if err != nil || again.Form != e.Form || again.System != e.System || again.Size.Text != e.Size.Text {
			t.Errorf("%q reads as %q, which reads as %q (%v)", s, e, again, err)
		}
	})
}
