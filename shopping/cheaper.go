package shopping

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/study"
	"rillwright/takeoff"
)

// Change is one way to spend less, computed anew.
type Change struct {
	Do     string
	Edits  []design.Edit // that write it into the file; none where the builder chooses how
	Gives  string        // what is given up
	After  takeoff.Band  // the total with it
	Saves  float64       // at the likely figure; SavesMost is at the dear end
	Adding bool          // it can be taken together with others
	apply  func(*design.Design)

	SavesMost float64
}

// Cheaper tries what spends less, each alone, and returns what saves anything: first
// what can go together, of these what saves most. Together holds the total with the
// first of those, with the first two and so on. What a change does to the water is not
// judged here.
func Cheaper(e *enclosure.Enclosure, joints study.Joints, more []Price, base *List) (list []Change, together []takeoff.Band, err error) {
	d := e.Design
	var all []Change
	if f := d.Budget.Spares; !f.Given() || f.Value {
		all = append(all, Change{
			Do: "leave out the spare elbows and gaskets", Gives: "another way to the shop if one does not fit", Adding: true,
			Edits: []design.Edit{{Path: "budget.spares", To: "no"}},
			apply: func(d *design.Design) { set(&d.Budget.Spares, false, "no") },
		})
	}
	all = append(all, cuttings(d, base)...)
	for i := range d.Coat {
		if c := &d.Coat[i]; !c.Thickness.Given() || c.Thickness.Value.High > quantity.Length(takeoff.CoatThickness().Low) {
			all = append(all, Change{
				Do: "lay the coat of the " + c.Name.Value + " 1 mm thick", Gives: "texture", Adding: true,
				Edits: []design.Edit{{Path: "coat[" + c.Name.Value + "].thickness", To: "1 mm"}},
				apply: func(d *design.Design) {
					d.Coat = slices.Clone(d.Coat)
					set(&d.Coat[i].Thickness, quantity.Exactly(quantity.Length(0.001)), "1 mm")
				},
			})
		}
	}
	all = append(all, itself(d, base)...)
	total := func(c *Change) (*List, error) {
		trial, own := *e, *d
		c.apply(&own)
		trial.Design = &own
		return Of(&trial, takeoff.Of(&trial, joints), more)
	}
	for i := range all {
		l, err := total(&all[i])
		if err != nil {
			return nil, nil, err
		}
		c := &all[i]
		c.After, c.Saves, c.SavesMost = l.Total, base.Total.Likely-l.Total.Likely, base.Total.High-l.Total.High
		if c.Saves > 0.005 || c.SavesMost > 0.5 {
			list = append(list, *c)
		}
	}
	slices.SortStableFunc(list, func(a, b Change) int {
		if a.Adding != b.Adding {
			return cmp.Compare(btoi(b.Adding), btoi(a.Adding))
		}
		return cmp.Compare(b.Saves, a.Saves)
	})
	for n := 1; n <= len(list) && list[n-1].Adding; n++ {
		l, err := total(&Change{apply: func(d *design.Design) {
			for i := range n {
				list[i].apply(d)
			}
		}})
		if err != nil {
			return nil, nil, err
		}
		together = append(together, l.Total)
	}
	return list, together, nil
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

func set[T any](f *design.Field[T], v T, text string) {
	f.Value, f.Text = v, text
	f.Pos.Line = max(f.Pos.Line, 1) // given
}

// cuttings takes cuttings in place of plants: about half the price, from memory of the
// trade. A price for all plants together is halved.
func cuttings(d *design.Design, base *List) []Change {
	for k := range base.Lots {
		at := slices.IndexFunc(d.Budget.Prices, func(p design.Price) bool { return p.What.Value == base.Lots[k].What })
		grow := func(p design.Plants) bool { return !p.Cuttings.Value }
		if !strings.EqualFold(base.Lots[k].What, string(takeoff.Planting)) || at < 0 || !slices.ContainsFunc(d.Plants, grow) {
			continue
		}
		half := d.Budget.Prices[at].Price.Value
		half.Amount /= 2
		c := Change{Do: "take cuttings in place of plants (about half the price, from memory)", Gives: "a green wall on the first day", Adding: true}
		c.Edits = append(c.Edits, design.Edit{Path: fmt.Sprintf("budget.prices[%d].price", at+1), To: half.ShowExact()})
		for i := range d.Plants {
			if grow(d.Plants[i]) {
				c.Edits = append(c.Edits, design.Edit{Path: fmt.Sprintf("plants[%d].cuttings", i+1), To: "yes"})
			}
		}
		c.apply = func(d *design.Design) {
			d.Budget.Prices, d.Plants = slices.Clone(d.Budget.Prices), slices.Clone(d.Plants)
			d.Budget.Prices[at].Price.Value = half
			for i := range d.Plants {
				set(&d.Plants[i].Cuttings, true, "yes")
			}
		}
		return []Change{c}
	}
	var out []Change
	for i := range d.Plants {
		p := &d.Plants[i]
		if p.Cuttings.Value {
			continue
		}
		path := fmt.Sprintf("plants[%d]", i+1)
		c := Change{
			Do: "take cuttings of the " + p.What.Value + " (about half the price, from memory)", Gives: "a green wall on the first day", Adding: true,
			Edits: []design.Edit{{Path: path + ".cuttings", To: "yes"}},
		}
		half := p.Price.Value
		if p.Price.Given() {
			half.Amount /= 2
			c.Edits = append(c.Edits, design.Edit{Path: path + ".price", To: half.ShowExact()})
		}
		c.apply = func(d *design.Design) {
			d.Plants = slices.Clone(d.Plants)
			set(&d.Plants[i].Cuttings, true, "yes")
			d.Plants[i].Price.Value = half
		}
		out = append(out, c)
	}
	return out
}

// itself are things that a builder can find or make: each put into the stock.
func itself(d *design.Design, base *List) []Change {
	var out []Change
	for i := range base.Items {
		it := &base.Items[i]
		if !it.Buys() || it.Lot != "" {
			continue
		}
		do := map[string]string{
			"wood":     "gather the wood and dry it yourself",
			"stones":   "gather the stones and scrub them",
			"sump box": "use a box that you have for the sump",
			"prop":     "hold the panes with blocks of wood that you have",
		}[it.Key]
		if do == "" {
			continue
		}
		name, size, n := it.Name, "", 1
		switch it.Unit {
		case takeoff.Kilograms:
			size = "1 kg"
			n = int(it.Amount.High) + 1
		default:
			n = int(it.Amount.High)
		}
		to := fmt.Sprintf("{ what: %s, count: %d }", name, n)
		if size != "" {
			to = fmt.Sprintf("{ what: %s, count: %d, size: %s }", name, n, size)
		}
		c := Change{Do: do, Gives: "some time", Edits: []design.Edit{{Path: "stock", To: to, Kind: design.EditAppend}}, Adding: true}
		c.apply = func(d *design.Design) {
			var s design.StockItem
			set(&s.What, name, name)
			set(&s.Count, n, fmt.Sprint(n))
			if size != "" {
				set(&s.Size, size, size)
			}
			d.Stock = append(slices.Clone(d.Stock), s)
		}
		out = append(out, c)
	}
	return append(out, usedTank(d, base)...)
}

// usedTank takes a used shop tank in place of panes cut to size, priced by what it
// holds. It is another build: nothing writes it into the file.
func usedTank(d *design.Design, base *List) []Change {
	if d.Enclosure.Made.Value == "from a tank" {
		return nil
	}
	goods, err := catalogue.Goods(false)
	if err != nil {
		return nil // told where the list was made
	}
	b := &d.Enclosure.Outside
	gallons := float64(b.Width.Value*b.Depth.Value*b.Height.Value) / 3.785411784e-3
	each := goods["shop tank"].Packs[0]
	price := gallons * (each.Low + each.High) / 2
	panes := 0.0
	for i := range base.Items {
		if it := &base.Items[i]; it.Key == "glass" && it.Name != "glass: dam pane" {
			panes += it.Cost.Likely
		}
	}
	if !b.Given() || panes <= price {
		return nil
	}
	return []Change{{
		Do: fmt.Sprintf("build into a used shop tank of this size (about %.0f %s, from memory) in place of %.0f %s of panes", price, base.Currency, panes, base.Currency), Gives: "these sizes: it is another design",
		apply: func(d *design.Design) {
			d.Enclosure.Panes = slices.DeleteFunc(slices.Clone(d.Enclosure.Panes), func(p design.Pane) bool { return p.At.Value != "dam" })
			var w design.Wanted
			set(&w.What, "used shop tank", "")
			set(&w.Price, quantity.Money{Amount: price, Currency: base.Currency}, "")
			d.Buy = append(slices.Clone(d.Buy), w)
		},
	}}
}
