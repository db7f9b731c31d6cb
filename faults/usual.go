package faults

import (
	"fmt"
	"math"
	"strings"

	"rillwright/enclosure"
)

// Kind is the kind of a fault.
type Kind int

// The kinds of faults.
const (
	PowerCut Kind = iota
	Blocked
	AllBlocked
	HalfBlocked
	BlocksSlowly
	Standpipe
	HoseOff
	DayStopped
	ValveOpened
	PumpClogs
	TopUpSticks
	Leaks
	HolesBlocked
	FloatSticks
	Away
	Own // written in the design file
)

// Fault is one thing that may go wrong, as a course of events.
type Fault struct {
	ID       string
	Question string
	Kind     Kind
	Index    int // of the drain, run or pump; -1 for none
	Line     int // where the file gives it
	Scenario enclosure.Scenario
	Options  Options
}

// Sizes that faults are tried with; assumed, no source.
const (
	// Pinhole is the hole that a failing joint is taken to open, m.
	Pinhole = 0.002
	// Leaves is the share of a drain that leaves may cover, with the rest free.
	Leaves = 0.8
)

const (
	minute = 60.0
	hour   = 60 * minute
	day    = 24 * hour
)

// Usual returns the faults that every builder asks about, as far as the
// enclosure can have them, and those written in the design file, in that order.
func Usual(e *enclosure.Enclosure) []Fault {
	u := &usual{e: e}
	u.add("power-cut", "Will it flood if the power goes?", PowerCut, -1, 2*hour,
		enclosure.Step{What: "power off"}, enclosure.Step{At: hour, What: "power on"})
	u.drains()
	u.hoses()
	u.pumps()
	if e.TopUp.Given {
		u.add("top-up", "And if the top-up sticks open?", TopUpSticks, -1, day, enclosure.Step{What: "top-up sticks", Share: 1}).Line = e.TopUp.Pos.Line
	}
	leak := func(id, where string, kind enclosure.PlaceKind, floor float64) {
		// In a sump with chambers, that of the pumps: there it hurts first.
		at := enclosure.Place{Kind: kind, Name: where}
		if kind == enclosure.AtSump {
			at.Index = max(len(e.Sump.Chambers)-1, 0)
		}
		u.add(id, fmt.Sprintf("And if a joint of the %s leaks?", where), Leaks, -1, 2*day, enclosure.Step{
			What: "leak starts", Which: where, Size: Pinhole, Height: floor, Place: at,
		})
	}
	leak("leak[pool]", "pool", enclosure.AtPool, e.Pool.Floor)
	leak("leak[sump]", "sump", enclosure.AtSump, e.Sump.Bottom)
	u.add("away", "How long may I be away?", Away, -1, 365*day).Options = Options{UntilDry: true, NoSplash: true, NoTimers: true}
	for i := range e.Scenarios {
		sc := &e.Scenarios[i]
		u.list = append(u.list, Fault{
			ID: "own[" + sc.Name + "]", Question: "Your own: " + sc.Name + "?", Kind: Own, Index: -1, Line: sc.Pos.Line, Scenario: *sc,
		})
	}
	return u.list
}

type usual struct {
	e    *enclosure.Enclosure
	list []Fault
}

func (u *usual) add(id, question string, kind Kind, index int, lasts float64, steps ...enclosure.Step) *Fault {
	u.list = append(u.list, Fault{
		ID: id, Question: question, Kind: kind, Index: index,
		Scenario: enclosure.Scenario{Name: plain(question), Lasts: lasts, Steps: steps},
		// It may happen while the pump runs, and then it is worst.
		Options: Options{NoTimers: true},
	})
	return &u.list[len(u.list)-1]
}

// plain makes the name of a course of events of the question about it.
func plain(question string) string {
	name := strings.TrimSuffix(question, "?")
	for _, p := range []string{"And if ", "And as ", "Will it flood if "} {
		name = strings.TrimPrefix(name, p)
	}
	if name == "How long may I be away" {
		return "nobody at home"
	}
	return name
}

