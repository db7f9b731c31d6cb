// Package shopping turns what a design takes into what to buy: whole packs, less what
// is on hand, by shop, with prices as bands, what is left over and what would do in
// its place.
package shopping

import (
	"cmp"
	"fmt"
	"slices"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/takeoff"
)

// Shops are where things are bought, in the order of the list.
func Shops() []string {
	return []string{"glass counter", "plumbing aisle", "hardware shop", "garden or pet shop"}
}

// Ends are the three counts or amounts of a band: low, likely, high.
type Ends [3]int

// Item is one line of the list.
type Item struct {
	takeoff.Need

	Shop  string
	Pack  string // "310 ml", "1 m", "" for a piece
	Packs Ends   // whole packs still to buy
	// Hold says what of it is on hand and used, "" for nothing.
	Hold string
	// Left is what is left of the packs and the stock at each end, in the need's unit;
	// not known for foam and panels, which is said in Rest.
	Left takeoff.Band
	Rest string
	// Each is the price of a pack, Cost that of all, in the list's currency; no numbers
	// if Priced is false. Lot is the price, of several lines together, that covers it.
	Each, Cost takeoff.Band
	Priced     bool
	Lot        string
	PriceFrom  string
	Instead    []string
	// Loose says that it is weighed or measured off: the packs are steps of it.
	Loose bool
}

// Buys reports whether anything of it is to be bought, at the likely figure.
func (it *Item) Buys() bool { return it.Packs[1] > 0 }

// Lot is one price for several lines.
type Lot struct {
	Price
	Items []string
	Cost  takeoff.Band
}

// List is what to buy.
type List struct {
	Currency string
	Items    []Item // by shop, then as the work goes
	Lots     []Lot
	Cost     takeoff.Band // of all that is still to be bought and has a price
	Paid     float64      // for what is on hand, as far as the file says
	Total    takeoff.Band // of both
	Budget   float64      // 0 if the file has none
	Unpriced []string     // bought without a known price
	Unused   []Price      // prices that stand for nothing on the list
	Generic  float64      // share of the likely cost that comes from generic ranges
}

// NotCounted is what no list here holds.
const NotCounted = "stand, tools, carriage, electricity and your own hours"

// Currency returns the currency of all money in a design, "" if there is none in it.
func Currency(d *design.Design) string {
	if m := d.Budget.Money; m.Given() {
		return m.Value.Currency
	}
	for i := range d.Budget.Prices {
		return d.Budget.Prices[i].Price.Value.Currency
	}
	for _, list := range [][]design.Pump{d.Pumps, d.Shelf} {
		for i := range list {
			if list[i].Price.Given() {
				return list[i].Price.Value.Currency
			}
		}
	}
	for i := range d.Lights {
		if d.Lights[i].Price.Given() {
			return d.Lights[i].Price.Value.Currency
		}
	}
	for i := range d.Plants {
		if d.Plants[i].Price.Given() {
			return d.Plants[i].Price.Value.Currency
		}
	}
	for i := range d.Buy {
		if d.Buy[i].Price.Given() {
			return d.Buy[i].Price.Value.Currency
		}
	}
	return ""
}

// buyer makes a list.
type buyer struct {
	e       *enclosure.Enclosure
	us      bool
	goods   map[string]catalogue.Good
	yields  map[design.PackKind][2]float64 // m3 of foam from each m3 or kg in the can
	prices  []Price
	used    []bool // by price
	stock   []held
	list    *List
	generic float64
}

