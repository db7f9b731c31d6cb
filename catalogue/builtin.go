package catalogue

import (
	"errors"
	"strings"

	"rillwright/quantity"
)

// Builtin returns the built-in catalogue, read afresh from the data inside the
// program. An error means that this data is broken; it is ours, not the user's.
func Builtin() (*Catalogue, error) {
	b := &builder{
		parts: make([]Part, 0, 900), // spares copying these large records as they grow in number
		bores: make(map[End]sizeRow, 80),
		sets:  make(map[string][]sizeRow, 12),
	}
	known := make(map[string]End, 200)
	for _, step := range []struct {
		file string
		read func(*table)
	}{
		{"sizes.csv", b.sizes},
		{"prices.csv", b.priceBands},
		{"pipes_us.csv", func(t *table) { b.pipes(t, "in", inch) }},
		{"pipes_metric.csv", func(t *table) { b.pipes(t, "mm", mm) }},
		{"hoses.csv", b.hoses},
		{"families.csv", b.families},
		{"adapters.csv", b.adapters},
		{"bulkheads.csv", b.bulkheads},
		{"strainers.csv", b.strainers},
		{"emitters.csv", b.emitters},
		{"pumps.csv", b.pumps},
		{"pump_curves.csv", b.pumpCurves},
		{"sheets.csv", b.flat},
	} {
		t, err := openTable(step.file)
		if err != nil {
			return nil, err
		}
		t.known = known
		for t.next() {
			step.read(t)
		}
		b.errs = append(b.errs, t.err())
	}
	if err := errors.Join(b.errs...); err != nil {
		return nil, err
	}
	c := newCatalogue(b.parts, nil)
	c.sheets = b.sheets
	return c, nil
}

// sizeRow is one nominal size of fittings.
type sizeRow struct {
	size   Size
	end    End
	bore   quantity.Band[quantity.Length]
	dn     float64 // nominal inches
	source string
	mark   Mark
	ends   []End // three times end, shared by all parts of the size
}

// builder gathers the parts of the built-in catalogue.
type builder struct {
	parts  []Part
	sets   map[string][]sizeRow
	bores  map[End]sizeRow // by boreKey
	prices []priceRow
	sheets []Sheet
	errs   []error
}

type priceRow struct {
	kind          Kind
	low, high     float64
	perUS, perMet string
}

// boreKey returns the end under which the bore of e is filed: both halves of a
// joint, and all British pipe threads, share a row.
func boreKey(e End) End {
	switch e.Form {
	case Spigot:
		e.Form = Socket
	case MaleThread:
		e.Form = FemaleThread
	}
	if e.System == BSPParallel || e.System == BSPUnknown {
		e.System = BSPTaper
	}
	return e
}

func (b *builder) sizes(t *table) {
	r := sizeRow{
		size: t.size("size"),
		end:  t.end("end"),
		bore: quantity.Band[quantity.Length]{
			Low:    t.length("bore_low_mm", mm),
			Likely: t.length("bore_mm", mm),
			High:   t.length("bore_high_mm", mm),
		},
		dn:     t.num("dn_in"),
		source: t.text("source"),
		mark:   Mark(t.text("mark")),
	}
	r.ends = []End{r.end, r.end, r.end}
	set := t.text("set")
	b.sets[set] = append(b.sets[set], r)
	b.bores[boreKey(r.end)] = r
}

func (b *builder) priceBands(t *table) {
	b.prices = append(b.prices, priceRow{
		kind: Kind(t.text("kind")), low: t.num("low"), high: t.num("high"),
		perUS: t.text("per_us"), perMet: t.text("per_metric"),
	})
}

// add files a part under its price band.
func (b *builder) add(p *Part, us bool) {
	for i := range b.prices {
		r := &b.prices[i]
		per, currency := r.perMet, "EUR"
		if us {
			per, currency = r.perUS, "USD"
		}
		if r.kind == p.Kind && per != "" {
			p.Price = Price{r.low, r.high, currency, per, FromMemory, true}
			break
		}
	}
	b.parts = append(b.parts, *p)
}

// named puts a size into a name.
func named(pattern string, s Size) string {
	return strings.Replace(pattern, "{size}", s.Text, 1)
}

// family takes the size out of a name.
func family(pattern string) string {
	return strings.TrimPrefix(strings.Replace(pattern, " {size}", "", 1), "{size} ")
}

func also(list string, s Size) []string {
	if list == "" {
		return nil
	}
	out := strings.Split(list, "|")
	for i := range out {
		out[i] = named(out[i], s)
	}
	return out
}

func (b *builder) stock(t *table, list string) []quantity.Length {
	if list == "" {
		return nil
	}
	var out []quantity.Length
	for item := range strings.SplitSeq(list, ";") {
		text, unit, _ := strings.Cut(item, " ")
		v, ok := number(text)
		switch {
		case ok && unit == "ft":
			v *= 12 * inch
		case !ok || unit != "m":
			t.fail(errors.New("stock: " + item))
		}
		out = append(out, quantity.Length(v))
	}
	return out
}

func (b *builder) pipes(t *table, unit string, metres float64) {
	pattern, size := t.text("family"), t.size("size")
	outside := t.length("outside_"+unit, metres)
	wall := t.length("wall_min_"+unit, metres)
	tol := t.length("wall_tol_"+unit, metres)
	p := Part{
		Name: named(pattern, size), Family: family(pattern),
		Kind: Kind(t.text("kind")), Size: size,
		Outside: outside, Wall: wall + tol/2,
		Bore: quantity.Band[quantity.Length]{
			Low:    outside - 2*(wall+tol),
			Likely: outside - (wall + wall + tol),
			High:   outside - 2*wall,
		},
		Roughness: t.length("roughness_mm", mm),
		Loss:      Loss{Method: LossNone},
		Stock:     b.stock(t, t.text("stock")),
		Note:      t.text("note"), Source: t.text("source"), Mark: Mark(t.text("mark")),
	}
	e := t.end("end")
	p.Ends = []End{e, e}
	if n := t.num("bend_outsides"); n > 0 {
		p.MinBend = quantity.Length(n) * outside
		p.BendRule = "about " + t.text("bend_outsides") + " times the outside"
	} else {
		p.BendRule = "does not bend: take elbows"
	}
	b.add(&p, unit == "in")
}

func (b *builder) hoses(t *table) {
	pattern, size := t.text("family"), t.size("size")
	bore := t.length("bore_mm", mm)
	off := quantity.Length(t.num("bore_off_percent") / 100)
	e := t.end("end")
	p := Part{
		Name: named(pattern, size), Family: family(pattern),
		Kind: Kind(t.text("kind")), Size: size, Ends: []End{e, e},
		Bore:    quantity.Band[quantity.Length]{Low: bore * (1 - off), Likely: bore, High: bore * (1 + off)},
		Outside: t.length("outside_mm", mm), Roughness: t.length("roughness_mm", mm),
		Loss: Loss{Method: LossNone}, Stock: b.stock(t, t.text("stock")),
		Note: t.text("note"), Source: t.text("source"), Mark: Mark(t.text("mark")),
	}
	if p.Outside > 0 {
		p.Wall = (p.Outside - bore) / 2
	}
	switch t.text("bend_rule") {
	case "sample":
		p.BendRule = "bend a sample: walls differ"
	case "stiff":
		p.MinBend = p.Outside * p.Outside / p.Wall
		p.BendRule = "stiff tube: outside squared over wall"
	}
	b.add(&p, size.Inch)
}
