package drawing

import (
	"fmt"
	"math"
	"slices"
)

// Overlap is how much of a drawing two tiles beside each other share, mm.
const Overlap = 16.0

// tilePad is left free between a tile's frame and the drawing, mm.
const tilePad = 3.0

// Tiling cuts drawings into sheets that are laid edge to edge.
type Tiling struct {
	Paper Format
	Title TitleBlock // of each tile, which adds its number to Sheet
	// Foot, if given, draws what every tile shall have and returns what is left of
	// its room.
	Foot func(*Sheet, Box) Box
}

// Count returns how many tiles across and down a drawing of a size (mm) takes, and
// the paper laid so that they are fewest.
func (t *Tiling) Count(width, height float64) (across, down int, paper Format) {
	best := math.MaxInt
	for _, p := range []Format{t.Paper, t.Paper.Turned()} {
		room := t.room(p)
		a, d := steps(width, room.Right-room.Left), steps(height, room.Bottom-room.Top)
		if a*d < best {
			best, across, down, paper = a*d, a, d, p
		}
	}
	return across, down, paper
}

func (t *Tiling) room(p Format) Box {
	s, room := p.Framed(t.Title)
	if t.Foot != nil {
		room = t.Foot(&s, room)
	}
	return room.Grown(-tilePad)
}

func steps(size, room float64) int {
	if size <= room+1e-9 {
		return 1
	}
	return int(math.Ceil((size - Overlap - 1e-9) / (room - Overlap)))
}

// Cut returns the tiles of a drawing, row by row from the top left. Tiles side by
// side share a strip with two register marks, which are laid one over the other; the
// marks of a joint have one letter. Words that no tile holds whole are moved into the
// one that has their middle.
func (t *Tiling) Cut(plate *Sheet) []Sheet {
	across, down, paper := t.Count(plate.Width, plate.Height)
	room := t.room(paper)
	w, h := room.Right-room.Left, room.Bottom-room.Top
	// A drawing smaller than its tiles stands in the middle of them.
	left := (plate.Width - (float64(across)*(w-Overlap) + Overlap)) / 2
	top := (plate.Height - (float64(down)*(h-Overlap) + Overlap)) / 2
	windows := make([]Box, 0, across*down)
	for r := range down {
		for c := range across {
			x, y := left+float64(c)*(w-Overlap), top+float64(r)*(h-Overlap)
			windows = append(windows, Box{x, y, x + w, y + h})
		}
	}
	items := append([]Item(nil), plate.Items...)
	if len(windows) > 1 {
		items = append(items, registers(plate, windows, across, down)...)
	}
	out := make([]Sheet, len(windows))
	for i, win := range windows {
		title := t.Title
		if len(windows) > 1 {
			title.Sheet = fmt.Sprintf("%s, tile %d of %d", title.Sheet, i+1, len(windows))
		}
		s, rest := paper.Framed(title)
		s.Group, s.Description, s.Scale = plate.Group, plate.Description, plate.Scale
		if t.Foot != nil {
			rest = t.Foot(&s, rest)
		}
		// Of one tile nothing is cut off.
		cut := win
		if len(windows) == 1 {
			cut = rest.Grown(-0.5)
			cut = Box{cut.Left + win.Left - room.Left, cut.Top + win.Top - room.Top, cut.Right + win.Left - room.Left, cut.Bottom + win.Top - room.Top}
		} else {
			s.Add(Rectangle(room, Fade, NoFill))
		}
		for _, it := range items {
			s.Add(moved(clip(it, cut, i, windows), room.Left-win.Left, room.Top-win.Top)...)
		}
		out[i] = s
	}
	return out
}

// registers are the marks in the strips that tiles share. Each joint has a letter
// of its own; its marks stand clear of the drawing where they can.
func registers(plate *Sheet, windows []Box, across, down int) []Item {
	var out []Item
	var taken []Box
	for _, i := range plate.Items {
		if x, ok := i.(*Text); ok {
			taken = append(taken, x.Bounds())
		}
	}
	name := 'A'
	put := func(at func(share float64) Point) {
		for _, shares := range [][]float64{{0.2, 0.14, 0.26, 0.08, 0.32, 0.38}, {0.8, 0.86, 0.74, 0.92, 0.68, 0.62}} {
			for _, s := range shares {
				p := at(s)
				t := &Text{At: Point{p.X + 3.2, p.Y - 1.2}, Text: string(name), Height: measureText}
				b := BoundsOf([]Point{{p.X - 3, p.Y - 3}, {p.X + 3, p.Y + 3}})
				free := true
				for _, o := range taken {
					free = free && !o.Overlaps(b) && !o.Overlaps(t.Bounds())
				}
				free = free && !crosses(plate, b.Grown(0.5)) && !crosses(plate, t.Bounds())
				if !free && s != shares[len(shares)-1] {
					continue
				}
				// Without any room a mark stands on what there is, and has no letter.
				out = append(out, &Circle{Centre: p, Radius: 1.6, Pen: Thin})
				out = append(out, Cross(p, 3, Thin)...)
				if free {
					out = append(out, t)
				}
				taken = append(taken, b, t.Bounds())
				break
			}
		}
		name++
	}
	for r := range down {
		for c := range across {
			win := windows[r*across+c]
			if c+1 < across {
				put(func(s float64) Point { return Point{win.Right - Overlap/2, win.Top + s*(win.Bottom-win.Top)} })
			}
			if r+1 < down {
				put(func(s float64) Point { return Point{win.Left + s*(win.Right-win.Left), win.Bottom - Overlap/2} })
			}
		}
	}
	return out
}

