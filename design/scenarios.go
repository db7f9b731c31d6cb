package design

import (
	"fmt"
	"slices"
	"strings"
)

// event says what a step of a scenario needs and takes. Which names one of the
// kinds or fixed names; without any, the step takes no "which".
type event struct {
	kinds, fixed []string
	needs, takes []string // keys besides which
}

// events returns what each word of a step's "what" needs and takes.
func events() map[string]event {
	water := event{kinds: []string{aChamber}, fixed: []string{poolName, sumpName}, takes: []string{"volume", "flow", "over"}}
	pump, drain := []string{aPump}, []string{aDrain}
	return map[string]event{
		"power off":      {},
		"power on":       {},
		"pump stops":     {kinds: pump},
		"pump starts":    {kinds: pump},
		"drain blocks":   {kinds: drain, takes: []string{"share", "over"}},
		"drain clears":   {kinds: drain, takes: []string{"over"}},
		"standpipe out":  {kinds: drain},
		"hose off":       {kinds: []string{aRun}, takes: []string{"height"}},
		"valve opens":    {kinds: []string{aRun}, takes: []string{"share", "over"}},
		"strainer clogs": {kinds: []string{aPump, aDrain}, takes: []string{"share", "over"}},
		"top-up sticks":  {takes: []string{"share"}},
		"leak starts":    {fixed: []string{poolName, sumpName}, needs: []string{"size", "height"}},
		"water added":    water,
		"water taken":    water,
	}
}

// scenarios checks every course of events.
func (c *checker) scenarios() {
	events := events()
	for i := range c.d.Scenarios {
		s := &c.d.Scenarios[i]
		path := entry("scenarios", s.Name, i)
		last := -1
		for j := range s.Steps {
			st := &s.Steps[j]
			at := fmt.Sprintf("%s.steps[%d]", path, j+1)
			if reads(c, st.At) {
				if reads(c, s.Lasts) && st.At.Value > s.Lasts.Value {
					c.report(st.At.Pos, at+".at", fmt.Sprintf("this happens at %s, and the scenario lasts %s", st.At.Text, s.Lasts.Text), "let the scenario last longer, or the step come sooner")
				}
				if last >= 0 && st.At.Value < s.Steps[last].At.Value {
					before := &s.Steps[last]
					c.report(st.At.Pos, at+".at", fmt.Sprintf("this happens at %s, before the step on line %d at %s", st.At.Text, before.At.Pos.Line, before.At.Text), "write the steps in the order of time; every \"at\" counts from the beginning of the scenario")
				} else {
					last = j
				}
			}
			if ev, ok := events[st.What.Value]; ok && reads(c, st.What) {
				c.step(st, at, ev)
			}
		}
	}
}

// keys returns a step's keys that not every step has, besides which.
func (st *Step) keys() []stepKey {
	return []stepKey{
		{"share", "how much of it", st.Share.Given(), st.Share.Pos},
		{"over", "how long it takes", st.Over.Given(), st.Over.Pos},
		{"size", "the diameter of the hole", st.Size.Given(), st.Size.Pos},
		{"height", "how high the hole is above the floor of the water it lets out", st.Height.Given(), st.Height.Pos},
		{"volume", "how much water", st.Volume.Given(), st.Volume.Pos},
		{"flow", "at what rate", st.Flow.Given(), st.Flow.Pos},
	}
}

type stepKey struct {
	key, means string
	given      bool
	at         Pos
}

