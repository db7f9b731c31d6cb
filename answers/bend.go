package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/catalogue"
	"rillwright/quantity"
)

// What a soft hose whose maker gives no least radius bends to without a kink, over
// its outside: assumed, no source; walls and warmth decide.
const (
	softLow  = 4.0
	softHigh = 8.0
)

// hoseBend is one length of hose and how tightly it is bent.
type hoseBend struct {
	run       string
	name      string
	rule      string
	given     bool
	soft      bool // its least radius is not known
	radius    float64
	low, most float64 // its least radius, m: at best and at worst
	line      int
}

// Bend answers whether a hose kinks; ok is false if no run has a hose long enough
// to be bent.
func (s *Survey) Bend() (a Answer, ok bool) {
	sys := s.E.Units
	a = Answer{ID: "bend", Question: "Does any hose kink in its bends?", Figures: []Figure{}}
	list := s.bends()
	if len(list) == 0 {
		return a, false
	}
	length := func(v float64) string { return quantity.Length(v).Show(sys) }
	a.Limit = Limit{Text: "the least radius of each hose, to its middle line", Source: "practice", Mark: "of a soft hose 4 to 8 times its outside; assumed, no source"}
	a.Score = math.Inf(1)
	var missing []string
	for i := range list {
		b := &list[i]
		need := length(b.most)
		if b.soft {
			need = length(b.low) + " to " + length(b.most)
		}
		f := Figure{Name: fmt.Sprintf("%s of the %s (line %d), wants %s", b.name, b.run, b.line, need)}
		if !b.given {
			f.Text, f.Words = "not measured", true
			missing = append(missing, fmt.Sprintf("%s of the %s (line %d)", b.name, b.run, b.line))
			a.Figures = append(a.Figures, f)
			continue
		}
		f = over(figure(f.Name, quantity.Exactly(quantity.Length(b.radius)), sys), quantity.Length(b.most))
		a.Figures = append(a.Figures, f)
		if q := b.radius / b.most; q < a.Score {
			a.Score, a.Limiting, a.LimitingLine = q, b.name+" in the "+b.run, b.line
			a.Margin = beyond(b.radius, b.most, "than it wants")
		}
		switch {
		case b.radius < b.low && !b.soft:
			a.raise(Fails, fmt.Sprintf("The %s is bent to %s (line %d), and it wants %s (%s): it kinks.", b.name, length(b.radius), b.line, length(b.most), b.rule), b.line)
		case b.radius < b.low:
			a.raise(Fails, fmt.Sprintf("The %s is bent to %s (line %d), less than 4 times its outside: it kinks, the sooner when warm. Lead it wider, or take an elbow.", b.name, length(b.radius), b.line), b.line)
		case b.radius < b.most:
			a.raise(Tight, fmt.Sprintf("The %s is bent to %s (line %d): bend a sample, warm, before it is tied.", b.name, length(b.radius), b.line), b.line)
		}
	}
	if len(missing) > 0 {
		a.raise(Unknown, `Measure the tightest bend, to the hose's middle line, and write it as "bend": `+strings.Join(missing, ", ")+".", 0)
	}
	a.sayWorst("No: every bend is wider than its hose wants.", "Perhaps.", "Yes.")
	s.bendMatter(&a, list)
	return a, true
}

// bends lists every length of hose that is long enough for a quarter turn at its
// least radius; a shorter one is taken as straight.
func (s *Survey) bends() []hoseBend {
	var out []hoseBend
	add := func(run string, p *catalogue.Part, given bool, radius, long float64, line int) {
		if p.Kind != catalogue.KindHose && p.Kind != catalogue.KindTube {
			return
		}
		b := hoseBend{run: run, name: p.Name, rule: p.BendRule, given: given, radius: radius, line: line}
		switch {
		case p.MinBend > 0:
			b.low, b.most = float64(p.MinBend), float64(p.MinBend)
		case p.Outside > 0:
			b.soft = true
			b.low, b.most = softLow*float64(p.Outside), softHigh*float64(p.Outside)
		default:
			return
		}
		if given || long >= b.low*math.Pi/2 {
			out = append(out, b)
		}
	}
	d := s.E.Design
	for i := range s.E.Runs {
		u := &s.E.Runs[i]
		for k := range u.Pieces {
			if i >= len(d.Runs) || k >= len(d.Runs[i].Pieces) {
				continue
			}
			f := d.Runs[i].Pieces[k].Bend
			add(u.Name, &u.Pieces[k].Part, f.Given(), float64(f.Value), u.Pieces[k].Length, u.Pieces[k].Pos.Line)
		}
	}
	for i := range s.E.Drains {
		u := &s.E.Drains[i]
		for k := range u.Pieces {
			if i >= len(d.Drains) || k >= len(d.Drains[i].Pieces) {
				continue
			}
			f := d.Drains[i].Pieces[k].Bend
			add(u.Name, &u.Pieces[k].Part, f.Given(), float64(f.Value), u.Pieces[k].Length, u.Pieces[k].Pos.Line)
		}
	}
	return out
}

// bendMatter tells what the least radius of a soft hose decides.
func (s *Survey) bendMatter(a *Answer, list []hoseBend) {
	low, high := math.Inf(1), math.Inf(1)
	line := 0
	for i := range list {
		b := &list[i]
		if !b.soft || !b.given {
			continue
		}
		if q := b.radius / b.most; q < low {
			low, high, line = q, b.radius/b.low, b.line
		}
	}
	if math.IsInf(low, 1) {
		return
	}
	share := func(v float64) string { return fmt.Sprintf("%.1f times", v) }
	a.Matters = append(a.Matters, Matter{
		What: "least radius of a soft hose", Range: "4 to 8 times its outside", Effect: fmt.Sprintf("the bend is %s what it wants", fromTo(share(low), share(high))),
		Swing: (high - low) / high, Why: "assumed, no source", Settle: "bend a sample of it, warm, and measure where it kinks", Line: line,
	})
}
