package answers

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"rillwright/design"
	"rillwright/quantity"
)

// put writes one text into a field of a change; one of ours has a meaning.
func put[T any](f *design.Field[T], text string) {
	_ = f.Read(text, design.Pos{Line: 1, Column: 1, Width: len(text)})
}

// inText is a length as a file has it: whole mm, or sixteenths of an inch.
func (l *living) inText(v float64) string {
	step := 1e-3
	if l.sys == quantity.US {
		step = 0.0254 / 16
	}
	return quantity.Length(math.Round(v/step) * step).Show(l.sys)
}

// ventFixes let more or less air through.
func (l *living) ventFixes() []livingFix {
	d := l.e.Design
	var out []livingFix
	more, less := []string{"heat", "humidity", "fog"}, []string{"humidity", "evaporation"}
	wide, high, foot := l.l.Front()
	taken := map[string]bool{}
	for i := range d.Vents {
		taken[d.Vents[i].Name.Value] = true
	}
	if !taken["low slot"] && !taken["high slot"] {
		for _, gap := range []float64{0.006, 0.02} {
			width, height := l.inText(0.9*wide), l.inText(gap)
			low, top := l.inText(foot+gap), l.inText(high-gap)
			entry := func(name, up string) string {
				return fmt.Sprintf("{ name: %s, width: %s, height: %s, up: %s }", name, width, height, up)
			}
			f := livingFix{Fix: Fix{
				Do:     fmt.Sprintf("Leave a slot of %s under mesh across the front, low over the dam (%s up), and another at the top.", height, low),
				Change: "vents: [" + entry("low slot", low) + ", " + entry("high slot", top) + "]",
				Edits:  []Edit{{Path: "vents", To: entry("low slot", low), Kind: design.EditAppend}, {Path: "vents", To: entry("high slot", top), Kind: design.EditAppend}},
				Cost:   "little, mesh", Weight: 1 + gap,
			}, helps: more, apply: func(d *design.Design) {
				d.Vents = slices.Clone(d.Vents)
				for _, v := range [][2]string{{"low slot", low}, {"high slot", top}} {
					var x design.Vent
					put(&x.Name, v[0])
					put(&x.Width, width)
					put(&x.Height, height)
					put(&x.Up, v[1])
					d.Vents = append(d.Vents, x)
				}
			}}
			out = append(out, f)
		}
	}
	resize := func(by float64, do string, weight float64, helps []string) {
		f := livingFix{Fix: Fix{Do: do, Cost: "little, mesh", Weight: weight}, helps: helps}
		var texts []string
		for i := range d.Vents {
			v := &d.Vents[i]
			to := l.inText(by * float64(v.Height.Value))
			texts = append(texts, to)
			path := "vents[" + v.Name.Value + "].height"
			f.Edits = append(f.Edits, Edit{Path: path, To: to})
			if f.Change != "" {
				f.Change += ", "
			}
			f.Change += path + ": " + to
		}
		f.apply = func(d *design.Design) {
			d.Vents = slices.Clone(d.Vents)
			for i := range d.Vents {
				put(&d.Vents[i].Height, texts[i])
			}
		}
		out = append(out, f)
	}
	if len(d.Vents) > 0 {
		resize(2, "Make the vents twice as high.", 1, more)
		resize(0.5, "Cover half of each vent.", 0, less)
		resize(0.25, "Cover three quarters of each vent.", 0.1, less)
	}
	return append(out, l.lidFixes(less)...)
}

// lidFixes close what panes at the top leave open, with a deeper pane.
func (l *living) lidFixes(helps []string) []livingFix {
	panes := l.e.Design.Enclosure.Panes
	top := -1
	for i := range panes {
		if panes[i].At.Value != "top" {
			continue
		}
		if top >= 0 || panes[i].Count.Value > 1 || panes[i].Name.Value == "" {
			return nil
		}
		top = i
	}
	open, deep := l.l.OpenTop()
	if top < 0 || open == 0 {
		return nil
	}
	var out []livingFix
	name := panes[top].Name.Value
	for k, leaves := range []float64{0.25, 0.1} {
		to := l.inText(float64(panes[top].Height.Value) + (1-leaves)*open*deep)
		path := "enclosure.panes[" + name + "].height"
		out = append(out, livingFix{Fix: Fix{
			Do:     fmt.Sprintf("Let %s reach further, to %s front to back: a %s of what is open at the top stays open.", name, to, [...]string{"quarter", "tenth"}[k]),
			Change: path + ": " + to, Edits: []Edit{{Path: path, To: to}}, Cost: "a larger pane, or one beside it", Weight: 8 + float64(k),
		}, helps: helps, apply: func(d *design.Design) {
			d.Enclosure.Panes = slices.Clone(d.Enclosure.Panes)
			put(&d.Enclosure.Panes[top].Height, to)
		}})
	}
	return out
}

