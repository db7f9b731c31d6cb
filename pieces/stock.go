package pieces

import (
	"strings"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/quantity"
)

// held is one piece of stock, on hand or sold.
type held struct {
	Stock
	count int // 0: any number
	size  []float64
	trim  float64
	cost  float64 // of each; 0 if size counts
}

// readSize reads a size as it stands on a label: 600 x 1200 mm, 2 x 4 ft, 900 x 400 x
// 6 mm, 2 m. A unit holds for the figures before it that have none; a size without
// any unit is not read.
func readSize(text string) (out []float64, ok bool) {
	text = strings.ReplaceAll(text, "×", "x")
	parts := strings.Split(text, "x")
	unit := ""
	out = make([]float64, len(parts))
	for i := len(parts) - 1; i >= 0; i-- {
		s := strings.TrimSpace(parts[i])
		if k := strings.LastIndexAny(s, "0123456789½¼¾⅛⅜⅝⅞"); k < 0 {
			return nil, false
		} else if tail := strings.TrimSpace(strings.TrimLeft(s[k:], "0123456789½¼¾⅛⅜⅝⅞")); tail != "" {
			unit = tail
		} else {
			s += " " + unit
		}
		var l quantity.Length
		if l.UnmarshalText([]byte(s)) != nil || l <= 0 {
			return nil, false
		}
		out[i] = float64(l)
	}
	return out, true
}

// stock returns what is on hand of the things that want says yes to, by the words of
// the file, and that have a size of at least n figures.
func (b *builder) stock(n int, want func(what string) bool) (out []held) {
	for i := range b.e.Design.Stock {
		s := &b.e.Design.Stock[i]
		if !want(strings.ToLower(s.What.Value)) {
			continue
		}
		size, ok := readSize(s.Size.Value)
		if !ok || len(size) < n {
			b.assume("of the stock, " + s.What.Value + " is left out of the cut layouts: its size is not to be read; write it as 600 x 400 x 6 mm, 2 x 4 ft or 2 m")
			continue
		}
		count := 1
		if s.Count.Given() {
			count = s.Count.Value
		}
		if count > 0 {
			out = append(out, held{Stock: Stock{Name: s.What.Value + ", " + s.Size.Value, OnHand: true, Line: s.Pos.Line}, count: count, size: size})
		}
	}
	return out
}

// gridSheets returns the grid sheets on hand, then those sold. One on hand that bears
// the name of a size as sold has that size's real measures.
func (b *builder) gridSheets() (out []held) {
	sold := b.sold("grid sheet")
	for _, h := range b.stock(2, func(what string) bool { return strings.Contains(what, "grid") }) {
		for _, s := range sold {
			if strings.HasSuffix(h.Name, ", "+s.Name) {
				h.size, h.Note = s.size, s.Note
			}
		}
		out = append(out, h)
	}
	return append(out, sold...)
}

// sold returns the sizes that a material is sold in, for the units of the design.
func (b *builder) sold(what string) (out []held) {
	for _, s := range b.e.Parts.Sheets() {
		if s.What == what && s.US == b.us() {
			out = append(out, held{
				Stock: Stock{Name: s.Label, Note: s.Note}, size: []float64{float64(s.Width), float64(s.Height)}, trim: float64(s.Trim),
			})
		}
	}
	return out
}

// pipeSold returns the lengths that a part is sold in: its own, else those of pipe, at
// the middle of their price band, so that the layout is what the shopping list buys.
func (b *builder) pipeSold(part string) (out []held) {
	goods, err := catalogue.Goods(b.us())
	if err != nil {
		return nil // the built-in list is tested
	}
	packs := goods["pipe"].Packs
	if len(packs) == 0 {
		return nil
	}
	if p, ok := b.e.Parts.Find(part); ok && len(p.Stock) > 0 {
		for _, l := range p.Stock {
			out = append(out, held{Stock: Stock{Name: l.Show(b.e.Units)}, size: []float64{float64(l)}, cost: (packs[0].Low + packs[0].High) / 2})
		}
		return out
	}
	for _, s := range packs {
		if k, err := design.ReadPack(s.Text, b.us()); err == nil && k.Kind == design.PackLength {
			out = append(out, held{Stock: Stock{Name: s.Text}, size: []float64{k.Size}, cost: (s.Low + s.High) / 2})
		}
	}
	return out
}
