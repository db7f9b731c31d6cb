package catalogue

import (
	"fmt"
	"strings"

	"rillwright/quantity"
)

// families makes one part for every size of every set the row names.
func (b *builder) families(t *table) {
	pattern, kind, list := t.text("name"), Kind(t.text("kind")), t.text("also")
	loss := Loss{Method: Method(t.text("method")), Mark: Mark(t.text("loss_mark"))}
	through := Loss{}
	if loss.Method == LossThreeK {
		loss.K1, loss.KInf, loss.Kd = t.num("k1"), t.num("kinf"), t.num("kd")
		loss.Source = "darby-2001"
	}
	if kind == KindTee {
		through = loss
		through.K1, through.KInf, through.Kd = t.num("through_k1"), t.num("through_kinf"), t.num("through_kd")
	}
	ends := strings.Count(t.text("ends"), "{end}")
	if ends < 2 || ends > 3 {
		t.fail(fmt.Errorf("%d ends", ends))
		return
	}
	note, name := t.text("note"), family(pattern)
	for set := range strings.FieldsSeq(t.text("sets")) {
		rows := b.sets[set]
		if len(rows) == 0 {
			t.fail(fmt.Errorf("no sizes %q", set))
		}
		for i := range rows {
			r := &rows[i]
			p := Part{
				Name: named(pattern, r.size), Also: also(list, r.size),
				Kind: kind, Family: name, Size: r.size,
				Ends: r.ends[:ends:ends], Bore: r.bore,
				Loss: loss, Through: through,
				Note: note, Source: r.source, Mark: r.mark,
			}
			if loss.Method == LossThreeK {
				p.Loss.NominalInches = r.dn
			}
			if kind == KindTee {
				p.Through.NominalInches = r.dn
			}
			b.add(&p, r.size.Inch && set != "bsp")
		}
	}
}

// narrowest returns the size row of the narrower of two ends.
func (b *builder) narrowest(t *table, x, y End) sizeRow {
	rx, okX := b.bores[boreKey(x)]
	ry, okY := b.bores[boreKey(y)]
	switch {
	case !okX:
		t.fail(fmt.Errorf("no bore for %s", x))
	case !okY:
		t.fail(fmt.Errorf("no bore for %s", y))
	}
	if ry.bore.Likely < rx.bore.Likely {
		return ry
	}
	return rx
}

func (b *builder) adapters(t *table) {
	x, y := t.end("end_a"), t.end("end_b")
	r := b.narrowest(t, x, y)
	p := Part{
		Name: t.text("name"), Also: also(t.text("also"), Size{}),
		Kind: Kind(t.text("kind")), Size: x.Size, Ends: []End{x, y},
		Bore: r.bore, Loss: Loss{Method: LossBoreChange},
		Note:   "Bore of the narrower end: measure.",
		Source: r.source, Mark: r.mark,
	}
	b.add(&p, x.Size.Inch && x.System != BSPTaper && x.System != BSPParallel)
}

// bulkheadLow is how far under its nominal bore a bulkhead's may be: assumed.
const bulkheadLow = 0.85

func (b *builder) bulkheads(t *table) {
	pattern, size := t.text("name"), t.size("size")
	x, y := t.end("end_a"), t.end("end_b")
	r := b.narrowest(t, x, y)
	p := Part{
		Name: named(pattern, size), Also: also(t.text("also"), size),
		Kind: KindBulkhead, Family: family(pattern), Size: size,
		Ends: []End{x, y}, Bore: r.bore, Loss: Loss{Method: LossNone},
		Hole: quantity.Band[quantity.Length]{
			Low:    t.length("hole_low_mm", mm),
			Likely: (t.length("hole_low_mm", mm) + t.length("hole_high_mm", mm)) / 2,
			High:   t.length("hole_high_mm", mm),
		},
		Flange: t.length("flange_in", inch),
		Note:   t.text("note"), Source: t.text("source"), Mark: Mark(t.text("mark")),
	}
	p.Bore.Low = p.Bore.Likely * bulkheadLow
	b.add(&p, size.Inch)
}

func (b *builder) strainers(t *table) {
	pattern := t.text("name")
	p := Part{
		Name: pattern, Kind: KindStrainer,
		Loss: Loss{
			Method: LossConstant, KInf: t.num("kinf"),
			Source: t.text("source"), Mark: Mark(t.text("mark")),
		},
		Strainer: Strainer{OpenArea: quantity.Ratio(t.num("open_area_percent") / 100), Clogged: t.num("clogged")},
		Note:     t.text("note"), Source: t.text("source"), Mark: Mark(t.text("mark")),
	}
	list := t.text("sizes")
	if list == "" {
		p.Also = also(t.text("also"), Size{})
		b.add(&p, false)
		return
	}
	p.Family = family(pattern)
	for text := range strings.SplitSeq(list, "|") {
		size, err := ParseSize(text)
		if err != nil {
			t.fail(err)
			continue
		}
		system := MetricPipe
		if size.Inch {
			system = InchPipe
		}
		e := End{Socket, system, size}
		p.Name, p.Size, p.Also = named(pattern, size), size, also(t.text("also"), size)
		p.Ends = []End{e}
		p.Bore = b.narrowest(t, e, e).bore
		b.add(&p, size.Inch)
	}
}
