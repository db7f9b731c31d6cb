package shopping

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"rillwright/catalogue"
	"rillwright/quantity"
	"rillwright/takeoff"
)

// Wants says how much to buy: "4 x 310 ml (3 to 6)".
func (it *Item) Wants() string {
	text := strconv.Itoa(it.Packs[1])
	var step float64
	var unit string
	if k, err := fmt.Sscan(it.Pack, &step, &unit); it.Loose && err == nil && k == 2 {
		one := func(n int) string { return strconv.FormatFloat(float64(n)*step, 'g', 4, 64) }
		text = one(it.Packs[1]) + " " + unit
		if it.Packs[0] != it.Packs[2] {
			text += " (" + one(it.Packs[0]) + " to " + one(it.Packs[2]) + ")"
		}
		return text
	}
	switch {
	case strings.Contains(it.Pack, " + "):
		text = it.Pack
	case it.Pack != "":
		text += " x " + it.Pack
	}
	if it.Packs[1] == 0 && it.Packs[2] > 0 {
		return strings.TrimSuffix(fmt.Sprintf("up to %d x %s", it.Packs[2], it.Pack), " x ")
	}
	if it.Packs[0] != it.Packs[2] {
		text += fmt.Sprintf(" (%d to %d)", it.Packs[0], it.Packs[2])
	}
	return text
}

// Costs says what that costs, in a currency; about for what has no price of yours.
func (it *Item) Costs(currency string) string {
	about := "about "
	if it.known() {
		about = ""
	}
	switch {
	case it.Lot != "":
		return "in the price of " + it.Lot
	case !it.Priced:
		return "price not known"
	case it.Cost.High-it.Cost.Low < 0.005:
		return amount(it.Cost.Likely) + " " + currency
	}
	low, high := amount(it.Cost.Low), amount(it.Cost.High)
	if it.Cost.High >= 10 {
		low = fmt.Sprintf("%.0f", it.Cost.Low)
	}
	return strings.TrimSpace(about + low + " to " + high + " " + currency)
}

// amount shows money without its currency.
func amount(v float64) string {
	if v < 10 && math.Abs(v-math.Round(v)) > 0.005 {
		return strconv.FormatFloat(v, 'f', 2, 64)
	}
	return strconv.FormatFloat(v, 'f', 0, 64)
}

// Says tells the rest about a line: what to say at the counter, what it is for, what is
// on hand, what is left, what would do in its place, where the price is from.
func (it *Item) Says(sys quantity.System) []string {
	var out []string
	add := func(head, text string) {
		if text != "" {
			out = append(out, head+text)
		}
	}
	add("", it.Note)
	if it.Unit != takeoff.Pieces || len(it.Panels) > 0 {
		var parts []string
		for _, f := range it.From {
			if f.Amount.High > 0 {
				parts = append(parts, f.What+" "+it.show(f.Amount, sys))
			}
		}
		add("for: ", strings.Join(parts, "; "))
	} else if it.Group == takeoff.Plumbing || it.Group == takeoff.Consumable {
		var parts []string
		for _, f := range it.From {
			if !slices.Contains(parts, f.What) {
				parts = append(parts, f.What)
			}
		}
		add("for: ", strings.Join(parts, "; "))
	}
	add("on hand and used: ", it.Hold)
	add("left over: ", it.leftover(sys))
	add("", it.Rest)
	add("", strings.Join(it.Instead, "; "))
	if it.known() && it.Lot == "" {
		add("price ", it.PriceFrom)
	} else if it.Priced && it.Lot == "" && strings.HasSuffix(it.PriceFrom, string(catalogue.Assumed)) {
		add("", "price assumed")
	}
	return out
}

func (it *Item) leftover(sys quantity.System) string {
	if !(it.Left.Likely > 1e-9) {
		return ""
	}
	return it.show(takeoff.Band{Low: it.Left.Likely, Likely: it.Left.Likely, High: it.Left.Likely}, sys)
}

// show writes an amount in the units of the builder.
func (it *Item) show(b takeoff.Band, sys quantity.System) string {
	switch it.Unit {
	case takeoff.Metres:
		if sys == quantity.US {
			return feet(b)
		}
		return scaled(b, 1, "m")
	case takeoff.SquareMetres:
		return convert[quantity.Area](b).Show(sys)
	case takeoff.CubicMetres:
		if it.Key == "sealant" {
			if sys == quantity.US {
				return scaled(b, 29.5735295625e-6, "fl oz")
			}
			return scaled(b, 1e-6, "ml")
		}
		return convert[quantity.Volume](b).Show(sys)
	case takeoff.Kilograms:
		return convert[quantity.Mass](b).Show(sys)
	}
	return scaled(b, 1, "")
}

