package design

import (
	"fmt"
	"slices"
	"strings"

	"rillwright/quantity"
)

// buying checks what is to be bought.
func (c *checker) buying() {
	for i := range c.d.Foam {
		f := &c.d.Foam[i]
		c.measured(entry("foam", f.Name, i), f.Pos, "volume", f.Volume.Given(), map[string]Field[length]{"width": f.Width, "height": f.Height, "thickness": f.Thickness})
	}
	for i := range c.d.Coat {
		f := &c.d.Coat[i]
		c.measured(entry("coat", f.Name, i), f.Pos, "area", f.Area.Given(), map[string]Field[length]{"width": f.Width, "height": f.Height})
	}
	for i := range c.d.Fill {
		f := &c.d.Fill[i]
		c.measured(fmt.Sprintf("fill[%d]", i+1), f.Pos, "volume", f.Volume.Given(), map[string]Field[length]{"width": f.Width, "depth": f.Depth, "height": f.Height})
	}
	for i := range c.d.Budget.Prices {
		p := &c.d.Budget.Prices[i]
		if !reads(c, p.Pack) {
			continue
		}
		if _, err := ReadPack(p.Pack.Value, c.d.Units.Value == "us"); err != nil {
			c.report(p.Pack.Pos, fmt.Sprintf("budget.prices[%d].pack", i+1), err.Error(), PackHelp)
		}
	}
}

// measured checks that something is told by its sizes or by one figure in their
// place, and not by both.
func (c *checker) measured(path string, at Pos, instead string, whole bool, sizes map[string]Field[length]) {
	var given, missing []string
	for key, f := range sizes {
		if f.Given() {
			given = append(given, key)
		} else if lacks(c, f, path+"."+key) {
			missing = append(missing, key)
		}
	}
	slices.Sort(given)
	slices.Sort(missing)
	switch {
	case whole && len(given) > 0:
		c.report(at, path+"."+instead, fmt.Sprintf("%s stands beside %s, and one of them is enough", instead, either(given)), "keep one of the two ways to say how much it is")
	case !whole && len(missing) > 0 && !c.partial:
		c.report(at, path+"."+missing[0], "how much it is is not said", fmt.Sprintf(`write "%s:", or in place of all sizes "%s:"`, missing[0], instead))
	}
}

// PackKind is what a pack is counted in.
type PackKind int

// The kinds of pack.
const (
	PackPieces PackKind = iota
	PackLot             // one price for all of it
	PackVolume          // m3
	PackLength          // m
	PackMass            // kg
	PackArea            // m2
)

// Pack is what one pack holds, in SI.
type Pack struct {
	Kind PackKind
	Size float64
}

// PackHelp says how a pack is written.
const PackHelp = "write what one pack holds: 300 ml, 10.1 fl oz, 5 m, 20 L, 10 pieces; or lot, if the price is for all of it"

// ReadPack reads what a pack holds; us says that a bare quart or gallon is a US one; a
// bare fl oz always is, as cartridges are labelled. A sheet, "600 x 1200 mm", is a piece. The error says what is wrong.
func ReadPack(text string, us bool) (Pack, error) {
	s := strings.ToLower(strings.TrimSpace(text))
	switch s {
	case "lot", "all":
		return Pack{PackLot, 1}, nil
	case "", "each", "piece", "1 piece":
		return Pack{PackPieces, 1}, nil
	}
	if strings.ContainsAny(s, "x×") && !strings.Contains(s, "box") {
		return Pack{PackPieces, 1}, nil
	}
	var n int
	var word string
	if k, err := fmt.Sscanf(s, "%d %s", &n, &word); err == nil && k == 2 && n > 0 && strings.HasPrefix(word, "piece") {
		return Pack{PackPieces, float64(n)}, nil
	}
	if v, ok := packVolume(s, us); ok {
		return Pack{PackVolume, v}, nil
	}
	if v, err := quantity.ParseLength(s); err == nil && v > 0 {
		return Pack{PackLength, float64(v)}, nil
	}
	if v, err := quantity.ParseArea(s); err == nil && v > 0 {
		return Pack{PackArea, float64(v)}, nil
	}
	if v, err := quantity.ParseMass(s); err == nil && v > 0 {
		return Pack{PackMass, float64(v)}, nil
	}
	return Pack{}, fmt.Errorf("%q does not say what a pack holds", text)
}

func packVolume(s string, us bool) (float64, bool) {
	v, err := quantity.ParseVolume(s)
	if err != nil {
		s = strings.ReplaceAll(s, "fl. oz.", "fl oz")
		units := []string{"fl oz"}
		if us {
			units = append(units, "qt", "quart", "gal")
		}
		for _, unit := range units {
			if before, rest, ok := strings.Cut(s, unit); ok {
				v, err = quantity.ParseVolume(before + "US " + unit + rest)
				break
			}
		}
	}
	return float64(v), err == nil && v > 0
}
