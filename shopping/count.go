package shopping

import (
	"fmt"
	"math"
	"strings"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/takeoff"
)

// pack is one size of pack that could be bought, and its price band.
type pack struct {
	text      string
	size      float64 // in the need's unit; of foam what the can holds
	low, high float64
	from      string
	own       bool // a price of the builder's
	price     *Price
	kind      design.PackKind
}

func (p *pack) mid() float64 { return (p.low + p.high) / 2 }

// known reports whether the builder gave the price.
func (it *Item) known() bool { return it.Priced && strings.HasPrefix(it.PriceFrom, "yours") }

const genericFrom = "generic, "

// whole rounds up to whole packs; a rounding error over a whole number does not buy
// one more.
func whole(v float64) int { return int(math.Ceil(v * (1 - 1e-12))) }

// count fills in how much is on hand, what to buy, what is left and the cost.
func (b *buyer) count(it *Item, g *catalogue.Good) {
	switch g.Sold {
	case "volume", "mass":
		b.bulk(it, g)
	case "yield":
		b.cans(it, g)
	case "length":
		b.lengths(it, g)
	case "square":
		b.pane(it, g)
	case "tank":
		b.tank(it, g)
	default:
		if len(it.Panels) > 0 {
			b.sheets(it, g)
			return
		}
		b.pieces(it, g)
	}
}

// packs returns the packs a need could be bought in: those the builder has a price
// for, or the usual ones. Is tells which pack of the builder's is one, and its size.
func (b *buyer) packs(it *Item, g *catalogue.Good, is func(design.Pack) (float64, bool)) []pack {
	var out []pack
	for _, s := range g.Packs {
		k, err := design.ReadPack(s.Text, b.us)
		if err != nil {
			continue // the built-in list is tested
		}
		size, ok := is(k)
		if !ok {
			size = k.Size
		}
		p := pack{text: s.Text, size: size, kind: k.Kind, low: s.Low, high: s.High, from: genericFrom + string(g.Mark)}
		if b.list.Currency != b.home() {
			p.from = "" // a figure in another currency
		}
		out = append(out, p)
	}
	if m := it.Price; m.Currency != "" && m.Currency == b.list.Currency && len(out) > 0 {
		p := out[0]
		p.low, p.high, p.own, p.from = m.Amount, m.Amount, true, fmt.Sprintf("yours, line %d", it.Line)
		return []pack{p}
	}
	if c := it.Part.Price; c.Given() && !c.Generic && c.Currency == b.list.Currency && len(out) > 0 {
		p := out[len(out)-1]
		if k, err := design.ReadPack("1 "+c.Per, b.us); err == nil && k.Kind == design.PackLength {
			p.text, p.size = "1 "+c.Per, k.Size
		}
		p.low, p.high, p.own, p.from = c.Low, c.High, true, "yours, from your parts file"
		out = []pack{p}
	}
	if p, ok := b.priced(&it.Need, func(k design.Pack) bool { _, ok := is(k); return ok || k == (design.Pack{Size: 1}) }); ok {
		var own pack
		if size, sized := is(p.Pack); sized {
			own = pack{text: p.PackText, size: size, kind: p.Pack.Kind}
		} else if len(out) > 0 {
			own = out[0]
		}
		own.low, own.high, own.own, own.from, own.price = p.Money.Amount, p.Money.Amount, true, "yours, "+p.From, p
		if p.Shop != "" {
			it.Note = strings.Trim(it.Note+"; at "+p.Shop, "; ")
		}
		return []pack{own}
	}
	return out
}

// home is the currency that the generic figures are in.
func (b *buyer) home() string {
	if b.us {
		return "USD"
	}
	if b.list.Currency == "USD" {
		return "USD" // both have the same figures
	}
	return "EUR"
}

// charge takes the packs and their cost into a line.
func (it *Item) charge(p *pack, n Ends) {
	it.Pack, it.Packs = p.text, n
	it.Loose = !p.own && (it.Unit == takeoff.Metres && it.Key != "pipe" || it.Unit == takeoff.Kilograms)
	if p.from == "" {
		return
	}
	it.Each = takeoff.Band{Low: p.low, Likely: p.mid(), High: p.high}
	it.Cost = takeoff.Band{Low: float64(n[0]) * p.low, Likely: float64(n[1]) * p.mid(), High: float64(n[2]) * p.high}
	it.Priced, it.PriceFrom = true, p.from
}

// ends returns an amount at its three ends.
func ends(b takeoff.Band) [3]float64 { return [3]float64{b.Low, b.Likely, b.High} }

func bandOf(v [3]float64) takeoff.Band { return takeoff.Band{Low: v[0], Likely: v[1], High: v[2]} }

