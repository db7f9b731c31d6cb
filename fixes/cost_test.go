package fixes

import (
	"testing"

	"rillwright/answers"
	"rillwright/catalogue"
	"rillwright/quantity"
)

// A metric design may hold inch parts. What parts of a kind cost has the same figures
// in EUR and USD, and is said to be from memory; any other price in another currency
// stays as it is and says how it is ranked.
func TestForeignPrice(t *testing.T) {
	metric, _ := surveyed(t, demo("metric"))
	us, _ := surveyed(t, demo("us"))
	pounds, _ := surveyed(t, demo("metric"), " EUR", " GBP")
	part := func(name string) *catalogue.Part {
		p, ok := metric.cat.Find(name)
		if !ok {
			t.Fatalf("no part %q", name)
		}
		return &p
	}
	inch, mm := part("vinyl hose 5/8 in"), part("vinyl hose 16 mm")
	for _, c := range []struct {
		got  cost
		want string
	}{
		// prices.csv: hose 0.5 to 2 USD/ft, 1.5 to 5 EUR/m
		{metric.price(inch, 10*0.3048).and(" and fittings", 10), "about 5 to 20 EUR or USD and fittings; from memory"},
		{metric.price(mm, 10).and(" and fittings", 10), "about 15 to 50 EUR and fittings; from memory"},
		{us.price(mm, 2), "about 3 to 10 USD or EUR, from memory"},
		{us.price(inch, 0.3048), "about 0 to 2 USD, from memory"},
		{us.money(quantity.Money{Amount: 45, Currency: "CAD"}), "45 CAD (ranked as up to 100 USD)"},
		{us.money(quantity.Money{}), "price not given"},
		{pounds.price(mm, 2), "about 3 to 10 EUR (ranked as up to 10 GBP), from memory"},
		{metric.price(&catalogue.Part{Price: catalogue.Price{Low: 7, High: 7, Currency: "USD", Per: "piece", Mark: catalogue.Measured}}, 0), "about 7 USD (ranked as up to 10 EUR)"},
	} {
		if c.got.String() != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// Within a currency the smaller amount comes first; across, what costs less than
// a tenth does. It is an order: no two equal, none in a ring.
func TestOrderOfCosts(t *testing.T) {
	f, _ := surveyed(t, demo("metric"))
	type priced struct {
		quantity.Money
		fix answers.Fix
	}
	var list []priced
	for _, code := range []string{"EUR", "USD", "GBP"} {
		for _, v := range []float64{0.4, 0.9, 2, 8, 10, 11, 47, 99, 101, 3000} {
			m := quantity.Money{Amount: v, Currency: code}
			c := f.money(m)
			list = append(list, priced{m, answers.Fix{Weight: c.weight(), Price: c.rankable()}})
		}
	}
	for _, x := range list {
		for _, y := range list {
			xy := byCost(x.fix, y.fix)
			if xy == 0 != (x.Money == y.Money) || xy != -byCost(y.fix, x.fix) {
				t.Errorf("%v and %v: %d and %d", x.Money, y.Money, xy, byCost(y.fix, x.fix))
			}
			cheaper := x.Amount < y.Amount && x.Currency == y.Currency || 10*max(x.Amount, 0.1) < y.Amount
			if cheaper && xy >= 0 {
				t.Errorf("%v does not stand before %v", x.Money, y.Money)
			}
			for _, z := range list {
				if xy < 0 && byCost(y.fix, z.fix) < 0 && byCost(x.fix, z.fix) >= 0 {
					t.Errorf("%v, %v, %v go round", x.Money, y.Money, z.Money)
				}
			}
		}
	}
}