// crosses reports whether a line of a drawing runs through a box.
func crosses(s *Sheet, b Box) bool {
	for _, i := range s.Items {
		p, ok := i.(*Path)
		if !ok || p.Pen == NoPen {
			continue
		}
		for k := range p.Points {
			if k == 0 && !p.Closed {
				continue
			}
			if _, _, ok := ClipSegment(p.Points[(k+len(p.Points)-1)%len(p.Points)], p.Points[k], b); ok {
				return true
			}
		}
	}
	return false
}

// clip returns what a window shows of an item.
func clip(i Item, win Box, index int, windows []Box) []Item {
	if i.Bounds().Within(win) {
		return []Item{i}
	}
	switch i := i.(type) {
	case *Text:
		if len(windows) == 1 {
			return []Item{i}
		}
		return clipText(i, win, index, windows)
	case *Circle:
		if !i.Bounds().Overlaps(win) {
			return nil
		}
		const parts = 360
		p := &Path{Closed: true, Pen: i.Pen, Fill: i.Fill}
		for k := range parts {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / parts)
			p.Points = append(p.Points, Point{i.Centre.X + i.Radius*cos, i.Centre.Y + i.Radius*sin})
		}
		out := clipPath(p, win)
		for _, c := range out {
			if q, ok := c.(*Path); ok && q.Pen != NoPen {
				q.Arcs = []Arc{{To: len(q.Points) - 1, Centre: i.Centre, Radius: i.Radius}}
			}
		}
		return out
	case *Path:
		return clipPath(i, win)
	}
	return nil
}

func clipPath(p *Path, win Box) []Item {
	var out []Item
	line := p.Points
	if p.Closed {
		if area := ClipArea(p.Points, win); p.Fill != NoFill && area != nil {
			out = append(out, &Path{Points: area, Closed: true, Fill: p.Fill})
		}
		line = append(append([]Point(nil), p.Points...), p.Points[0])
	}
	if p.Pen == NoPen {
		return out
	}
	for _, part := range ClipLine(line, win) {
		out = append(out, &Path{Points: part, Pen: p.Pen})
	}
	return out
}

// clipText leaves out words that are not whole, unless no window holds them whole.
func clipText(t *Text, win Box, index int, windows []Box) []Item {
	b := t.Bounds()
	mid := Point{(b.Left + b.Right) / 2, (b.Top + b.Bottom) / 2}
	home := -1
	for k, w := range windows {
		if b.Within(w) {
			return nil
		}
		if home < 0 && mid.X >= w.Left && mid.X <= w.Right && mid.Y >= w.Top && mid.Y <= w.Bottom {
			home = k
		}
	}
	if home != index {
		return nil
	}
	dx := math.Max(win.Left-b.Left, 0) + math.Min(win.Right-b.Right, 0)
	dy := math.Max(win.Top-b.Top, 0) + math.Min(win.Bottom-b.Bottom, 0)
	return moved([]Item{t}, dx, dy)
}

// moved returns copies of items elsewhere.
func moved(items []Item, dx, dy float64) []Item {
	out := make([]Item, len(items))
	for k, i := range items {
		switch i := i.(type) {
		case *Text:
			c := *i
			c.At = Point{c.At.X + dx, c.At.Y + dy}
			out[k] = &c
		case *Circle:
			c := *i
			c.Centre = Point{c.Centre.X + dx, c.Centre.Y + dy}
			out[k] = &c
		case *Path:
			c := *i
			c.Points = make([]Point, len(i.Points))
			for n, q := range i.Points {
				c.Points[n] = Point{q.X + dx, q.Y + dy}
			}
			c.Arcs = slices.Clone(i.Arcs)
			for n := range c.Arcs {
				a := &c.Arcs[n].Centre
				*a = Point{a.X + dx, a.Y + dy}
			}
			out[k] = &c
		}
	}
	return out
}
