package fixes

import (
	"cmp"
	"fmt"
	"math"

	"rillwright/answers"
	"rillwright/catalogue"
	"rillwright/enclosure"
	"rillwright/quantity"
)

// What stands for a price that is not known, for ranking, in the design's own
// money: assumed, no source.
const (
	partUnknown = 20
	pumpUnknown = 30
)

// cost is what a change costs. Prices are never converted: there is no rate here
// that would stay true. One in another currency than the design's is known by
// its order of magnitude only, and counts as the top of it.
type cost struct {
	words   string  // of the price: "about 2 to 8 EUR", "nothing"
	besides string  // what else there is to buy: " and fittings"
	amount  float64 // in all, in the currency
	foreign string  // the currency, if it is not the design's
	own     string  // the design's
	memory  bool    // the price is from memory
}

// nothing is a cost that ranks before every other.
func nothing(words string) cost { return cost{words: words} }

// and returns the cost with something else to buy, at a guess of its price.
func (c cost) and(besides string, guess float64) cost {
	c.besides += besides
	c.amount += guess
	return c
}

// weight is what costs are ranked by.
func (c cost) weight() float64 {
	if c.foreign == "" {
		return c.amount
	}
	return math.Pow(10, math.Ceil(math.Log10(max(c.amount, 1))))
}

func (c cost) String() string {
	note := ""
	if c.foreign != "" {
		note = fmt.Sprintf(" (ranked as up to %.0f %s)", c.weight(), c.own)
	}
	text := c.words + note + c.besides
	switch {
	case !c.memory:
	case c.besides == "":
		text += ", from memory"
	default:
		text += "; from memory"
	}
	return text
}

// rankable returns what puts equal weights in order: foreign prices behind, by
// currency and then by amount.
func (c cost) rankable() quantity.Money {
	if c.foreign == "" {
		return quantity.Money{}
	}
	return quantity.Money{Amount: c.amount, Currency: c.foreign}
}

// byCost puts the cheaper fix first.
func byCost(x, y answers.Fix) int {
	return cmp.Or(
		cmp.Compare(x.Weight, y.Weight),
		cmp.Compare(x.Price.Currency, y.Price.Currency),
		cmp.Compare(x.Price.Amount, y.Price.Amount),
	)
}

// Currency returns the currency of a design, in which costs are reckoned.
func Currency(e *enclosure.Enclosure) string {
	return (&finder{s: &answers.Survey{E: e}}).currency()
}

// currency is the design's own: that of the first price in it, else the one its
// units suggest.
func (f *finder) currency() string {
	e := f.s.E
	for i := range e.Pumps {
		if c := e.Pumps[i].Price.Currency; c != "" {
			return c
		}
	}
	for i := range e.Shelf {
		if c := e.Shelf[i].Price.Currency; c != "" {
			return c
		}
	}
	if e.Units == quantity.US {
		return "USD"
	}
	return "EUR"
}

func (f *finder) in(currency string, c cost) cost {
	if c.own = f.currency(); currency != c.own {
		c.foreign = currency
	}
	return c
}

// price says what a part costs, length metres of it if it is sold by length. Bands
// that go by kind have the same figures in EUR and USD: a size of the other system
// needs no rate then.
func (f *finder) price(p *catalogue.Part, length float64) cost {
	if !p.Price.Given() {
		return cost{words: "price not known", amount: partUnknown}
	}
	n := 1.0
	switch p.Price.Per {
	case "m":
		n = length
	case "ft":
		n = length / 0.3048
	}
	low, high, currency := p.Price.Low*n, p.Price.High*n, p.Price.Currency
	words := currency
	if own := f.currency(); p.Price.Generic && own != currency && (own == "EUR" || own == "USD") {
		words, currency = own+" or "+currency, own
	}
	text := fmt.Sprintf("about %.0f to %.0f %s", low, high, words)
	if low == high {
		text = fmt.Sprintf("about %.0f %s", low, words)
	}
	return f.in(currency, cost{
		words: text, amount: (low + high) / 2, memory: p.Price.Mark == catalogue.FromMemory,
	})
}

func (f *finder) money(m quantity.Money) cost {
	if m.Currency == "" {
		return cost{words: "price not given", amount: pumpUnknown}
	}
	return f.in(m.Currency, cost{words: m.Show(quantity.Metric), amount: m.Amount})
}