func feet(b takeoff.Band) string { return scaled(b, 0.3048, "ft") }

func scaled(b takeoff.Band, k float64, unit string) string {
	one := func(v float64) string { return strconv.FormatFloat(v/k, 'g', 3, 64) }
	low, high := one(b.Low), one(b.High)
	if b.High/k >= 1000 {
		low, high = strconv.FormatFloat(b.Low/k, 'f', 0, 64), strconv.FormatFloat(b.High/k, 'f', 0, 64)
	}
	text := low
	if low != high {
		text += " to " + high
	}
	return strings.TrimSpace(text + " " + unit)
}

func convert[T ~float64](b takeoff.Band) quantity.Band[T] {
	return quantity.Band[T]{Low: T(b.Low), Likely: T(b.Likely), High: T(b.High)}
}

// OnHand tells of the lines that what is on hand covers wholly.
func (l *List) OnHand(sys quantity.System) []string {
	var out []string
	for i := range l.Items {
		it := &l.Items[i]
		if it.Packs[2] > 0 || it.Hold == "" {
			continue
		}
		text := it.Name + ": " + it.Hold
		if left := it.leftover(sys); left != "" {
			text += "; left over: " + left
		}
		if it.Rest != "" {
			text += "; " + it.Rest
		}
		out = append(out, text)
	}
	return out
}

// Sums tells the total and what it is held against.
func (l *List) Sums() []string {
	band := func(b takeoff.Band) string {
		if b.High-b.Low < 0.5 {
			return fmt.Sprintf("%.0f %s", b.Likely, l.Currency)
		}
		return fmt.Sprintf("%.0f to %.0f %s, likely %.0f", b.Low, b.High, l.Currency, b.Likely)
	}
	var out []string
	for i := range l.Lots {
		out = append(out, fmt.Sprintf("%s, all of it: %s", l.Lots[i].What, band(l.Lots[i].Cost)))
	}
	out = append(out, "still to pay: "+band(l.Cost))
	if l.Paid > 0 {
		out = append(out, fmt.Sprintf("paid for what is on hand: %.0f %s", l.Paid, l.Currency), "in all: "+band(l.Total))
	}
	if l.Budget > 0 {
		rest := l.Budget - l.Total.Likely
		text := fmt.Sprintf("budget: %.0f %s, %.0f left", l.Budget, l.Currency, rest)
		if rest < 0 {
			text = fmt.Sprintf("budget: %.0f %s, %.0f too little", l.Budget, l.Currency, -rest)
		}
		out = append(out, text)
	}
	if len(l.Unpriced) > 0 {
		out = append(out, "no price known for: "+strings.Join(l.Unpriced, ", "))
	}
	if l.Generic > 0.005 {
		out = append(out, fmt.Sprintf("%.0f %% of what is still to pay is priced by generic ranges: from memory, or assumed. Ask, and type what you hear under budget.prices.", 100*l.Generic))
	}
	return append(out, "not counted: "+NotCounted)
}

// Rows is the list as a table, its first row the names of the columns.
func (l *List) Rows(sys quantity.System) [][]string {
	rows := [][]string{{"shop", "what", "buy", "pack", "packs low", "packs likely", "packs high", "currency", "cost low", "cost likely", "cost high", "price from", "on hand", "left over", "note", "instead"}}
	money := func(it *Item, v float64) string {
		if !it.Priced || it.Lot != "" {
			return ""
		}
		return strconv.FormatFloat(v, 'f', 2, 64)
	}
	for i := range l.Items {
		it := &l.Items[i]
		from := it.PriceFrom
		if it.Lot != "" {
			from = "in the price of " + it.Lot
		}
		rows = append(rows, []string{
			it.Shop, it.Name, it.Wants(), it.Pack, strconv.Itoa(it.Packs[0]), strconv.Itoa(it.Packs[1]), strconv.Itoa(it.Packs[2]),
			l.Currency, money(it, it.Cost.Low), money(it, it.Cost.Likely), money(it, it.Cost.High), from, it.Hold, it.leftover(sys), it.Note, strings.Join(it.Instead, "; "),
		})
	}
	for i := range l.Lots {
		p := &l.Lots[i]
		rows = append(rows, []string{"", p.What + ", all of it", "", "lot", "", "", "", l.Currency, strconv.FormatFloat(p.Cost.Low, 'f', 2, 64), strconv.FormatFloat(p.Cost.Likely, 'f', 2, 64), strconv.FormatFloat(p.Cost.High, 'f', 2, 64), p.From, "", "", p.Note, ""})
	}
	return rows
}
