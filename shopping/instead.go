package shopping

import (
	"fmt"

	"rillwright/catalogue"
)

// instead names what would do if the shop has none: from the catalogue the next bore
// of the same sort and what joins it, else what the trade takes.
func (b *buyer) instead(it *Item, g *catalogue.Good) {
	if it.Part.Kind.HasLength() && it.Part.Name != "" && b.e.Parts != nil {
		if next, ok := b.e.Parts.NextBore(it.Part, true); ok && len(next.Ends) > 0 && len(it.Part.Ends) > 0 {
			text := fmt.Sprintf("if no %s, then %s", it.Part.Name, next.Name)
			if joins := b.joins(it.Part.Ends[0], next.Ends[0]); joins != "" {
				it.Instead = append(it.Instead, text+", at each end with "+joins)
			} else {
				it.Instead = append(it.Instead, text+", with what joins the two")
			}
		}
	}
	if g.Instead != "" {
		it.Instead = append(it.Instead, "or "+g.Instead)
	}
	if it.Rest == "" {
		it.Rest = g.Left
	}
}

// joins names the simplest part that takes a hose or pipe with one end to what
// another would have fitted.
func (b *buyer) joins(was, now catalogue.End) string {
	mate := func(e catalogue.End) catalogue.End {
		switch e.Form {
		case catalogue.Hose:
			e.Form = catalogue.Barb
		case catalogue.Spigot:
			e.Form = catalogue.Socket
		}
		return e
	}
	if list := b.e.Parts.Adapters(was, now); len(list) > 0 {
		return "a " + list[0].Name
	}
	if list := b.e.Parts.Adapters(mate(was), mate(now)); len(list) > 0 {
		return "a " + list[0].Name
	}
	return ""
}
