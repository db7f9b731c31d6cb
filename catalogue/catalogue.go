package catalogue

import (
	"cmp"
	"slices"

	"rillwright/quantity"
)

// Catalogue is a set of parts with unique names. It does not change once made;
// the parts it returns share their slices with it, so do not write to them.
type Catalogue struct {
	parts  []Part
	index  map[string]int  // by key, for names and other names
	users  map[string]bool // by key of the name
	sheets []Sheet
}

// newCatalogue returns a catalogue of parts, those in users being the user's. A
// name wins over another part's other name; of two parts that claim one other
// name the user's has it, else the earlier.
func newCatalogue(parts []Part, users map[string]bool) *Catalogue {
	c := &Catalogue{parts: parts, index: make(map[string]int, 2*len(parts)), users: users}
	for i := range parts {
		c.index[key(parts[i].Name)] = i
	}
	if len(users) > 0 {
		for i := range parts {
			if users[key(parts[i].Name)] {
				c.alias(i)
			}
		}
	}
	for i := range parts {
		c.alias(i)
	}
	return c
}

// alias files part i under those of its other names that are still free.
func (c *Catalogue) alias(i int) {
	for _, a := range c.parts[i].Also {
		k := key(a)
		if _, taken := c.index[k]; !taken {
			c.index[k] = i
		}
	}
}

// key returns what names are compared by: lower case, without spaces and with
// inch marks and typeset fractions written out.
func key(name string) string {
	out := make([]byte, 0, len(name)+4)
	for i, r := range name {
		switch {
		case 'A' <= r && r <= 'Z':
			out = append(out, byte(r)+'a'-'A')
		case r == ' ' || r == '\t' || r == '\u00a0' || r == '\u202f':
		case r == '-' && i > 0 && isDigit(rune(name[i-1])):
		case r == '"' || r == '″' || r == '”':
			out = append(out, "in"...)
		case r < 0x80:
			out = append(out, byte(r))
		default:
			if f := fraction(r); f != "" {
				out = append(out, f...)
				continue
			}
			out = append(out, string(r)...)
		}
	}
	return string(out)
}

// Find returns the part of that name; case, spaces and inch marks may differ.
// It also knows the other names of parts: "ball valve 16 mm" finds "ball valve
// barbed 16 mm".
func (c *Catalogue) Find(name string) (Part, bool) {
	i, ok := c.index[key(name)]
	if !ok {
		return Part{}, false
	}
	return c.parts[i], true
}

// IsUser reports whether the part of that name comes from the user's own file.
func (c *Catalogue) IsUser(name string) bool {
	i, ok := c.index[key(name)]
	return ok && c.users[key(c.parts[i].Name)]
}

// Len returns how many parts there are.
func (c *Catalogue) Len() int { return len(c.parts) }

// Parts returns all parts: by kind, within it by family, then by size.
func (c *Catalogue) Parts() []Part {
	return c.sorted(func(*Part) bool { return true })
}

// sorted returns the parts to keep in the order of lists.
func (c *Catalogue) sorted(keep func(p *Part) bool) []Part {
	var kept []*Part // records are large: the sort moves pointers
	for i := range c.parts {
		if p := &c.parts[i]; keep(p) {
			kept = append(kept, p)
		}
	}
	slices.SortStableFunc(kept, compareParts)
	return copied(kept)
}

func copied(parts []*Part) []Part {
	out := make([]Part, len(parts))
	for i, p := range parts {
		out[i] = *p
	}
	return out
}

// compareParts orders parts for lists.
func compareParts(a, b *Part) int {
	return cmp.Or(
		cmp.Compare(a.Kind.order(), b.Kind.order()),
		cmp.Compare(a.Label.Flow, b.Label.Flow),
		cmp.Compare(a.Label.Head, b.Label.Head),
		cmp.Compare(a.Emitter.Exponent, b.Emitter.Exponent)*-1,
		cmp.Compare(a.Emitter.Flow, b.Emitter.Flow),
		cmp.Compare(a.Family, b.Family),
		compareBool(b.Size.Inch, a.Size.Inch),
		cmp.Compare(a.Size.Length, b.Size.Length),
		cmp.Compare(a.Bore.Likely, b.Bore.Likely),
		cmp.Compare(a.Name, b.Name),
	)
}

// compareBool puts false before true.
func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

// With returns the catalogue with the user's parts added. A user's part takes
// the place of a part of the same name; a name that so far was another part's
// other name now finds the user's part.
func (c *Catalogue) With(user []Part) *Catalogue {
	parts := slices.Clone(c.parts)
	at := make(map[string]int, len(parts))
	for i := range parts {
		at[key(parts[i].Name)] = i
	}
	users := make(map[string]bool, len(c.users)+len(user))
	for k := range c.users {
		users[k] = true
	}
	for _, p := range user {
		k := key(p.Name)
		users[k] = true
		if i, ok := at[k]; ok {
			parts[i] = p
			continue
		}
		at[k] = len(parts)
		parts = append(parts, p)
	}
	out := newCatalogue(parts, users)
	out.sheets = c.sheets
	return out
}

// PumpsAtLeast returns the pumps whose label gives at least that flow (at no
// lift) and that head (at no flow), smallest first by flow, then head: the next
// bigger pump is the first that is not the one in hand. Pumps whose label flow
// is not known are left out.
func (c *Catalogue) PumpsAtLeast(flow quantity.Flow, head quantity.Length) []Part {
	return c.sorted(func(p *Part) bool {
		return p.Kind == KindPump && p.Label.Flow > 0 && p.Label.Flow >= flow && p.Label.Head >= head
	})
}

// NextBore returns the part of the same family and unit system with the next
// bigger bore, or the next smaller one. ok is false where there is none, or
// where the part stands alone.
func (c *Catalogue) NextBore(part Part, bigger bool) (next Part, ok bool) {
	if part.Family == "" || part.Bore.Likely <= 0 {
		return Part{}, false
	}
	for i := range c.parts {
		p := &c.parts[i]
		if p.Family != part.Family || p.Kind != part.Kind || p.Size.Inch != part.Size.Inch {
			continue
		}
		have, want := p.Bore.Likely, part.Bore.Likely
		if bigger && have > want && (!ok || have < next.Bore.Likely) ||
			!bigger && have < want && (!ok || have > next.Bore.Likely) {
			next, ok = *p, true
		}
	}
	return next, ok
}

// Adapters returns the parts of two ends that join end a to end b, simplest
// pairs first: those whose joints need no caution, then the rest.
func (c *Catalogue) Adapters(a, b End) []Part {
	var clean, cautious []Part
	for i := range c.parts {
		p := &c.parts[i]
		if len(p.Ends) != 2 || p.Kind.HasLength() || p.Kind == KindBulkhead {
			continue
		}
		for _, way := range [][2]int{{0, 1}, {1, 0}} {
			okA, whyA := Mates(a, p.Ends[way[0]])
			if !okA {
				continue
			}
			okB, whyB := Mates(b, p.Ends[way[1]])
			if !okB {
				continue
			}
			if whyA == "" && whyB == "" {
				clean = append(clean, *p)
			} else {
				cautious = append(cautious, *p)
			}
			break
		}
	}
	return append(clean, cautious...)
}
