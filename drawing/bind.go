package drawing

import (
	"math"
	"slices"
)

// bindGap is between drawings that share a page, mm.
const bindGap = 6.0

// Bind puts drawings that have no frame of their own, such as plots, onto framed
// paper under a title block, one below the other, in the middle. One that is larger
// than the room in the frame is made smaller. Bound sheets have the group; each page
// has the title of the first drawing on it unless the block names one.
func (p Format) Bind(t TitleBlock, group string, list []Sheet) []Sheet {
	var out []Sheet
	var room Box
	y := 0.0
	for i := range list {
		b := extent(&list[i])
		if b.Right <= b.Left || b.Bottom <= b.Top {
			continue // nothing is on it
		}
		title := t
		if title.Sheet == "" {
			title.Sheet = list[i].Title
		}
		s, inside := p.Framed(title)
		inside = inside.Grown(-3)
		k := math.Min(1, math.Min((inside.Right-inside.Left)/(b.Right-b.Left), (inside.Bottom-inside.Top)/(b.Bottom-b.Top)))
		high := (b.Bottom - b.Top) * k
		if len(out) == 0 || y+high > room.Bottom {
			s.Group, s.Description = group, list[i].Description
			out = append(out, s)
			room, y = inside, inside.Top
		}
		x := (room.Left+room.Right)/2 - k*(b.Right-b.Left)/2
		page := &out[len(out)-1]
		page.Add(scaled(list[i].Items, k, x-k*b.Left, y-k*b.Top)...)
		y += high + bindGap
	}
	return out
}

// Fit returns a sheet on paper of another size, in the middle: as it is if it fits
// within its margins, else made smaller. A Scale that the sheet has changes with it.
func (p Format) Fit(s Sheet) Sheet {
	b := extent(&s)
	margin := frameMargin
	k := 1.0
	if w, h := b.Right-b.Left, b.Bottom-b.Top; w > 0 && h > 0 {
		k = math.Min(1, math.Min((p.Width-2*margin)/w, (p.Height-2*margin)/h))
	}
	out := s
	out.Width, out.Height, out.Scale = p.Width, p.Height, s.Scale*k
	out.Items = scaled(s.Items, k, p.Width/2-k*(b.Left+b.Right)/2, p.Height/2-k*(b.Top+b.Bottom)/2)
	return out
}

// extent is the box that holds all of a sheet.
func extent(s *Sheet) Box {
	var out Box
	for i, item := range s.Items {
		b := item.Bounds()
		if i == 0 {
			out = b
			continue
		}
		out = Box{math.Min(out.Left, b.Left), math.Min(out.Top, b.Top), math.Max(out.Right, b.Right), math.Max(out.Bottom, b.Bottom)}
	}
	return out
}

// scaled returns copies of items k times as large, moved.
func scaled(items []Item, k, dx, dy float64) []Item {
	to := func(q Point) Point { return Point{k*q.X + dx, k*q.Y + dy} }
	out := make([]Item, len(items))
	for n, i := range items {
		switch i := i.(type) {
		case *Text:
			c := *i
			c.At, c.Height = to(c.At), k*c.Height
			out[n] = &c
		case *Circle:
			c := *i
			c.Centre, c.Radius = to(c.Centre), k*c.Radius
			out[n] = &c
		case *Path:
			c := *i
			c.Points = make([]Point, len(i.Points))
			for m, q := range i.Points {
				c.Points[m] = to(q)
			}
			c.Arcs = slices.Clone(i.Arcs)
			for m := range c.Arcs {
				a := &c.Arcs[m]
				a.Centre, a.Radius = to(a.Centre), k*a.Radius
			}
			out[n] = &c
		}
	}
	return out
}

// Stamp writes words under the left edge of a sheet, at the height of its page
// number, where a sheet has no title block to tell its date and state. Like Number
// it gives the sheet a list of items of its own.
func Stamp(s *Sheet, words string) {
	s.Items = append(s.Items[:len(s.Items):len(s.Items)], &Text{
		At: Point{frameMargin, s.Height - 5.4}, Text: Fit(words, blockText, s.Width/2), Height: blockText,
	})
}
