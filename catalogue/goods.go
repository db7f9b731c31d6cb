package catalogue

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// Good is how one sort of thing is sold. Packs have one price each.
type Good struct {
	Key   string
	Shop  string
	Sold  string     // piece, volume, length, mass, yield (foam from a can), square (glass), tank
	Packs []PackSold // one piece without a text if it is sold so
	// Yield is how much carved foam (m3) comes from each m3 or kg in the can.
	Yield         [2]float64
	Mark          Mark
	Instead, Left string // what would do in its place; what to know of what is left
}

// PackSold is one size of pack and its price band, with no currency: the figures are
// those of the currency that goes with the units.
type PackSold struct {
	Text      string
	Low, High float64
}

// Goods returns how things are sold that parts do not tell, by key, for metric or US
// packs; fittings are sold by the piece at the price of their kind. An error means
// that the built-in data is broken.
func Goods(us bool) (map[string]Good, error) {
	t, err := openTable("prices.csv")
	if err != nil {
		return nil, err
	}
	out := map[string]Good{}
	for t.next() {
		if k := t.text("kind"); t.text("per_metric") == "piece" {
			out[k] = Good{Key: k, Shop: "plumbing aisle", Sold: "piece", Packs: []PackSold{{"", t.num("low"), t.num("high")}}, Mark: FromMemory}
		}
	}
	if err := t.err(); err != nil {
		return nil, err
	}
	if t, err = openTable("goods.csv"); err != nil {
		return nil, err
	}
	system := "metric"
	if us {
		system = "us"
	}
	for t.next() {
		g := Good{
			Key: t.text("key"), Shop: t.text("shop"), Sold: t.text("sold"), Yield: [2]float64{t.num("yield_low"), t.num("yield_high")},
			Mark: Mark(t.text("mark")), Instead: t.text("instead"), Left: t.text("left"),
		}
		packs := t.text("packs_" + system)
		if g.Sold == "yield" && packs == "" {
			continue // the row of the other system
		}
		texts := strings.Split(packs, ";")
		low, high := t.amounts("low_"+system, len(texts)), t.amounts("high_"+system, len(texts))
		for i, text := range texts {
			if low[i] > high[i] {
				t.fail(fmt.Errorf("%s: %g is above %g", g.Key, low[i], high[i]))
			}
			g.Packs = append(g.Packs, PackSold{text, low[i], high[i]})
		}
		out[g.Key] = g
	}
	return out, t.err()
}

// amounts reads a list of n amounts, or one that holds for all.
func (t *table) amounts(column string, n int) []float64 {
	list := strings.Split(t.text(column), ";")
	out := make([]float64, n)
	if len(list) != 1 && len(list) != n {
		t.fail(errors.New(column + ": another number of amounts than packs"))
		return out
	}
	for i := range out {
		text := list[min(i, len(list)-1)]
		v, err := strconv.ParseFloat(text, 64)
		if err != nil || v < 0 {
			t.fail(fmt.Errorf("%s: %q is not an amount", column, text))
		}
		out[i] = v
	}
	return out
}
