package answers

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/study"
)

// LivingOptions steer Living. The zero value looks for fixes, at everything anew.
type LivingOptions struct {
	NoFixes bool
	// Like, if given, is what nearly the same enclosure came to. Its answers are taken
	// over where nothing that they depend on differs; elsewhere, without fixes, which
	// end of a doubt is the worse and which doubt matters is taken from it.
	Like *LivingReport
	// Stop, if given, is asked before each change is tried; an error of it ends that,
	// and Living returns it.
	Stop func() error
}

// LivingReport is whether what is planted can live in an enclosure.
type LivingReport struct {
	Answers []Answer // worst first
	// Likely are the days with the room cold and warm, everything as is likely, and
	// Inputs what they were followed with.
	Likely [2]study.Season
	Inputs study.Inputs
	Light  *study.Lighting // nil if it cannot be computed

	air       *air
	airs      []Answer
	light     Answer
	airKey    string
	lightKey  string
	withFixes bool
}

// Living answers whether what is planted can live in it: warmth, humidity, fogged
// glass, evaporation, what is dissolved, and light. Fixes are computed again, each
// with all of these answers; those about the water are not asked again. The error is
// of a balance that was not found, or of Stop.
func Living(e *enclosure.Enclosure, o LivingOptions) (*LivingReport, error) {
	l := newLiving(e)
	out := &LivingReport{airKey: l.key(), lightKey: study.LightKey(e), withFixes: !o.NoFixes}
	like := o.Like
	if like == nil {
		like = &LivingReport{}
	}
	if same := like.lightKey == out.lightKey; same && like.airKey == out.airKey && (o.NoFixes || like.withFixes) {
		// Fixes of the one are held against the other, so that both are the same.
		out.air, out.airs, out.light, out.Light, out.withFixes = like.air, like.airs, like.light, like.Light, like.withFixes
	} else {
		if same && o.NoFixes {
			out.light, out.Light = like.light, like.Light
		} else {
			out.light, out.Light = lightAnswer(e)
		}
		var known *air
		if o.NoFixes {
			known = like.air
		}
		base, err := l.over(known)
		if err != nil {
			return nil, err
		}
		out.air, out.airs = base, base.all()
		if !o.NoFixes {
			l.lit = out.Light
			if err := l.fixes(base, out.airs, &out.light, out.lightKey, o.Stop); err != nil {
				return nil, err
			}
		}
	}
	out.Likely, out.Inputs = [2]study.Season{*out.air.likely[roomCold], *out.air.likely[roomWarm]}, l.l.Inputs(l.l.Likely())
	out.Answers = append(slices.Clone(out.airs), out.light)
	Sort(out.Answers)
	return out, nil
}

// Took reports whether all was taken over from another report.
func (r *LivingReport) Took(other *LivingReport) bool { return other != nil && r.air == other.air }

// NoDays is the answer where the days of an enclosure cannot be followed.
func NoDays(err error) []Answer {
	return []Answer{{
		ID: "heat", Question: "How warm and how cold does it get inside?", Verdict: Unknown,
		Say: "Warmth, humidity and fog cannot be computed: " + err.Error() + ". Look at the sizes of the enclosure, at watts and at what is open.",
	}}
}

// The seasons, by index.
const (
	roomCold = iota
	roomWarm
)

// seasons is a day with the room cold and one with it warm; a measure is given those that
// it asks for.
type seasons [2]*study.Season

// airMeasure reads a figure out of both.
type airMeasure struct {
	id  string
	ask [2]bool // for the seasons
	of  func(*seasons) float64
	// held is a figure of steady states that a doubt raises where it raises this one.
	held func(*holds) float64
}

// holds are steady states, with the room cold and warm.
type holds [2]study.Held

// The figures that verdicts turn on.
func airMeasures() []airMeasure {
	warm, cold, both := [2]bool{false, true}, [2]bool{true, false}, [2]bool{true, true}
	return []airMeasure{
		{"air-high", warm, func(t *seasons) float64 { return t[roomWarm].AirHigh }, func(h *holds) float64 { return h[roomWarm].Air }},
		{"water-high", warm, func(t *seasons) float64 { return t[roomWarm].WaterHigh }, func(h *holds) float64 { return h[roomWarm].Water }},
		{"air-low", cold, func(t *seasons) float64 { return t[roomCold].AirLow }, func(h *holds) float64 { return h[roomCold].Air }},
		{
			"humidity", both, func(t *seasons) float64 { return math.Min(t[roomCold].Humidity, t[roomWarm].Humidity) },
			func(h *holds) float64 { return math.Min(h[roomCold].Humidity, h[roomWarm].Humidity) },
		},
		{"fog", cold, func(t *seasons) float64 { return t[roomCold].Fogged }, func(h *holds) float64 { return -h[roomCold].Clear }},
		{
			"make-up", both, func(t *seasons) float64 { return math.Max(t[roomCold].MakeUp, t[roomWarm].MakeUp) },
			func(h *holds) float64 { return math.Max(h[roomCold].MakeUp, h[roomWarm].MakeUp) },
		},
	}
}

func airMeasureOf(id string) airMeasure {
	list := airMeasures()
	return list[slices.IndexFunc(list, func(m airMeasure) bool { return m.id == id })]
}

// bores are the holes of the outlets, m, with how many there are of each.
func (l *living) bores() [][2]float64 {
	var out [][2]float64
	for i := range l.e.Manifolds {
		for k := range l.e.Manifolds[i].Groups {
			if g := &l.e.Manifolds[i].Groups[k]; g.Hole.Value > 0 {
				out = append(out, [2]float64{g.Hole.Value, float64(g.Count)})
			}
		}
	}
	return out
}

// living is what the answers share.
type living struct {
	e   *enclosure.Enclosure
	sys quantity.System
	l   *study.Living
	lit *study.Lighting // nil where it is not known or of no matter
}

func newLiving(e *enclosure.Enclosure) *living {
	return &living{e: e, sys: e.Units, l: study.NewLiving(e)}
}

// key is the same for two enclosures whose answers and fixes are the same.
func (l *living) key() string {
	e, d := l.e, l.e.Design
	return fmt.Sprintf("%s|%v|%+v|%v|%v|%+v", l.l.Key(), e.Units, e.Sump, l.reserve(), d.TopUp.Pos.Line,
		[]any{d.Place.Air, d.Assume.Evaporation, d.Water, d.Lights, d.Fan, d.Heater, d.Misting, d.Vents, d.Enclosure.Panes, l.bores()})
}

func (a *air) all() []Answer {
	return []Answer{a.heat(), a.humidity(), a.fog(), a.evaporation(), a.minerals()}
}

// taken says what the file leaves open.
func (l *living) taken() string {
	return "Taken, since the file does not say it: " + strings.Join(l.l.Assumed, "; ") + "."
}

func asBand[T ~float64](b quantity.Band[float64]) quantity.Band[T] {
	return quantity.Band[T]{Low: T(b.Low), Likely: T(b.Likely), High: T(b.High)}
}