// step checks that a step has what its word needs and nothing that would mean
// nothing.
func (c *checker) step(st *Step, path string, ev event) {
	word := st.What.Value
	takesWhich := len(ev.kinds)+len(ev.fixed) > 0
	var takes []string
	if takesWhich {
		takes = append(takes, "which")
	}
	takes = append(append(takes, ev.needs...), ev.takes...)
	only := fmt.Sprintf("leave it out: %q takes nothing else", word)
	if len(takes) > 0 {
		only = fmt.Sprintf("leave it out: %q takes %s", word, join(takes))
	}
	kind, ok := "", false
	switch {
	case !takesWhich && st.Which.Given():
		c.report(st.Which.Pos, path+".which", fmt.Sprintf("%q does not happen to one part: what is %q to tell?", word, st.Which.Text), only)
	case takesWhich && lacks(c, st.Which, path+".which"):
		c.report(st.What.Pos, path+".which", fmt.Sprintf("%q, and it is not said of what", word), `write "which:" and name `+either(slices.Concat(articles(ev.kinds), ev.fixed)))
	case takesWhich:
		kind, ok = c.refer(st.Which, path+".which", ev.kinds, ev.fixed...)
	}
	for _, k := range st.keys() {
		switch {
		case k.given && !slices.Contains(takes, k.key):
			c.report(k.at, path+"."+k.key, fmt.Sprintf("%q with %q: what is it to tell?", k.key, word), only)
		case !k.given && slices.Contains(ev.needs, k.key) && !slices.Contains(c.broken, path+"."+k.key):
			c.report(st.What.Pos, path+"."+k.key, fmt.Sprintf("%q, and %q is not given", word, k.key), fmt.Sprintf("write \"%s:\" and %s", k.key, k.means))
		}
	}
	if ok {
		c.befalls(st, path, kind)
	}
	switch word {
	case "top-up sticks":
		if !c.d.TopUp.Given() && !slices.Contains(c.broken, "top-up") {
			c.report(st.What.Pos, path+".what", "this design has no top-up that could stick", `write "top-up:" with its flow and level, or leave the step out`)
		}
	case "water added", "water taken":
		c.amount(st, path, kind, ok)
	}
}

// befalls checks that what a step names can suffer what the step says. Kind is
// as refer tells it.
func (c *checker) befalls(st *Step, path, kind string) {
	name := st.Which.Value
	switch st.What.Value {
	case "standpipe out":
		i := slices.IndexFunc(c.d.Drains, func(d Drain) bool { return d.Name.Value == name })
		if d := &c.d.Drains[i]; reads(c, d.Kind) && d.Kind.Value != "standpipe" {
			c.report(st.Which.Pos, path+".which", fmt.Sprintf("%q is a %s and has no standpipe to pull out", name, d.Kind.Value), "name a drain with a standpipe, or another event")
		}
	case "strainer clogs":
		if s, at := c.strainerOf(name, kind); s != nil && !s.Given() && !slices.Contains(c.broken, at) {
			do := `write "strainer:" for it, or name a pump or drain that has one`
			if kind == aDrain {
				do += `; "drain blocks" needs no strainer`
			}
			c.report(st.Which.Pos, path+".which", fmt.Sprintf("%q has no strainer that could clog", name), do)
		}
	case "hose off":
		c.hoseOff(st, path)
	case "leak starts":
		if rim, rimName, ok := c.rim(kind); ok && reads(c, st.Height) && st.Height.Value >= rim {
			c.report(st.Height.Pos, path+".height", fmt.Sprintf("a leak at %s is not below %s: no water stands there", st.Height.Text, rimName), "measure it from the floor of the water that leaks")
		}
		if reads(c, st.Height) && st.Height.Value < 0 {
			c.report(st.Height.Pos, path+".height", "a leak below the floor of the water that leaks", "measure it from that floor upwards")
		}
	}
}

