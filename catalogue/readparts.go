package catalogue

import (
	"fmt"
	"strings"

	"rillwright/document"
	"rillwright/finding"
	"rillwright/quantity"
)

// What a user's part has when its file does not say. Roughness: smooth plastic,
// Moody 1944, from memory. Clogged factor: an
// engineering assumption.
const (
	smoothPlastic   = 1.5e-6 // m
	usualExponent   = 0.5
	usualCv         = 0.07 // ASABE EP405, end of the range "average", from memory
	cloggedFactor   = 4.0  // assumed, no source
	partsFileFormat = 1
)

// ReadParts reads a user's parts file (see docs/parts.md) and returns its parts
// and everything that is wrong with it, in the order of the file. A part with a
// mistake is left out. Curve files are named in Part.CurveFile, not opened.
func ReadParts(file string, data []byte) ([]Part, finding.List) {
	var f partsFile
	list := document.Decode(file, data, &f)
	r := partsReader{lines: newLines(file, data), bad: badLines(list)}
	if f.Format.Given() && f.Format.Value != partsFileFormat && !r.bad[f.Format.Pos.Line] {
		r.at(f.Format.Pos, "rillwright-parts", fmt.Sprintf("this program reads format %d, and the file says %s", partsFileFormat, f.Format.Text), "write rillwright-parts: 1, or take a newer program")
	}
	var parts []Part
	names := map[string]int{}
	for i := range f.Parts {
		e := &f.Parts[i]
		before := len(r.list)
		r.name = fmt.Sprintf("parts[%d]", i+1)
		if e.Part.Given() && strings.TrimSpace(e.Part.Value) != "" {
			r.name = "parts[" + e.Part.Value + "]"
		}
		p := r.part(e)
		if k := key(p.Name); k != "" {
			if first := names[k]; first > 0 {
				r.at(e.Part.Pos, r.name+".part", fmt.Sprintf("%q is a second part of that name; the first is on line %d", p.Name, first), "give each part its own name")
			} else {
				names[k] = e.Part.Pos.Line
			}
		}
		if len(r.list) == before && !r.badWithin(f.Parts, i) {
			parts = append(parts, p)
		}
	}
	return parts, merge(list, r.list)
}

// badLines returns the lines on which something is wrong already.
func badLines(list finding.List) map[int]bool {
	out := make(map[int]bool, len(list))
	for _, f := range list {
		out[f.Place.Line] = true
	}
	return out
}

type partsReader struct {
	lines
	name string
	bad  map[int]bool
}

// badWithin reports whether the decoder found fault anywhere in part i.
func (r *partsReader) badWithin(parts []partEntry, i int) bool {
	from, to := parts[i].Pos.Line, 1<<30
	if i+1 < len(parts) && parts[i+1].Pos.Line > from {
		to = parts[i+1].Pos.Line
	}
	for line := range r.bad {
		if line >= from && line < to {
			return true
		}
	}
	return false
}

func (r *partsReader) at(p document.Pos, field, what, do string) {
	r.report(finding.Place{File: r.file, Line: p.Line, Column: p.Column, Width: p.Width}, field, what, do)
}

// part turns an entry into a part and reports what does not make sense.
func (r *partsReader) part(e *partEntry) Part {
	p := Part{
		Name: strings.TrimSpace(e.Part.Value), Kind: Kind(e.Kind.Value),
		Bore: e.Bore.Value, Outside: e.Outside.Value, Wall: e.Wall.Value,
		Length: e.Length.Value, Roughness: e.Roughness.Value, MinBend: e.BendRadius.Value,
		Hole: e.Hole.Value, Flange: e.Flange.Value, Power: e.Power.Value,
		CurveFile: e.CurveFile.Value, Note: e.Note.Value, Source: e.Source.Value,
		Mark: FromMemory,
	}
	if e.Mark.Given() {
		p.Mark = Mark(e.Mark.Value)
	}
	for _, a := range e.Also {
		p.Also = append(p.Also, a.Value)
	}
	for _, s := range e.Stock {
		r.positive(s, "stock")
		p.Stock = append(p.Stock, s.Value)
	}
	r.sizes(e, &p)
	r.ends(e, &p)
	r.loss(e, &p)
	r.special(e, &p)
	r.price(e, &p)
	return p
}

// positive reports a length that is given but not above 0.
func (r *partsReader) positive(f field[length], key string) {
	if f.Given() && !r.bad[f.Pos.Line] && f.Value <= 0 {
		r.at(f.Pos, r.name+"."+key, fmt.Sprintf("%s %q is not above 0", key, f.Text), "write what you measured")
	}
}

func (r *partsReader) sizes(e *partEntry, p *Part) {
	for _, c := range []struct {
		f   field[length]
		key string
	}{
		{e.Outside, "outside"},
		{e.Wall, "wall"},
		{e.Length, "length"},
		{e.Roughness, "roughness"},
		{e.BendRadius, "bend-radius"},
		{e.Flange, "flange"},
	} {
		r.positive(c.f, c.key)
	}
	switch {
	case e.Bore.Given() && p.Bore.Low <= 0 && !r.bad[e.Bore.Pos.Line]:
		r.at(e.Bore.Pos, r.name+".bore", fmt.Sprintf("bore %q is not above 0", e.Bore.Text), "write the smallest inside, as 13 mm")
	case !e.Bore.Given() && e.Outside.Given() && e.Wall.Given():
		p.Bore = quantity.Exactly(p.Outside - 2*p.Wall)
		if p.Bore.Low <= 0 {
			r.at(e.Wall.Pos, r.name+".wall", fmt.Sprintf("twice the wall %s leaves no bore in an outside of %s", e.Wall.Text, e.Outside.Text), "look whether outside and wall are in the right places")
		}
	case !e.Bore.Given() && needsBore(p.Kind) && !r.badKind(e):
		r.at(e.Kind.Pos, r.name, fmt.Sprintf("%q is missing, and a part of the kind %q needs it", "bore", p.Kind), "write bore: and the smallest inside, as 13 mm; or outside: and wall:")
	}
	if e.Bore.Given() && e.Outside.Given() && p.Bore.High >= p.Outside && p.Outside > 0 {
		r.at(e.Bore.Pos, r.name+".bore", fmt.Sprintf("the bore %s is not smaller than the outside %s", e.Bore.Text, e.Outside.Text), "look whether the two are exchanged")
	}
	if p.Wall == 0 && p.Outside > p.Bore.Likely && p.Bore.Likely > 0 {
		p.Wall = (p.Outside - p.Bore.Likely) / 2
	}
	if p.Kind.HasLength() && p.Roughness == 0 {
		p.Roughness = smoothPlastic
	}
	if p.MinBend > 0 {
		p.BendRule = "your own figure"
	}
}

