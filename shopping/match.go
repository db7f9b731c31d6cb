package shopping

import (
	"slices"
	"strings"
	"unicode"

	"rillwright/design"
	"rillwright/takeoff"
)

// alike are words that mean one thing on these lists.
var alike = map[string]string{"silicone": "sealant", "gfci": "rcd", "lamp": "light", "adapter": "plug", "tote": "box", "eggcrate": "grid", "tank": "tank"}

// words takes a name apart: small letters, no plurals, no little words. What stands
// behind "for" is what a thing is for.
func words(name string) []string {
	name, _, _ = strings.Cut(strings.ToLower(name), " for ")
	var out []string
	for _, w := range strings.FieldsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '/' && r != '.' }) {
		switch w {
		case "a", "an", "and", "of", "or", "the", "to", "with":
			continue
		}
		if len(w) > 3 && !strings.HasSuffix(w, "ss") {
			w = strings.TrimSuffix(w, "s")
		}
		if x, ok := alike[w]; ok {
			w = x
		}
		out = append(out, w)
	}
	return out
}

// fit says how well a name stands for a need: the number of its words if the need has
// all of them, one more if it has no other; 0 if it does not stand for it.
func fit(name string, n *takeoff.Need) int {
	asked := words(name)
	have := slices.Concat(words(n.Name), words(n.Key))
	if len(asked) == 0 {
		return 0
	}
	for _, w := range asked {
		if !slices.Contains(have, w) {
			return 0
		}
	}
	score := 2 * len(asked)
	if len(asked) == len(words(n.Name)) {
		score++
	}
	return score
}

// lotOf reports whether a price for all of something covers a line.
func (b *buyer) lotOf(p *Price, it *Item) bool {
	return strings.EqualFold(strings.TrimSpace(p.What), string(it.Group)) || fit(p.What, &it.Need) > 0
}

// priced returns the price that stands best for a need, among those that can: the
// design's own before those of its price file.
func (b *buyer) priced(n *takeoff.Need, can func(design.Pack) bool) (*Price, bool) {
	best, at := 0, -1
	for k := range b.prices {
		if p := &b.prices[k]; p.Pack.Kind != design.PackLot && can(p.Pack) {
			if score := fit(p.What, n); score > best {
				best, at = score, k
			}
		}
	}
	if at < 0 {
		return nil, false
	}
	b.used[at] = true
	return &b.prices[at], true
}

// held is something on hand, as far as it is not used yet.
type held struct {
	item *design.StockItem
	pack design.Pack
	left int
}

func holdings(d *design.Design, us bool) []held {
	var out []held
	for i := range d.Stock {
		it := &d.Stock[i]
		n := 1
		if it.Count.Given() {
			n = max(it.Count.Value, 0)
		}
		pack, err := design.ReadPack(it.Size.Value, us)
		if err != nil || it.Size.Value == "" {
			pack = design.Pack{} // of the usual size
		}
		out = append(out, held{it, pack, n})
	}
	return out
}

// onHand returns the rows of stock that stand for a need and are not used up.
func (b *buyer) onHand(n *takeoff.Need) []*held {
	var out []*held
	for i := range b.stock {
		if h := &b.stock[i]; h.left > 0 && fit(h.item.What.Value, n) > 0 {
			out = append(out, h)
		}
	}
	return out
}