// heatFixes are a fan, a heater and mist, or more of them.
func (l *living) heatFixes() []livingFix {
	d := l.e.Design
	var out []livingFix
	if !d.Fan.Given() {
		out = append(out, livingFix{Fix: Fix{
			Do: "Add a fan that moves 4 m3/h of the room's air through it, " + quantity.Duration(6*3600).Show(l.sys) + " a day about noon.", Change: "fan: { flow: 4 m3/h, hours: 6 h }",
			Edits: []Edit{{Path: "fan.flow", To: "4 m3/h"}, {Path: "fan.hours", To: "6 h"}}, Cost: "about 15 EUR, " + priceFromMemory, Weight: 15,
		}, helps: []string{"heat", "humidity", "fog"}, apply: func(d *design.Design) {
			put(&d.Fan.Flow, "4 m3/h")
			put(&d.Fan.Hours, "6 h")
			d.Fan.Pos.Line = 1
		}})
	} else if d.Fan.Hours.Given() && d.Fan.Hours.Value < 86400 {
		out = append(out, livingFix{Fix: Fix{
			Do: "Let the fan run all day.", Change: "fan.hours: 24 h", Edits: []Edit{{Path: "fan.hours", To: "24 h"}}, Cost: "nothing but power", Weight: 0.3,
		}, helps: []string{"heat", "humidity", "fog"}, apply: func(d *design.Design) { put(&d.Fan.Hours, "24 h") }})
	}
	power, price := "50 W", "about 25 EUR, "+priceFromMemory
	switch {
	case !d.Heater.Given():
		out = append(out, livingFix{Fix: Fix{
			Do: "Add a heater of " + power + " with a thermostat in the sump, set to keep 21 to 22 C.", Change: "heater: { power: " + power + ", keeps: 21 to 22 C }",
			Edits: []Edit{{Path: "heater.power", To: power}, {Path: "heater.keeps", To: "21 to 22 C"}}, Cost: price, Weight: 25,
		}, helps: []string{"heat"}, apply: func(d *design.Design) {
			put(&d.Heater.Power, power)
			put(&d.Heater.Keeps, "21 to 22 C")
			d.Heater.Pos.Line = 1
		}})
	default:
		power = fmt.Sprintf("%.0f W", 2*float64(d.Heater.Power.Value))
		out = append(out, livingFix{Fix: Fix{
			Do: "A heater of " + power + " in place of yours.", Change: "heater.power: " + power,
			Edits: []Edit{{Path: "heater.power", To: power}}, Cost: price, Weight: 25,
		}, helps: []string{"heat"}, apply: func(d *design.Design) { put(&d.Heater.Power, power) }})
	}
	if !d.Misting.Given() {
		out = append(out, livingFix{Fix: Fix{
			Do: "Add a fogger that puts 0.2 L/h into the air, four times a day for 15 minutes, from a bottle of its own.", Change: "misting: { kind: fog, flow: 0.2 L/h, times: 4, each: 15 min }",
			Edits: []Edit{{Path: "misting.kind", To: "fog"}, {Path: "misting.flow", To: "0.2 L/h"}, {Path: "misting.times", To: "4"}, {Path: "misting.each", To: "15 min"}},
			Cost:  "about 30 EUR, " + priceFromMemory, Weight: 30,
		}, helps: []string{"humidity"}, apply: func(d *design.Design) {
			put(&d.Misting.Kind, "fog")
			put(&d.Misting.Flow, "0.2 L/h")
			put(&d.Misting.Times, "4")
			put(&d.Misting.Each, "15 min")
			d.Misting.Pos.Line = 1
		}})
	} else if times, _ := d.Misting.Runs(); times > 1 {
		to := strconv.Itoa(times / 2)
		out = append(out, livingFix{Fix: Fix{
			Do: "Mist half as often.", Change: "misting.times: " + to, Edits: []Edit{{Path: "misting.times", To: to}}, Cost: "nothing", Weight: 0,
		}, helps: []string{"humidity", "fog", "evaporation"}, apply: func(d *design.Design) { put(&d.Misting.Times, to) }})
	}
	return out
}

// waterFixes are softer water and more changes of it.
func (l *living) waterFixes() []livingFix {
	w := &l.e.Design.Water
	if !w.Given() {
		return nil
	}
	var out []livingFix
	if w.TopUp.Value != "rain or osmosis" {
		out = append(out, livingFix{Fix: Fix{
			Do: "Top up with rain or osmosis water.", Change: "water.top-up: rain or osmosis",
			Edits: []Edit{{Path: "water.top-up", To: "rain or osmosis"}}, Cost: "a rain barrel, or about 60 EUR for an osmosis filter, " + priceFromMemory, Weight: 30,
		}, helps: []string{"minerals"}, apply: func(d *design.Design) { put(&d.Water.TopUp, "rain or osmosis") }})
	}
	for _, days := range []int{14, 7} {
		if w.Every.Given() && float64(w.Every.Value) <= float64(days)*86400 && w.Change.Value >= 0.25 {
			continue
		}
		every := strconv.Itoa(days) + " days"
		out = append(out, livingFix{Fix: Fix{
			Do: fmt.Sprintf("Change a quarter of the water every %d days.", days), Change: fmt.Sprintf("water: { change: 25 %%, every: %d days }", days),
			Edits: []Edit{{Path: "water.change", To: "25 %"}, {Path: "water.every", To: every}}, Cost: "an hour each time", Weight: 40 - float64(days),
		}, helps: []string{"minerals"}, apply: func(d *design.Design) {
			put(&d.Water.Change, "25 %")
			put(&d.Water.Every, every)
		}})
	}
	return out
}
