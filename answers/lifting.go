package answers

import (
	"fmt"

	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/study"
)

// lifting tells which steps take how many people, at the cautious side.
func (h *heavy) lifting() {
	bare := h.of(study.Bare, within)
	name, pane := h.heaviest()
	panes := people(pane)
	if pane > paneAlone && panes == people(paneAlone) {
		panes = "two people, since it is held by its edges"
	}
	h.step("to lift: the heaviest pane, "+name, pane, panes)
	h.step("to lift: the empty enclosure", bare.high, people(bare.high))
	if stand := h.of(study.Bare, kinds(study.StandLoad)); stand.high > 0 {
		h.step("to lift: the stand", stand.high, people(stand.high))
	}
	if on, wet := h.panel(); wet > 0 {
		h.step("to lift: "+on+", wet, with its wood", wet, people(wet))
	}
	sump := h.of(study.Running, kinds(study.SumpLoad, study.SumpWaterLoad))
	f := figure("the sump with its water", quantity.Exactly(quantity.Mass(sump.high)), h.sys)
	f.Text += ": drain it before it is moved"
	h.a.Figures = append(h.a.Figures, f)
	if structure.PeopleToLift(bare.high, 1) == 0 {
		h.a.Say += fmt.Sprintf(" Empty it weighs %s at most, %s: build it where it will stand.", h.kg(bare.high), people(bare.high))
	} else {
		h.a.Say += fmt.Sprintf(" Empty it weighs %s at most and takes %s to lift.", h.kg(bare.high), people(bare.high))
	}
	if structure.PeopleToLift(pane, 1) == 0 {
		h.a.Say += fmt.Sprintf(" Its heaviest pane, the %s, is %s.", name, panes)
	} else {
		h.a.Say += fmt.Sprintf(" Its heaviest pane, the %s, takes %s.", name, panes)
	}
	h.a.Cautions = append(h.a.Cautions, "How many people it takes is read from guidance to British regulations, at its cautious end: held close, at waist height, now and then. Wet, sharp or held away it takes more.")
}

func (h *heavy) step(name string, mass float64, who string) {
	f := figure(name, quantity.Exactly(quantity.Mass(mass)), h.sys)
	f.Text += " at most: " + who
	h.a.Figures = append(h.a.Figures, f)
}

// heaviest is the heaviest pane, its glass thick.
func (h *heavy) heaviest() (name string, mass float64) {
	loads := h.w.At(study.Bare, h.of(study.Bare, within).sides(1))
	for i := range loads {
		if l := &loads[i]; l.Kind == study.PaneLoad && l.Each > mass {
			name, mass = l.Name, l.Each
		}
	}
	return name, mass
}

// panel is the grid panel that is heaviest with what hangs on it.
func (h *heavy) panel() (name string, mass float64) {
	loads := h.w.At(study.Drained, h.of(study.Drained, within).sides(1))
	for i := range loads {
		on := loads[i].On
		if on == "" {
			continue
		}
		if m := sum(loads, func(l *study.Load) bool { return l.On == on }); m > mass {
			name, mass = on, m
		}
	}
	return name, mass
}

// paneAlone is the pane that one person may carry, kg: half of what else one may,
// assumed, no source.
const paneAlone = 8

// people says how many it takes to lift a mass, kg, by the cautious end of what
// people may lift.
func people(mass float64) string {
	if n := structure.PeopleToLift(mass, -1); n > 0 {
		return [...]string{"one person", "two people", "three people"}[n-1]
	}
	if structure.PeopleToLift(mass, 1) > 0 {
		return "three people, and strong ones"
	}
	return "more than three people should lift by hand"
}
