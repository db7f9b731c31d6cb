package shopping

import (
	"fmt"
	"math"
	"strings"

	"rillwright/catalogue"
	"rillwright/cutting"
	"rillwright/design"
	"rillwright/quantity"
	"rillwright/takeoff"
)

const (
	// pipeKerf is what each cut of pipe takes, m: 2 to 3 mm, from memory of the trade.
	pipeKerf = 0.003
	// pipeKeep is the shortest rest of pipe worth keeping, m: assumed, no source.
	pipeKeep = 0.1
	// effort limits each search: lists are made while somebody waits.
	effort = 200
	// mostParts is how many parts a panel or lengths of one pipe are laid out by one;
	// beyond that, sums tell as much.
	mostParts = 200
	// usualGlass is the glass that prices are for, m.
	usualGlass, usualGlassUS = 0.006, 0.00635
)

// lengths is pipe, cut from stock lengths, and hose, by the metre or foot. Each piece
// comes out of one length.
func (b *buyer) lengths(it *Item, g *catalogue.Good) {
	is := func(k design.Pack) (float64, bool) { return k.Size, k.Kind == design.PackLength }
	list := b.packs(it, g, is)
	if own := it.Part.Stock; len(own) > 0 && g.Key == "pipe" && !list[0].own {
		like := list[0]
		list = nil
		for _, l := range own {
			p := like
			p.text, p.size = l.Show(b.e.Units), float64(l)
			for _, s := range g.Packs {
				if k, err := design.ReadPack(s.Text, b.us); err == nil && math.Abs(k.Size-p.size) < 1e-6 {
					p.text = s.Text
				}
			}
			list = append(list, p)
		}
	}
	job := cutting.BarJob{Kerf: pipeKerf, Keep: pipeKeep, Effort: effort}
	more := 0.0 // hose is cut too long
	if g.Key != "pipe" {
		if sum := total(it.Lengths); sum > 0 {
			more = it.Amount.Low/sum - 1
		}
	}
	for _, l := range it.Lengths {
		job.Pieces = append(job.Pieces, cutting.BarPiece{Name: l.Name, Length: l.Length * (1 + more), Count: l.Count})
	}
	var rows []*held
	for _, h := range b.onHand(&it.Need) {
		if h.pack.Kind == design.PackLength {
			rows = append(rows, h)
			job.Stock = append(job.Stock, cutting.BarStock{Name: h.item.What.Value, Length: h.pack.Size, OnHand: true, Count: h.left})
		}
	}
	if g.Key != "pipe" {
		b.byLength(it, list, job, rows)
		return
	}
	for i := range list {
		job.Stock = append(job.Stock, cutting.BarStock{Name: list[i].text, Length: list[i].size, Cost: list[i].mid()})
	}
	if pieces(it.Lengths) > mostParts {
		b.spliced(it, list, "too many pieces to lay out one by one: by the sum of their lengths")
		return
	}
	plan, err := cutting.CutBars(job)
	if err != nil || len(plan.Missing) > 0 {
		b.spliced(it, list, "a piece is longer than any length sold: join it with a coupling")
		return
	}
	bought, left := map[int]int{}, 0.0
	used := make([]int, len(rows))
	for _, bar := range plan.Bars {
		switch {
		case bar.Stock >= len(rows):
			bought[bar.Stock-len(rows)]++
		case len(bar.Cuts) > 0:
			used[bar.Stock]++
		default:
			continue
		}
		left += bar.Offcut
	}
	it.takeRows(rows, used)
	it.Left = takeoff.Band{Low: left, Likely: left, High: left}
	b.several(it, list, bought)
}

// pieces returns how many lengths are wanted.
func pieces(list []takeoff.Length) int {
	n := 0
	for _, l := range list {
		n += l.Count
	}
	return n
}

func total(list []takeoff.Length) float64 {
	sum := 0.0
	for _, l := range list {
		sum += l.Length * float64(l.Count)
	}
	return sum
}

