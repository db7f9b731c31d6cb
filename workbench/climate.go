package workbench

import (
	"fmt"
	"math"
	"net/http"

	"rillwright/internal/wire"
	"rillwright/light"
	"rillwright/sheets"
	"rillwright/study"
)

// climateReply is what a day in the enclosure is like: with its room cold and with it
// warm, everything as is likely, and the light on its faces.
type climateReply struct {
	Seasons []seasonShown `json:"seasons"`
	Light   *painted      `json:"light,omitempty"` // none without a lamp whose light is known
	Taken   []string      `json:"taken"`           // what the file leaves open
}

// seasonShown is a day, by column: temperatures in C, humidity as a share, times in s
// after midnight.
type seasonShown struct {
	Name         string       `json:"name"`
	Time         []float64    `json:"time"`
	Air          []float64    `json:"air"`
	Water        []float64    `json:"water"`
	Room         []float64    `json:"room"`
	Humidity     []float64    `json:"humidity"`
	RoomHumidity []float64    `json:"roomHumidity"`
	Clear        []float64    `json:"clear"` // how far the front is warmer than the dew point, K
	Fogged       []bool       `json:"fogged"`
	Fog          [][2]float64 `json:"fog"` // from when to when the front is fogged
	Lit          [][2]float64 `json:"lit"` // and a lamp on
	Evaporated   float64      `json:"evaporated"`
	Changes      float64      `json:"changes"` // of its air, an hour
}

// painted is a figure all over some faces, in steps that people know, with what it
// shows in words.
type painted struct {
	Title string      `json:"title"`
	Unit  string      `json:"unit"`
	Steps []stepShown `json:"steps"`
	Faces []faceShown `json:"faces"`
	Says  []string    `json:"says"`
	Taken []string    `json:"taken"`
}

// stepShown is a step, dullest first, with its share of the first face.
type stepShown struct {
	Say   string  `json:"say"`
	Share float64 `json:"share"`
}

// faceShown is a face from a corner along two sides, in the scene's place, with the
// step of each of its equal cells, row by row of the first side.
type faceShown struct {
	Name   string `json:"name"`
	Corner point  `json:"corner"`
	U      point  `json:"u"`
	V      point  `json:"v"`
	Across int    `json:"across"`
	Up     int    `json:"up"`
	Step   []int  `json:"step"`
}

// shownMinutes is how far apart the points of a day are that are sent: a screen shows
// no more.
const shownMinutes = 5

// climate follows a day.
func (b *Bench) climate(w http.ResponseWriter, r *http.Request) {
	q, ok := take[textRequest](w, r)
	if !ok {
		return
	}
	rep, ok := b.sound(w, r, q.Name, q.Text)
	if !ok {
		return
	}
	leave, err := enter(r.Context(), b.work)
	if err != nil {
		return // nobody waits for it any more
	}
	defer leave()
	l := study.NewLiving(rep.Enclosure)
	in := l.Inputs(l.Likely())
	out := climateReply{Seasons: []seasonShown{}, Taken: append([]string{}, l.Assumed...)}
	for _, warm := range []bool{false, true} {
		s, err := in.Follow(warm)
		if err != nil {
			refuse(w, http.StatusUnprocessableEntity, "heat and moisture cannot be followed: "+err.Error(), "look at the sizes of the enclosure, at watts and at what is open")
			return
		}
		out.Seasons = append(out.Seasons, seasonOf(&in, &s, warm))
	}
	lit, err := study.Shine(rep.Enclosure)
	if err != nil {
		refuse(w, http.StatusUnprocessableEntity, "the light cannot be computed: "+err.Error(), "look at the lamps under lights")
		return
	}
	if !lit.Dark {
		out.Light = lightOf(lit)
	}
	reply(w, out)
}

func seasonOf(in *study.Inputs, s *study.Season, warm bool) seasonShown {
	out := seasonShown{Name: "room cold", Fog: [][2]float64{}, Lit: [][2]float64{}, Evaporated: wire.Round(s.Evaporated), Changes: wire.Round(s.Changes)}
	if warm {
		out.Name = "room warm"
	}
	all := in.Points(warm, s.Course, 1)
	for i := range all {
		p := &all[i]
		if i < len(all)-1 {
			out.Fog, out.Lit = during(out.Fog, p.Fogged, p.Time), during(out.Lit, p.Lit, p.Time)
		}
		if i%shownMinutes != 0 {
			continue
		}
		for _, c := range []struct {
			to *[]float64
			v  float64
		}{
			{&out.Time, p.Time},
			{&out.Air, p.Air},
			{&out.Water, p.Water},
			{&out.Room, p.Room},
			{&out.Humidity, p.Humidity},
			{&out.RoomHumidity, p.RoomHumidity},
			{&out.Clear, p.Clear},
		} {
			*c.to = append(*c.to, wire.Round(c.v))
		}
		out.Fogged = append(out.Fogged, p.Fogged)
	}
	return out
}

// during adds a minute to the times at which something is so.
func during(spans [][2]float64, so bool, minute float64) [][2]float64 {
	switch n := len(spans); {
	case !so:
	case n > 0 && spans[n-1][1] == minute:
		spans[n-1][1] += 60
	default:
		spans = append(spans, [2]float64{minute, minute + 60})
	}
	return spans
}

func lightOf(l *study.Lighting) *painted {
	steps := sheets.LightSteps()
	p := &painted{Title: "a day's light", Unit: "mol/m2", Steps: make([]stepShown, len(steps)), Taken: append([]string{}, l.Assumed...)}
	for i := range steps {
		p.Steps[i].Say = steps[i].Say
	}
	add := func(f *study.Lit) {
		p.Faces = append(p.Faces, faceOf(f.Name, &f.Grid, f.DLI, func(v float64) int {
			k := 0
			for k < len(steps)-1 && v >= steps[k].To {
				k++
			}
			return k
		}))
	}
	add(&l.Wall)
	for i := range l.Faces {
		f := &l.Faces[i]
		if f.Name == "water" {
			add(f)
		}
		p.Says = append(p.Says, fmt.Sprintf("%s %.1f", f.Name, f.Mean))
	}
	for _, k := range p.Faces[0].Step {
		p.Steps[k].Share += 1 / float64(len(p.Faces[0].Step))
	}
	for i := range p.Steps {
		p.Steps[i].Share = math.Round(100*p.Steps[i].Share) / 100
	}
	p.Says = append([]string{fmt.Sprintf("mean of the wall %.1f (%.1f to %.1f)", l.Wall.Mean, l.Wall.Mean*l.Share.Low, l.Wall.Mean*l.Share.High)}, p.Says...)
	return p
}

func faceOf(name string, g *light.Grid, values []float64, step func(float64) int) faceShown {
	f := faceShown{Name: name, Corner: at3(g.Quad.Corner), U: at3(g.Quad.U), V: at3(g.Quad.V), Across: g.NU, Up: g.NV, Step: make([]int, len(values))}
	for i, v := range values {
		f.Step[i] = step(v)
	}
	return f
}