// Of makes the list of what to buy from what a design takes. More are prices beside
// those in the design file, which go before them. Amounts in another currency than
// the design's are not used. The error is of the built-in data.
func Of(e *enclosure.Enclosure, needs []takeoff.Need, more []Price) (*List, error) {
	us := e.Units == quantity.US
	goods, err := catalogue.Goods(us)
	if err != nil {
		return nil, fmt.Errorf("shopping: %w", err)
	}
	other, err := catalogue.Goods(!us)
	if err != nil {
		return nil, fmt.Errorf("shopping: %w", err)
	}
	yields := map[design.PackKind][2]float64{design.PackVolume: goods["foam"].Yield, design.PackMass: other["foam"].Yield}
	if us {
		yields = map[design.PackKind][2]float64{design.PackVolume: other["foam"].Yield, design.PackMass: goods["foam"].Yield}
	}
	b := &buyer{e: e, us: us, goods: goods, yields: yields, prices: append(typed(e.Design), more...), stock: holdings(e.Design, us), list: &List{Currency: Currency(e.Design)}}
	if b.list.Currency == "" && len(more) > 0 {
		b.list.Currency = more[0].Money.Currency
	}
	if b.list.Currency == "" {
		if b.list.Currency = "EUR"; us {
			b.list.Currency = "USD"
		}
	}
	b.prices = slices.DeleteFunc(b.prices, func(p Price) bool { return p.Money.Currency != b.list.Currency })
	b.used = make([]bool, len(b.prices))
	for i := range needs {
		b.list.Items = append(b.list.Items, b.item(&needs[i]))
	}
	b.lots()
	b.sum()
	slices.SortStableFunc(b.list.Items, func(x, y Item) int {
		return cmp.Compare(slices.Index(Shops(), x.Shop), slices.Index(Shops(), y.Shop))
	})
	return b.list, nil
}

// item makes one line.
func (b *buyer) item(n *takeoff.Need) Item {
	it := Item{Need: *n, Shop: "hardware shop"}
	g, ok := b.goods[n.Key]
	if ok {
		it.Shop = g.Shop
	} else if slices.Contains(Shops(), n.Key) { // what the file lists itself
		it.Shop = n.Key
	}
	if !ok {
		g = catalogue.Good{Key: n.Key, Sold: "piece", Packs: []catalogue.PackSold{{}}}
	}
	b.count(&it, &g)
	b.instead(&it, &g)
	return it
}

// lots prices what has no price of its own by one price for all of it.
func (b *buyer) lots() {
	for k := range b.prices {
		p := &b.prices[k]
		if p.Pack.Kind != design.PackLot {
			continue
		}
		l := Lot{Price: *p}
		var most Ends
		for i := range b.list.Items {
			it := &b.list.Items[i]
			if it.Lot != "" || it.known() || !b.lotOf(p, it) {
				continue
			}
			b.used[k] = true
			it.Lot, it.Cost, it.Priced, it.PriceFrom = p.What, takeoff.Band{}, true, "yours, "+p.From
			l.Items = append(l.Items, it.Name)
			for e := range most {
				most[e] += it.Packs[e]
			}
		}
		if len(l.Items) == 0 {
			continue
		}
		cost := [3]float64{}
		for e := range most {
			if most[e] > 0 {
				cost[e] = p.Money.Amount
			}
		}
		l.Cost = takeoff.Band{Low: cost[0], Likely: cost[1], High: cost[2]}
		b.list.Lots = append(b.list.Lots, l)
	}
}

// sum adds up.
func (b *buyer) sum() {
	l := b.list
	for i := range l.Items {
		it := &l.Items[i]
		switch {
		case it.Lot != "":
		case it.Priced:
			l.Cost = plus(l.Cost, it.Cost)
			if !it.known() {
				b.generic += it.Cost.Likely
			}
		case it.Packs[2] > 0:
			l.Unpriced = append(l.Unpriced, it.Name)
		}
	}
	for i := range l.Lots {
		l.Cost = plus(l.Cost, l.Lots[i].Cost)
	}
	for i := range b.e.Design.Stock {
		if m := b.e.Design.Stock[i].Paid; m.Given() && m.Value.Currency == l.Currency {
			l.Paid += m.Value.Amount
		}
	}
	l.Total = plus(l.Cost, takeoff.Band{Low: l.Paid, Likely: l.Paid, High: l.Paid})
	if m := b.e.Design.Budget.Money; m.Given() {
		l.Budget = m.Value.Amount
	}
	if l.Cost.Likely > 0 {
		l.Generic = b.generic / l.Cost.Likely
	}
	for k := range b.prices {
		if !b.used[k] {
			l.Unused = append(l.Unused, b.prices[k])
		}
	}
}

func plus(a, b takeoff.Band) takeoff.Band {
	return takeoff.Band{Low: a.Low + b.Low, Likely: a.Likely + b.Likely, High: a.High + b.High}
}