// takeRows notes how many of each row of stock are used.
func (it *Item) takeRows(rows []*held, used []int) {
	var said []string
	for k, n := range used {
		if n > 0 {
			rows[k].left -= n
			said = append(said, rows[k].say(n))
		}
	}
	it.Hold = strings.Join(said, ", ")
}

// several charges packs of several sizes: the line names them all.
func (b *buyer) several(it *Item, list []pack, bought map[int]int) {
	var names []string
	var cost, each takeoff.Band
	sum := 0
	for i := range list {
		n := bought[i]
		if n == 0 {
			continue
		}
		p := &list[i]
		sum += n
		names = append(names, fmt.Sprintf("%d x %s", n, p.text))
		each = takeoff.Band{Low: p.low, Likely: p.mid(), High: p.high}
		cost = plus(cost, each.Scale(float64(n)))
	}
	if len(names) == 1 {
		names[0] = strings.TrimPrefix(names[0], fmt.Sprintf("%d x ", sum))
	}
	it.Pack, it.Packs = strings.Join(names, " + "), Ends{sum, sum, sum}
	if list[0].from != "" {
		it.Each, it.Cost, it.Priced, it.PriceFrom = each, cost, true, list[0].from
	}
}

// byLength buys hose by the metre or foot, or in coils the builder has a price for,
// after whole pieces are taken from what is on hand.
func (b *buyer) byLength(it *Item, list []pack, job cutting.BarJob, rows []*held) {
	missing := total(it.Lengths)
	used := make([]int, len(rows))
	kept := 0.0
	if len(rows) > 0 && pieces(it.Lengths) <= mostParts {
		if plan, err := cutting.CutBars(job); err == nil {
			missing = 0
			for _, k := range plan.Missing {
				missing += it.Lengths[k].Length
			}
			for _, bar := range plan.Bars {
				if len(bar.Cuts) > 0 {
					used[bar.Stock]++
					kept += bar.Offcut
				}
			}
		}
	}
	it.takeRows(rows, used)
	share := 0.0
	if all := total(it.Lengths); all > 0 {
		share = missing / all
	}
	var want, left [3]float64
	for e, v := range ends(it.Amount) {
		want[e] = v * share
	}
	p, n := cheapest(list, want)
	it.charge(p, n)
	for e := range left {
		left[e] = kept + float64(n[e])*p.size - want[e]
	}
	it.Left = bandOf(left)
}

// spliced is pipe that is not laid out: as many of the longest lengths as its sum takes.
func (b *buyer) spliced(it *Item, list []pack, why string) {
	at := 0
	for i := range list {
		if list[i].size > list[at].size {
			at = i
		}
	}
	n := whole(total(it.Lengths) / list[at].size)
	it.charge(&list[at], Ends{n, n, n + 1})
	it.Rest = why
}

// tank is a used shop tank, priced by what it holds.
func (b *buyer) tank(it *Item, g *catalogue.Good) {
	gallons := it.Amount.Likely / 3.785411784e-3
	priced := *g
	priced.Packs = []catalogue.PackSold{{Low: g.Packs[0].Low * gallons, High: g.Packs[0].High * gallons}}
	it.Unit, it.Amount = takeoff.Pieces, takeoff.Band{Low: 1, Likely: 1, High: 1}
	b.pieces(it, &priced)
}

// pane is glass cut to size: offcuts on hand that are large enough go first.
func (b *buyer) pane(it *Item, g *catalogue.Good) {
	usual := usualGlass
	if b.us {
		usual = usualGlassUS
	}
	k := it.Square * it.Thick / usual
	priced := *g
	priced.Packs = []catalogue.PackSold{{Low: g.Packs[0].Low * k, High: g.Packs[0].High * k}}
	if p, ok := b.priced(&it.Need, func(k design.Pack) bool { return k.Kind == design.PackArea }); ok && it.Price.Currency == "" {
		it.Price = quantity.Money{Amount: p.Money.Amount * it.Square / p.Pack.Size, Currency: p.Money.Currency}
	}
	b.pieces(it, &priced)
}