// cheapest returns the pack size of which what is wanted costs least at the likely
// figure, and how many of it; of equal ones that which leaves less.
func cheapest(list []pack, want [3]float64) (*pack, Ends) {
	best, at, left := math.Inf(1), 0, math.Inf(1)
	for i := range list {
		p := &list[i]
		if !(p.size > 0) {
			continue
		}
		n := whole(want[1] / p.size)
		cost, rest := float64(n)*p.mid(), float64(n)*p.size-want[1]
		if cost < best-1e-9 || cost < best+1e-9 && rest < left {
			best, at, left = cost, i, rest
		}
	}
	p := &list[at]
	var n Ends
	for e := range n {
		n[e] = whole(want[e] / p.size)
	}
	return p, n
}

// bulk is what comes by volume or weight: sealant, media, wood.
func (b *buyer) bulk(it *Item, g *catalogue.Good) {
	kind := design.PackVolume
	if it.Unit == takeoff.Kilograms {
		kind = design.PackMass
	}
	is := func(k design.Pack) (float64, bool) { return k.Size, k.Kind == kind }
	list := b.packs(it, g, is)
	have := 0.0
	var said []string
	for _, h := range b.onHand(&it.Need) {
		size := list[0].size
		if h.pack.Kind == kind && h.pack.Size > 0 {
			size = h.pack.Size
		}
		n := min(h.left, whole((it.Amount.High-have)/size))
		if n <= 0 {
			continue
		}
		have += float64(n) * size
		said = append(said, h.say(n))
		h.left -= n
	}
	it.Hold = strings.Join(said, ", ")
	var want, left [3]float64
	for e, v := range ends(it.Amount) {
		want[e] = math.Max(v-have, 0)
	}
	p, n := cheapest(list, want)
	it.charge(p, n)
	for e, v := range ends(it.Amount) {
		left[e] = math.Max(have+float64(n[e])*p.size-v, 0)
	}
	it.Left = bandOf(left)
}

// say tells of some of a row of stock.
func (h *held) say(n int) string {
	if h.item.Size.Value == "" {
		return fmt.Sprintf("%d", n)
	}
	return fmt.Sprintf("%d x %s", n, h.item.Size.Value)
}

// cans is foam: what a can yields is a band, and each layer takes cans of its own.
func (b *buyer) cans(it *Item, g *catalogue.Good) {
	// A can is told by its volume or its weight; its size here is what it yields at least.
	is := func(k design.Pack) (float64, bool) {
		y, ok := b.yields[k.Kind]
		return k.Size * y[0], ok
	}
	list := b.packs(it, g, is)
	p := &list[0]
	most := g.Yield[1] / g.Yield[0]
	if y, ok := b.yields[p.kind]; ok {
		most = y[1] / y[0]
	}
	yield := [3]float64{p.size * most, p.size * (1 + most) / 2, p.size}
	layers := float64(max(it.Layers, 1))
	var n Ends
	for e, v := range ends(it.Amount) {
		n[e] = whole(v / yield[e])
		if e == 2 { // no can keeps for the next layer
			n[e] = int(layers) * whole(v/layers/yield[e])
		}
	}
	n[1] = max(n[1], min(int(layers), n[2]))
	var said []string
	for _, h := range b.onHand(&it.Need) {
		size := p.size
		if s, ok := is(h.pack); ok && s > 0 {
			size = s
		}
		take := min(h.left, whole(float64(n[2])*p.size/size))
		if take <= 0 {
			continue
		}
		said = append(said, h.say(take))
		h.left -= take
		for e := range n {
			n[e] = max(n[e]-int(float64(take)*size/p.size+1e-9), 0)
		}
	}
	it.Hold = strings.Join(said, ", ")
	it.charge(p, n)
	it.Rest = "no can keeps once it is opened: use each up in one go"
}

// pieces is whatever is counted.
func (b *buyer) pieces(it *Item, g *catalogue.Good) {
	list := b.packs(it, g, func(k design.Pack) (float64, bool) { return k.Size, k.Kind == design.PackPieces })
	var want [3]float64
	have := 0
	var said []string
	for _, h := range b.onHand(&it.Need) {
		size := 1
		if h.pack.Kind == design.PackPieces && h.pack.Size > 1 {
			size = int(h.pack.Size)
		}
		take := min(h.left, whole((it.Amount.High-float64(have))/float64(size)))
		if take > 0 {
			have += take * size
			said = append(said, h.say(take))
			h.left -= take
		}
	}
	it.Hold = strings.Join(said, ", ")
	for e, v := range ends(it.Amount) {
		want[e] = math.Max(v-float64(have), 0)
	}
	p, n := cheapest(list, want)
	it.charge(p, n)
	var left [3]float64
	for e := range left {
		left[e] = math.Max(float64(have)+float64(n[e])*p.size-ends(it.Amount)[e], 0)
	}
	it.Left = bandOf(left)
}
