package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/quantity"
	"rillwright/shopping"
	"rillwright/study"
	"rillwright/takeoff"
)

// Purchases makes the list of what to buy and answers what it takes and what it costs,
// and, if asked, what would cost less. Prices are those of the builder's price file. The error is of the built-in data.
func (s *Survey) Purchases(prices []shopping.Price, less bool) (*shopping.List, []Answer, error) {
	joints := study.SealedJoints(s.E, s.glass())
	list, err := shopping.Of(s.E, takeoff.Of(s.E, joints), prices)
	if err != nil {
		return nil, nil, err
	}
	cost := s.cost(list)
	if less && cost.Verdict != Holds && list.Budget > 0 {
		changes, all, err := shopping.Cheaper(s.E, joints, prices, list)
		if err != nil {
			return nil, nil, err
		}
		s.spendLess(&cost, list, changes, all)
	}
	return list, []Answer{s.materials(list), cost}, nil
}

// materials answers how much sealant and foam it takes.
func (s *Survey) materials(list *shopping.List) Answer {
	a := Answer{ID: "materials", Question: "How many tubes of silicone and cans of foam?"}
	a.Limit = Limit{Text: "what is on hand", Source: "practice", Mark: "volumes computed; what a can of foam yields is from memory"}
	var said []string
	short := false
	for i := range list.Items {
		it := &list.Items[i]
		if it.Key != "sealant" && it.Key != "foam" {
			continue
		}
		need := volumeFigure(it.Name+" in all", it.Amount, s.E.Units)
		if it.Key == "foam" {
			need = figure("foam, carved, with what is cut off", quantity.Band[quantity.Volume]{Low: quantity.Volume(it.Amount.Low), Likely: quantity.Volume(it.Amount.Likely), High: quantity.Volume(it.Amount.High)}, s.E.Units)
		}
		a.Figures = append(a.Figures, need)
		for _, f := range it.From {
			if it.Key == "sealant" {
				a.Figures = append(a.Figures, volumeFigure("of it: "+f.What, f.Amount, s.E.Units))
			}
		}
		buy := packsFigure(it.Name+" to buy, packs of "+it.Pack, it.Packs)
		a.Figures = append(a.Figures, buy)
		what := map[string][2]string{"sealant": {"cartridge", "cartridges"}, "foam": {"can", "cans"}}[it.Key]
		text := fmt.Sprintf("%s: ", it.Name)
		if it.Hold != "" {
			text += it.Hold + " of what you have, and "
			short = short || it.Packs[2] > 0
		}
		if it.Packs[2] == 0 {
			text += "none to buy"
		} else {
			text += buy.Text + " " + what[1] + " of " + it.Pack + " to buy"
		}
		said = append(said, text)
		if it.Packs[2] > 0 && it.Hold != "" && a.LimitingLine == 0 {
			a.Limiting, a.LimitingLine = it.Name, it.Line
		}
		m := Matter{What: it.Name + ": its amount", Range: need.Text, Effect: buy.Text + " " + what[1] + " to buy", Swing: (it.Amount.High - it.Amount.Low) / math.Max(it.Amount.Likely, 1e-12), Why: "thickness of beds and coat, waste", Settle: "spacers in the joints; a trial patch of coat", Line: it.Line}
		if it.Key == "foam" {
			m.Why, m.Settle = "what a can yields, what is carved off", "one can into a box, measured when it has cured"
		}
		a.Matters = append(a.Matters, m)
	}
	rank(a.Matters)
	d := s.E.Design
	if len(d.Foam) == 0 {
		said = append(said, "foam: none is in the file (foam)")
	}
	if len(d.Coat) == 0 {
		said = append(said, "a coat over foam: none is in the file (coat)")
	}
	a.Say = sentence(strings.Join(said, "; ") + ".")
	if short {
		a.Verdict = Tight
	}
	a.Cautions = append(a.Cautions, "Buy sealant with a date a year ahead: an old cartridge does not cure.")
	return a
}

func packsFigure(name string, n shopping.Ends) Figure {
	f := Figure{Name: name, Low: float64(n[0]), Likely: float64(n[1]), High: float64(n[2]), Text: fmt.Sprint(n[1])}
	if n[0] != n[2] {
		f.Text = fmt.Sprintf("%d to %d, likely %d", n[0], n[2], n[1])
	}
	return f
}