// hoseOff checks that a hose that comes off is one with the pump's water in it,
// and that its joint is within reach.
func (c *checker) hoseOff(st *Step, path string) {
	i := slices.IndexFunc(c.d.Runs, func(r Run) bool { return r.Name.Value == st.Which.Value })
	if i < 0 {
		return
	}
	r := &c.d.Runs[i]
	// A run that begins nowhere, or is joined by a misspelt name, has been told of.
	from := []string{aPump, aTee, aManifold, aDrain}
	if !c.partial && len(c.lost) == 0 && slices.Contains(from, c.things[r.From.Value].kind) && !c.supplied(r.From.Value) {
		c.report(st.Which.Pos, path+".which", fmt.Sprintf("%q is not on the supply side: no pump presses water into it", r.Name.Value), `name a run that a pump feeds; for a drain, "drain blocks" or "leak starts"`)
	}
	c.within(st.Height, path+".height", r.Crest, entry("runs", r.Name, i)+".crest", "measure both from the enclosure's inside bottom")
	e, s := &c.d.Enclosure, &c.d.Sump
	if reads(c, st.Height) && reads(c, e.Bottom) && reads(c, s.Bottom) && e.Bottom.Value+st.Height.Value < min(0, s.Bottom.Value) {
		c.report(st.Height.Pos, path+".height", fmt.Sprintf("the joint would be %s below the room floor", metres(-float64(e.Bottom.Value+st.Height.Value))), "measure it from the enclosure's inside bottom, less than 0 if it is lower")
	}
}

// supplied reports whether a pump's water comes to a pump, tee or manifold.
func (c *checker) supplied(name string) bool {
	wet := map[string]bool{}
	for i := range c.d.Pumps {
		wet[c.d.Pumps[i].Name.Value] = true
	}
	for range c.d.Runs { // each round wets at least one thing more, or is the last
		for i := range c.d.Runs {
			if r := &c.d.Runs[i]; wet[r.From.Value] {
				wet[r.To.Value] = true
			}
		}
	}
	return wet[name]
}

// amount checks how much water is added or taken.
func (c *checker) amount(st *Step, path, kind string, ok bool) {
	word := st.What.Value
	switch v, f := st.Volume.Given(), st.Flow.Given(); {
	case v && f:
		c.report(st.Flow.Pos, path+".flow", fmt.Sprintf("%q by volume and by flow", word), `keep one: "volume:" with the time it takes as "over:", or "flow:" with "over:" if it ends`)
	case !v && !f && lacks(c, st.Volume, path+".volume") && lacks(c, st.Flow, path+".flow"):
		c.report(st.What.Pos, path+".volume", fmt.Sprintf("%q, and it is not said how much", word), `write "volume:", or "flow:" for water that goes on running`)
	}
	if word != "water taken" || !ok || !reads(c, st.Volume) {
		return
	}
	if most, ok := c.most(kind, st.Which.Value); ok && st.Volume.Value > most*(1+1e-9) {
		c.report(st.Volume.Pos, path+".volume", fmt.Sprintf("%s is more than %q holds to its rim: %.1f L", st.Volume.Text, st.Which.Value, float64(most)*1000), "take less out")
	}
}

// most returns the volume of the box of a water, to its rim.
func (c *checker) most(kind, name string) (volume, bool) {
	p, s := &c.d.Pool, &c.d.Sump.Inside
	if kind == poolName {
		rim, _, ok := c.brim()
		return volume(p.Width.Value * p.Depth.Value * rim), ok && reads(c, p.Width) && reads(c, p.Depth)
	}
	long := s.Width
	for i := range c.d.Sump.Chambers {
		if ch := &c.d.Sump.Chambers[i]; ch.Name.Value == name {
			long = ch.Length
		}
	}
	return volume(long.Value * s.Depth.Value * s.Height.Value), reads(c, long) && reads(c, s.Depth) && reads(c, s.Height)
}

// strainerOf returns the strainer of a pump or drain, and its path.
func (c *checker) strainerOf(name, kind string) (s *Strainer, path string) {
	if kind == aDrain {
		for i := range c.d.Drains {
			if d := &c.d.Drains[i]; d.Name.Value == name {
				return &d.Strainer, entry("drains", d.Name, i) + ".strainer"
			}
		}
		return nil, ""
	}
	for i := range c.d.Pumps {
		if p := &c.d.Pumps[i]; p.Name.Value == name {
			return &p.Strainer, entry("pumps", p.Name, i) + ".strainer"
		}
	}
	return nil, ""
}

// join writes a list as "a, b and c".
func join(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return words[0]
}