func needsBore(k Kind) bool {
	return k != KindPump && k != KindEmitter && k != KindStrainer
}

func (r *partsReader) badKind(e *partEntry) bool {
	return !e.Kind.Given() || r.bad[e.Kind.Pos.Line]
}

// ends takes the ends as typed; one end given stands for all.
func (r *partsReader) ends(e *partEntry, p *Part) {
	for _, f := range e.Ends {
		p.Ends = append(p.Ends, f.Value)
	}
	if len(p.Ends) == 0 {
		return
	}
	p.Size = p.Ends[0].Size
	want := 2
	switch p.Kind {
	case KindTee:
		want = 3
	case KindStrainer, KindEmitter, KindPump:
		want = 0
	}
	if len(p.Ends) == 1 && want > 0 {
		for len(p.Ends) < want {
			p.Ends = append(p.Ends, p.Ends[0])
		}
	}
	if want > 0 && len(p.Ends) != want && !r.badKind(e) {
		r.at(e.Ends[0].Pos, r.name+".ends", fmt.Sprintf("a part of the kind %q has %d ends, and here are %d", p.Kind, want, len(p.Ends)), "write each end, or a single one if they are alike")
	}
}

func (r *partsReader) loss(e *partEntry, p *Part) {
	l := &e.Loss
	switch {
	case l.K.Given() && l.Kv.Given():
		r.at(l.Kv.Pos, r.name+".loss.kv", "both k and kv are given", "keep the one you trust more")
	case l.K.Given():
		if l.K.Value < 0 {
			r.at(l.K.Pos, r.name+".loss.k", fmt.Sprintf("k %q is negative", l.K.Text), "write velocity heads, as 1.5")
		}
		p.Loss = Loss{Method: LossConstant, KInf: float64(l.K.Value), Source: p.Source, Mark: p.Mark}
	case l.Kv.Given():
		if l.Kv.Value <= 0 && !r.bad[l.Kv.Pos.Line] {
			r.at(l.Kv.Pos, r.name+".loss.kv", fmt.Sprintf("kv %q is not above 0", l.Kv.Text), "write the flow at 1 bar, as 2.5 m3/h")
		}
		p.Loss = Loss{Method: LossKv, Kv: l.Kv.Value, Source: p.Source, Mark: p.Mark}
	case l.Pos.Line > 0 && !r.bad[l.Pos.Line]:
		r.at(l.Pos, r.name+".loss", "neither k nor kv is given", "write k: and velocity heads, or kv: and the flow at 1 bar")
	default:
		p.Loss, p.Through = usualLoss(p.Kind, float64(p.Bore.Likely)/inch)
		return
	}
	if p.Kind == KindTee {
		_, p.Through = usualLoss(p.Kind, float64(p.Bore.Likely)/inch)
	}
}

// usualLoss returns what a part of the kind costs when nobody knows better, and
// for a tee its straight way; dn is the nominal size in inches. The rows are
// those of Darby 2001, ch. 7, that the built-in barbed fittings use, and a gate
// valve's for a valve of unknown make: assumed, the part may be better or worse.
func usualLoss(k Kind, dn float64) (loss, through Loss) {
	three := func(k1, kinf, kd float64) Loss {
		return Loss{Method: LossThreeK, K1: k1, KInf: kinf, Kd: kd, NominalInches: dn, Source: "darby-2001", Mark: Assumed}
	}
	switch k {
	case KindElbow:
		return three(1000, 0.27, 4), Loss{}
	case KindTee:
		return three(1000, 0.34, 4), three(100, 0, 0)
	case KindValve:
		return three(300, 0.037, 3.9), Loss{}
	case KindCheckValve:
		return three(2000, 2.85, 3.8), Loss{}
	case KindCoupling, KindReducer, KindAdapter, KindUnion:
		return Loss{Method: LossBoreChange}, Loss{}
	}
	return Loss{Method: LossNone}, Loss{}
}

func (r *partsReader) price(e *partEntry, p *Part) {
	if !e.Price.Given() || r.bad[e.Price.Pos.Line] {
		return
	}
	per := e.Per.Value
	switch {
	case per == "" && p.Kind.HasLength():
		r.at(e.Price.Pos, r.name+".price", "a price of hose or pipe needs to say for how much", "add per: m, per: ft or per: length")
	case per == "":
		per = "piece"
	}
	m := e.Price.Value
	p.Price = Price{Low: m.Amount, High: m.Amount, Currency: m.Currency, Per: per, Mark: p.Mark}
}

// merge puts two lists in the order of the file.
func merge(a, b finding.List) finding.List {
	out := append(append(finding.List(nil), a...), b...)
	sortByPlace(out)
	return out
}