// money shows an amount in whole units.
func money(v float64, currency string) string { return fmt.Sprintf("%.0f %s", v, currency) }

func moneyFigure(name string, b takeoff.Band, currency string) Figure {
	f := Figure{Name: name, Low: b.Low, Likely: b.Likely, High: b.High, Unit: currency, Text: money(b.Likely, currency)}
	if b.Low != b.High {
		f.Text = fmt.Sprintf("%.0f to %s, likely %.0f", b.Low, money(b.High, currency), b.Likely)
	}
	return f
}

// cost answers what all of it costs.
func (s *Survey) cost(list *shopping.List) Answer {
	a := Answer{ID: "cost", Question: "What will it cost in all?"}
	c := list.Currency
	total := moneyFigure("in all", list.Total, c)
	if list.Budget > 0 {
		total = bounded(total, list.Budget)
	}
	a.Figures = append(a.Figures, total, moneyFigure("still to pay", list.Cost, c))
	if list.Paid > 0 {
		a.Figures = append(a.Figures, moneyFigure("paid for what is on hand", takeoff.Band{Low: list.Paid, Likely: list.Paid, High: list.Paid}, c))
	}
	for _, shop := range shopping.Shops() {
		if sum := shopCost(list, shop); sum.High > 0 {
			a.Figures = append(a.Figures, moneyFigure("at the "+shop, sum, c))
		}
	}
	a.Score = -list.Total.High
	a.Limit = Limit{Text: "the money of the budget", Source: "practice", Mark: "prices without yours are generic ranges from memory"}
	s.costMatters(&a, list)
	if len(list.Unpriced) > 0 {
		a.Cautions = append(a.Cautions, "No price is known for: "+strings.Join(list.Unpriced, ", ")+". Type it under budget.prices.")
	}
	for i := range list.Unused {
		a.Cautions = append(a.Cautions, fmt.Sprintf("The price for %q (%s) stands for nothing on the list: name it as the list does, or list it under buy.", list.Unused[i].What, list.Unused[i].From))
	}
	a.Cautions = append(a.Cautions, "Not counted: "+shopping.NotCounted+".")
	if list.Budget == 0 {
		a.Verdict = Unknown
		a.Say = fmt.Sprintf("%s, of which %s is still to be paid. What it may cost the file does not say: write budget.money.", total.Text, money(list.Cost.Likely, c))
		return a
	}
	b := money(list.Budget, c)
	over := list.Total.Likely - list.Budget
	a.LimitingLine = s.E.Design.Budget.Money.Pos.Line
	switch {
	case over > 0:
		a.Verdict = Fails
		a.Say = fmt.Sprintf("%s: likely %s more than your %s.", total.Text, money(over, c), b)
	case len(list.Unpriced) > 0:
		a.Verdict = Unknown
		a.Say = fmt.Sprintf("%s without what has no price yet, of your %s.", total.Text, b)
	case list.Total.High > list.Budget:
		a.Verdict = Tight
		a.Say = fmt.Sprintf("%s, within your %s if prices are kind: at their bad end it is %s more.", total.Text, b, money(list.Total.High-list.Budget, c))
	default:
		a.Say = fmt.Sprintf("%s, within your %s even at the dear end.", total.Text, b)
	}
	a.Margin = fmt.Sprintf("%s left at the likely figure, of %s", money(-over, c), b)
	if over > 0 {
		a.Margin = fmt.Sprintf("%s too much at the likely figure, of %s", money(over, c), b)
	}
	return a
}

// shopCost sums a shop; prices for the lot are counted where their first line is.
func shopCost(list *shopping.List, shop string) takeoff.Band {
	var sum takeoff.Band
	first := map[string]string{}
	for i := range list.Items {
		it := &list.Items[i]
		if it.Lot != "" {
			if first[it.Lot] == "" {
				first[it.Lot] = it.Shop
			}
			continue
		}
		if it.Shop == shop {
			sum = takeoff.Band{Low: sum.Low + it.Cost.Low, Likely: sum.Likely + it.Cost.Likely, High: sum.High + it.Cost.High}
		}
	}
	for i := range list.Lots {
		if l := &list.Lots[i]; first[l.What] == shop {
			sum = takeoff.Band{Low: sum.Low + l.Cost.Low, Likely: sum.Likely + l.Cost.Likely, High: sum.High + l.Cost.High}
		}
	}
	return sum
}

