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
	// sheetLess is by how much a US sheet is smaller than its name each way, m: about
	// 1/4 in, from memory of the trade. Metric ones are taken as named.
	sheetLess = 0.00635
	// gridKeep is the narrowest rest of grid worth keeping, in cells.
	gridKeep = 4
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
	plan, err := cutting.CutBars(job)
	if err != nil || len(plan.Missing) > 0 {
		b.spliced(it, list)
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
	if len(rows) > 0 {
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

// spliced is pipe of which some piece is longer than any length sold: as many of the
// longest as its sum takes, joined.
func (b *buyer) spliced(it *Item, list []pack) {
	at := 0
	for i := range list {
		if list[i].size > list[at].size {
			at = i
		}
	}
	n := whole(total(it.Lengths) / list[at].size)
	it.charge(&list[at], Ends{n, n, n + 1})
	it.Rest = "a piece is longer than any length sold: join it with a coupling"
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

// sheets is grid, in whole cells of sheets.
func (b *buyer) sheets(it *Item, g *catalogue.Good) {
	list := b.packs(it, g, func(k design.Pack) (float64, bool) { return 1, k.Kind == design.PackPieces })
	p := &list[0]
	wide, long := sheetSize(g.Packs[0].Text, b.us)
	byPitch := map[int64][]takeoff.Panel{}
	var order []int64
	for _, n := range it.Panels {
		key := int64(math.Round(n.Pitch * 1e6))
		if byPitch[key] == nil {
			order = append(order, key)
		}
		byPitch[key] = append(byPitch[key], n)
	}
	rows := b.onHand(&it.Need)
	used := make([]int, len(rows))
	buy, cellsLeft, split := 0, 0.0, false
	for _, key := range order {
		panels := byPitch[key]
		pitch := panels[0].Pitch
		plan, parted, ok := layGrid(panels, cells(wide, pitch), cells(long, pitch), rows, used, pitch, b.us)
		split = split || parted
		if !ok {
			area := 0.0
			for _, n := range panels {
				area += float64(n.Across*n.High) * n.Pitch * n.Pitch
			}
			buy += whole(area / (wide * long))
			continue
		}
		for _, s := range plan.Sheets {
			if s.Stock < len(rows) {
				if len(s.Pieces) > 0 {
					used[s.Stock]++
				}
			} else {
				buy++
			}
			if len(s.Pieces) == 0 && s.Stock < len(rows) {
				continue
			}
			for _, o := range s.Offcuts {
				if o.Reusable {
					cellsLeft += float64(o.Cols * o.Rows)
				}
			}
		}
	}
	it.takeRows(rows, used)
	it.charge(p, Ends{buy, buy, buy})
	it.Rest = fmt.Sprintf("%.0f cells left in pieces worth keeping", cellsLeft)
	if split {
		it.Rest += "; a panel larger than a sheet is made of parts, tied edge to edge"
	}
}

// cells returns how many whole cells a side (m) has.
func cells(side, pitch float64) int { return int(side/pitch + 1e-6) }

// sheetSize reads "600 x 1200 mm", m.
func sheetSize(text string, us bool) (wide, long float64) {
	a, c, ok := strings.Cut(strings.ReplaceAll(text, "×", "x"), "x")
	if !ok {
		return 0, 0
	}
	last, err := quantity.ParseLength(strings.TrimSpace(c))
	if err != nil {
		return 0, 0
	}
	first, err := quantity.ParseLength(strings.TrimSpace(a))
	if err != nil {
		if first, err = quantity.ParseLength(strings.TrimSpace(a) + " " + strings.TrimLeft(strings.TrimSpace(c), "0123456789./ ")); err != nil {
			return 0, 0
		}
	}
	wide, long = float64(first), float64(last)
	if us && wide > sheetLess {
		wide, long = wide-sheetLess, long-sheetLess
	}
	return wide, long
}

// layGrid lays panels onto sheets on hand (those not used yet) and bought ones. A
// panel larger than a sheet is cut into parts, along or across, whichever takes fewer.
func layGrid(panels []takeoff.Panel, cols, rowsOf int, rows []*held, used []int, pitch float64, us bool) (best cutting.CellPlan, split, ok bool) {
	for turn := range 2 {
		wide, high := cols, rowsOf
		if turn == 1 {
			wide, high = rowsOf, cols
		}
		job := cutting.CellJob{Keep: gridKeep, Effort: effort}
		parted := false
		for _, n := range panels {
			parts := []takeoff.Panel{n}
			if !(n.Across <= wide && n.High <= high || n.Across <= high && n.High <= wide) {
				parts, parted = inParts(n, wide, high), true
			}
			for _, p := range parts {
				job.Pieces = append(job.Pieces, cutting.CellPiece{Name: p.Name, Cols: p.Across, Rows: p.High, Count: 1})
			}
		}
		for k, h := range rows {
			w, l := sheetSize(h.item.Size.Value, us)
			if w == 0 {
				w, l = float64(cols)*pitch, float64(rowsOf)*pitch
			}
			if c, r := cells(w, pitch), cells(l, pitch); c > 0 && r > 0 && h.left > used[k] {
				job.Stock = append(job.Stock, cutting.CellStock{Name: h.item.What.Value, Cols: c, Rows: r, OnHand: true, Count: h.left - used[k]})
			} else {
				// Rows keep their numbers: an empty one holds nothing.
				job.Stock = append(job.Stock, cutting.CellStock{Name: h.item.What.Value, Cols: 1, Rows: 1, OnHand: true, Count: 1})
			}
		}
		job.Stock = append(job.Stock, cutting.CellStock{Name: "new", Cols: cols, Rows: rowsOf, Cost: 1})
		plan, err := cutting.CutCells(job)
		if err != nil || len(plan.Missing) > 0 {
			continue
		}
		if !ok || plan.Cost < best.Cost {
			best, split, ok = plan, parted, true
		}
		if !parted {
			break
		}
	}
	return best, split, ok
}

// inParts cuts a panel into parts of at most wide by high cells.
func inParts(n takeoff.Panel, wide, high int) []takeoff.Panel {
	var out []takeoff.Panel
	if wide < 1 || high < 1 {
		return []takeoff.Panel{n}
	}
	for x := 0; x < n.Across; x += wide {
		for y := 0; y < n.High; y += high {
			out = append(out, takeoff.Panel{Name: n.Name, Across: min(wide, n.Across-x), High: min(high, n.High-y), Pitch: n.Pitch})
		}
	}
	return out
}