func (u *usual) drains() {
	e := u.e
	for i := range e.Drains {
		d := &e.Drains[i]
		block := func(share, over float64) enclosure.Step {
			return enclosure.Step{What: "drain blocks", Which: d.Name, Index: i, Share: share, Over: over}
		}
		u.add("blocked["+d.Name+"]", fmt.Sprintf("And if the %s blocks?", d.Name), Blocked, i, 6*hour, block(1, 0)).Line = d.Pos.Line
		u.add("leaves["+d.Name+"]", fmt.Sprintf("And if leaves cover most of the %s?", d.Name), HalfBlocked, i, 6*hour, block(Leaves, 0)).Line = d.Pos.Line
		u.add("slowly["+d.Name+"]", fmt.Sprintf("And if the %s blocks little by little?", d.Name), BlocksSlowly, i, 3*hour, block(1, 2*hour)).Line = d.Pos.Line
		if d.Kind == "standpipe" {
			u.add("standpipe["+d.Name+"]", fmt.Sprintf("And if the standpipe of the %s is knocked out?", d.Name), Standpipe, i, 2*hour,
				enclosure.Step{What: "standpipe out", Which: d.Name, Index: i}).Line = d.Pos.Line
		}
	}
	if len(e.Drains) > 1 {
		var steps []enclosure.Step
		for i := range e.Drains {
			steps = append(steps, enclosure.Step{What: "drain blocks", Which: e.Drains[i].Name, Index: i, Share: 1})
		}
		u.add("blocked", "And if every drain blocks?", AllBlocked, -1, 6*hour, steps...)
	}
}

func (u *usual) hoses() {
	e := u.e
	holes := false
	for i := range e.Runs {
		r := &e.Runs[i]
		holes = holes || r.BreakHole.Size > 0
		if r.From.Kind != enclosure.AtPump && !(r.From.Kind == enclosure.AtTee && r.To.Kind != enclosure.AtSump) || r.To.Kind == enclosure.AtPump || drains(e, i) {
			continue
		}
		if inSump(e, i) {
			continue
		}
		u.add("hose-off["+r.Name+"]", fmt.Sprintf("And if the %s comes off?", r.Name), HoseOff, i, 6*hour,
			enclosure.Step{What: "hose off", Which: r.Name, Index: i, Height: math.NaN()}).Line = r.Pos.Line
	}
	for i := range e.Runs {
		r := &e.Runs[i]
		for k := range r.Pieces {
			if r.Pieces[k].Open < 1 {
				u.add("valve["+r.Name+"]", fmt.Sprintf("And if the valve in the %s is opened fully by mistake?", r.Name), ValveOpened, i, 2*hour,
					enclosure.Step{What: "valve opens", Which: r.Name, Index: i}).Line = r.Pos.Line
				break
			}
		}
	}
	if holes {
		u.add("break-holes", "And if a siphon-break hole is blocked when the power goes?", HolesBlocked, -1, 2*hour,
			enclosure.Step{What: "holes block"}, enclosure.Step{What: "power off"}, enclosure.Step{At: hour, What: "power on"})
	}
}

// drains reports whether a run carries what drains bring.
func drains(e *enclosure.Enclosure, run int) bool {
	from := e.Runs[run].From
	for i := range e.Drains {
		if to := e.Drains[i].To; from.Kind == enclosure.AtTee && to.Kind == enclosure.AtTee && to.Index == from.Index {
			return true
		}
	}
	return false
}

// inSump reports whether all of a run lies within the sump: it goes from a pump
// there to an end below the rim.
func inSump(e *enclosure.Enclosure, run int) bool {
	r := &e.Runs[run]
	return r.From.Kind == enclosure.AtPump && r.To.Kind == enclosure.AtSump && r.EndHeight <= e.Sump.Bottom+e.Sump.Height
}

func (u *usual) pumps() {
	e := u.e
	for i := range e.Pumps {
		p := &e.Pumps[i]
		u.add("stopped["+p.Name+"]", fmt.Sprintf("And if the %s stands still for a day?", p.Name), DayStopped, i, day+hour,
			enclosure.Step{What: "pump stops", Which: p.Name, Index: i}, enclosure.Step{At: day, What: "pump starts", Which: p.Name, Index: i}).Line = p.Pos.Line
		if p.StrainerK > 0 || p.StrainerLoss > 0 {
			f := u.add("clogs["+p.Name+"]", fmt.Sprintf("And as the strainer of the %s clogs?", p.Name), PumpClogs, i, 90*day,
				enclosure.Step{What: "strainer clogs", Which: p.Name, Index: i, Share: 0.98, Over: 90 * day, Place: enclosure.Place{Kind: enclosure.AtPump, Index: i, Name: p.Name}})
			f.Line, f.Options = p.Pos.Line, Options{Tended: true, NoTimers: true}
		}
		if p.Float.Given {
			f := u.add("float["+p.Name+"]", fmt.Sprintf("And if the float of the %s sticks while a drain is blocked?", p.Name), FloatSticks, i, 6*hour,
				enclosure.Step{What: "float sticks", Which: p.Name, Index: i})
			for k := range e.Drains {
				f.Scenario.Steps = append(f.Scenario.Steps, enclosure.Step{What: "drain blocks", Which: e.Drains[k].Name, Index: k, Share: 1})
			}
			f.Line = p.Pos.Line
		}
	}
}
