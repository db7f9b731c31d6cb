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
			switch joins := b.joins(it.Part.Ends[0], next.Ends[0]); {
			case joins == "":
				text += ", with what joins the two"
			case it.Part.Ends[0].Form == catalogue.Spigot:
				text += ", its own fittings, and a " + joins + " where the two sizes meet"
			default:
				text += ", at each end with a " + joins
			}
			it.Instead = append(it.Instead, text)
		}
	}
	if g.Instead != "" {
		it.Instead = append(it.Instead, "or "+g.Instead)
	}
	if it.Rest == "" {
		it.Rest = g.Left
	}
}

// joins names the simplest part between a hose or pipe with one end and the larger one
// in its place with another: hose goes over both its barbs; of pipe the reducer sits in a
// socket of the larger size and takes the smaller pipe.
func (b *buyer) joins(was, now catalogue.End) string {
	if now.Form == catalogue.Spigot {
		now.Form = catalogue.Socket
	}
	if list := b.e.Parts.Adapters(was, now); len(list) > 0 {
		return list[0].Name
	}
	return ""
}
