package workbench

import (
	"errors"
	"fmt"
	"net/http"

	"rillwright"
	"rillwright/faults"
	"rillwright/internal/wire"
)

// faultRow is one thing that may go wrong, to choose from.
type faultRow struct {
	ID       string `json:"id"`
	Question string `json:"question"`
}

// faultsReply lists them.
type faultsReply struct {
	Faults []faultRow `json:"faults"`
}

// textRequest asks for something about a text. Name says beside which files it stands.
type textRequest struct {
	Name string `json:"name"`
	Text string `json:"text"`
}

// courseRequest asks for the course of one of them, with the figures as likely.
type courseRequest struct {
	Name string `json:"name"`
	Text string `json:"text"`
	ID   string `json:"id"`
}

// courseReply is the course, with levels in m above the room floor at each time.
type courseReply struct {
	Course wire.Course `json:"course"`
	Levels []levels    `json:"levels"`
}

type levels struct {
	Name  string    `json:"name"`
	Level []float64 `json:"level"`
}

// errFile says that the text has to be mended first; the page knows how from its
// findings.
var errFile = errors.New("the design has mistakes in it")

// sound computes a text without looking for fixes, or says why it cannot be.
func (b *Bench) sound(w http.ResponseWriter, r *http.Request, name, text string) (*rillwright.Report, bool) {
	rep, err := b.build(r.Context(), name, text, rillwright.Options{NoFixes: true})
	if err == nil && rep.Findings.HasErrors() {
		err = errFile
	}
	if err != nil {
		refuse(w, http.StatusUnprocessableEntity, err.Error(), "mend the design first")
	}
	return rep, err == nil
}

// faults lists what may go wrong in a design.
func (b *Bench) faults(w http.ResponseWriter, r *http.Request) {
	q, ok := take[courseRequest](w, r)
	if !ok {
		return
	}
	rep, ok := b.sound(w, r, q.Name, q.Text)
	if !ok {
		return
	}
	list := faults.Usual(rep.Enclosure)
	out := faultsReply{Faults: []faultRow{}}
	for i := range list {
		out.Faults = append(out.Faults, faultRow{list[i].ID, list[i].Question})
	}
	reply(w, out)
}

// course follows one fault through time.
func (b *Bench) course(w http.ResponseWriter, r *http.Request) {
	q, ok := take[courseRequest](w, r)
	if !ok {
		return
	}
	rep, ok := b.sound(w, r, q.Name, q.Text)
	if !ok {
		return
	}
	list := faults.Usual(rep.Enclosure)
	for i := range list {
		if f := &list[i]; f.ID == q.ID {
			res, err := follow(rep, f)
			if err != nil {
				refuse(w, http.StatusUnprocessableEntity, err.Error(), "look at how the runs join pumps, tees and manifolds, and at valves that are shut")
				return
			}
			reply(w, courseOf(f, res))
			return
		}
	}
	refuse(w, http.StatusNotFound, fmt.Sprintf("nothing that may go wrong is called %q here", q.ID), "choose from the list")
}

func follow(rep *rillwright.Report, f *faults.Fault) (*faults.Result, error) {
	rig, err := faults.NewRig(rep.Enclosure, rep.Enclosure.Likely())
	if err != nil {
		return nil, err
	}
	o := f.Options
	o.Record = true
	return rig.Run(&f.Scenario, o)
}

// most is how many points of a course are sent: a screen shows no more. Steps are
// dense where something happens, and events are sent one by one besides.
const most = 600

func courseOf(f *faults.Fault, res *faults.Result) courseReply {
	all := wire.OfCourse(f, res)
	pick := thin(len(all.Time), most)
	out := courseReply{Course: all, Levels: []levels{}}
	out.Course.Time = at(all.Time, pick)
	for i := range out.Course.Stores {
		out.Course.Stores[i].Volume = at(out.Course.Stores[i].Volume, pick)
	}
	for i, name := range res.Track.Levels {
		l := levels{Name: name, Level: []float64{}}
		for _, k := range pick {
			l.Level = append(l.Level, wire.Round(res.Track.Level[i][k]))
		}
		out.Levels = append(out.Levels, l)
	}
	return out
}

// thin picks at most so many of n places, first and last among them.
func thin(n, most int) []int {
	out := []int{}
	if n <= most {
		for i := range n {
			out = append(out, i)
		}
		return out
	}
	for i := range most {
		out = append(out, i*(n-1)/(most-1))
	}
	return out
}

func at(v []float64, pick []int) []float64 {
	out := make([]float64, 0, len(pick))
	for _, k := range pick {
		out = append(out, v[k])
	}
	return out
}
