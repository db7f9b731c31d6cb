package drawing

import "fmt"

// Format is a size of paper, mm, upright.
type Format struct {
	Name          string
	Width, Height float64
}

// A4 is the paper of ISO 216, 210 x 297 mm.
func A4() Format { return Format{"A4", 210, 297} }

// Letter is the paper of North America, 8 1/2 x 11 in.
func Letter() Format { return Format{"Letter", 215.9, 279.4} }

// Turned returns the paper laid on its side.
func (p Format) Turned() Format { return Format{p.Name, p.Height, p.Width} }

// TitleBlock is what stands at the foot of a framed sheet.
type TitleBlock struct {
	Name  string // of what is drawn
	Sheet string // what the sheet shows
	Scale string // 1:5
	Date  string // as the caller has it, "" for none
	Mark  string // tells which state of the design it was drawn from
}

// Sizes of a frame, mm. Printers leave about 5 mm of each edge white.
const (
	frameMargin = 10.0
	blockHeight = 13.0
	scaleWide   = 24.0
	dateWide    = 27.0
	markWide    = 29.0
	blockText   = 2.5
	blockTitle  = 3.2
)

// Framed returns a sheet of the paper with a frame and a title block, and the
// room that is left in it. Words that are too long for their field are cut.
func (p Format) Framed(t TitleBlock) (Sheet, Box) {
	s := Sheet{Title: t.Sheet, Width: p.Width, Height: p.Height}
	frame := Box{frameMargin, frameMargin, p.Width - frameMargin, p.Height - frameMargin}
	top := frame.Bottom - blockHeight
	s.Add(Rectangle(frame, Medium, NoFill), Line(Point{frame.Left, top}, Point{frame.Right, top}, Medium))
	x := frame.Right
	for _, f := range []struct {
		name, text string
		wide       float64
	}{{"design", t.Mark, markWide}, {"date", t.Date, dateWide}, {"scale", t.Scale, scaleWide}} {
		x -= f.wide
		s.Add(
			Line(Point{x, top}, Point{x, frame.Bottom}, Thin),
			&Text{At: Point{x + 2, top + 4.8}, Text: f.name, Height: blockText},
		)
		if f.text != "" {
			s.Add(&Text{At: Point{x + 2, frame.Bottom - 2.6}, Text: Fit(f.text, blockText, f.wide-3), Height: blockText})
		}
	}
	wide := x - frame.Left - 4
	s.Add(
		&Text{At: Point{frame.Left + 2, top + 4.8}, Text: Fit(t.Name, blockText, wide), Height: blockText},
		&Text{At: Point{frame.Left + 2, frame.Bottom - 2.4}, Text: Fit(t.Sheet, blockTitle, wide), Height: blockTitle},
	)
	return s, Box{frame.Left, frame.Top, frame.Right, top}
}

// Number writes "page x of y" under the frame of every sheet, in their order. Each
// sheet gets a list of items of its own, so that those of its copies stay as they
// are.
func Number(sheets []Sheet) {
	for i := range sheets {
		s := &sheets[i]
		s.Items = append(s.Items[:len(s.Items):len(s.Items)], &Text{
			At:   Point{s.Width - frameMargin, s.Height - 5.4},
			Text: fmt.Sprintf("page %d of %d", i+1, len(sheets)), Height: blockText, Anchor: Right,
		})
	}
}