// costMatters ranks the prices and amounts that move the total, each moved alone.
func (s *Survey) costMatters(a *Answer, list *shopping.List) {
	t := list.Total.Likely
	if t <= 0 {
		return
	}
	groups := map[string]*Matter{}
	var order []string
	low, high := map[string]float64{}, map[string]float64{}
	for i := range list.Items {
		it := &list.Items[i]
		if it.Lot != "" || !(it.Cost.High > it.Cost.Low) {
			continue
		}
		name := it.Name
		if it.Key == "glass" {
			name = "glass cut to size"
		}
		if groups[name] == nil {
			why := "price " + it.PriceFrom
			if it.Packs[0] != it.Packs[2] {
				why += "; " + packsFigure("", it.Packs).Text + " packs"
			}
			groups[name] = &Matter{What: name, Why: why, Settle: "ask for the price and type it under budget.prices", Line: it.Line}
			order = append(order, name)
		}
		low[name] += it.Cost.Low
		high[name] += it.Cost.High
	}
	for _, name := range order {
		m := groups[name]
		m.Range = fmt.Sprintf("%.0f to %s", low[name], money(high[name], list.Currency))
		mid := (low[name] + high[name]) / 2
		m.Effect = fmt.Sprintf("%.0f to %s in all", t-mid+low[name], money(t-mid+high[name], list.Currency))
		m.Swing = (high[name] - low[name]) / t
		a.Matters = append(a.Matters, *m)
	}
	rank(a.Matters)
	a.Matters = a.Matters[:min(len(a.Matters), 6)]
}

// spendLess adds what costs less, and as many of the changes together as it takes to
// meet the budget.
func (s *Survey) spendLess(a *Answer, list *shopping.List, changes []shopping.Change, together []takeoff.Band) {
	verdict := func(b takeoff.Band) Verdict {
		switch {
		case b.Likely > list.Budget:
			return Fails
		case len(list.Unpriced) > 0:
			return Unknown
		case b.High > list.Budget:
			return Tight
		}
		return Holds
	}
	text := func(b takeoff.Band) string { return moneyFigure("", b, list.Currency).Text }
	for i := range changes {
		c := &changes[i]
		if len(c.Edits) == 0 { // another design: told, not offered
			a.Cautions = append(a.Cautions, fmt.Sprintf("To %s would bring it to %s.", c.Do, text(c.After)))
			continue
		}
		saves := "saves about " + money(c.Saves, list.Currency)
		if c.Saves < 0.5 {
			saves = "saves up to " + money(c.SavesMost, list.Currency) + " at the dear end"
		}
		a.Fixes = append(a.Fixes, Fix{
			Do: c.Do, Edits: c.Edits, Cost: saves + "; gives up " + c.Gives,
			Weight: float64(i), Before: text(list.Total), After: text(c.After), Verdict: verdict(c.After),
		})
	}
	n := 1
	for n < len(together) && verdict(together[n-1]) >= a.Verdict {
		n++ // the fewest that bring it to a better verdict
	}
	if len(together) == 0 {
		return
	}
	last := together[n-1]
	if n > 1 {
		var edits []Edit
		for i := range n {
			edits = append(edits, changes[i].Edits...)
		}
		a.Fixes = append(a.Fixes, Fix{
			Do: fmt.Sprintf("do the first %d of these together", n), Edits: edits, Cost: "saves about " + money(list.Total.Likely-last.Likely, list.Currency),
			Weight: float64(len(changes)), Before: text(list.Total), After: text(last), Verdict: verdict(last),
		})
	}
	if a.Verdict == Fails && verdict(last) == Fails {
		a.Cautions = append(a.Cautions, fmt.Sprintf("All of that together still leaves it at %s: ask prices, build smaller, or raise budget.money.", text(last)))
	}
}
