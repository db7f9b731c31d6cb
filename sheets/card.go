package sheets

import (
	"fmt"

	"rillwright/answers"
	"rillwright/drawing"
	"rillwright/enclosure"
)

// Heights of capitals on the emergency card and distances, mm: it is read from a
// metre away by someone in a hurry.
const (
	cardTitle, cardSign, cardSmall = 8.0, 5.0, 3.5

	cardMargin = 10.0
	lineOf     = 1.65 // from line to line, in heights of capitals
	cardPad    = 3.0  // between a box and what is in it
	cardGap    = 3.5  // from box to box
	cardUsual  = 4.0  // text, where there are several sheets
)

const caution = "Mains and water: switch off at the RCD or GFCI before you reach in. " +
	"Wiring belongs to a licensed electrician."

// EmergencyCard draws the card for the inside of the cupboard door: for each
// situation the sign, what to do and where the water goes, in large type, with
// the power supply, a caution and lines to fill in. It is one upright A4 sheet
// with words as large as it holds, capitals of 3.5 mm or more; or as many sheets
// as the situations need, of which one longer than a sheet goes on on the next.
// A sign of more than three lines is cut.
func EmergencyCard(e *enclosure.Enclosure, list []answers.Situation) []drawing.Sheet {
	for _, text := range []float64{5, 4.5, 4, 3.5} {
		if sheets := cardOf(e, list, text); len(sheets) == 1 {
			return sheets
		}
	}
	return cardOf(e, list, cardUsual)
}

// cardOf draws the card with capitals of a height, mm, in what there is to do.
func cardOf(e *enclosure.Enclosure, list []answers.Situation, text float64) []drawing.Sheet {
	c := &card{name: e.Name, text: text}
	if e.Design != nil {
		c.power = e.Design.Place.Power.Value
	}
	c.begin()
	for i := range list {
		c.situation(&list[i])
	}
	c.count()
	return c.sheets
}

type card struct {
	name, power string
	text        float64 // height of capitals of what there is to do, mm
	sheets      []drawing.Sheet
	y           float64 // of the next box's top
	foot        float64 // above which boxes must end
	empty       bool    // no box is on the sheet yet
}

func (c *card) sheet() *drawing.Sheet { return &c.sheets[len(c.sheets)-1] }

func (c *card) word(text string, height, x, y float64) {
	c.sheet().Add(&drawing.Text{Text: text, Height: height, At: drawing.Point{X: x, Y: y}})
}

// write writes lines from a top downwards.
func (c *card) write(lines []string, height, x, top float64) {
	for i, l := range lines {
		if l == "" {
			continue
		}
		c.word(l, height, x, top+height+lineOf*height*float64(i))
	}
}

// tall is the height of some lines, from the first one's capitals to the last
// one's baseline and as much below it as its letters reach.
func tall(n int, height float64) float64 {
	if n == 0 {
		return 0
	}
	return height + lineOf*height*float64(n-1) + 0.35*height
}

// begin begins a sheet with what stands on each.
func (c *card) begin() {
	title := "If something goes wrong"
	c.sheets = append(c.sheets, drawing.Sheet{Title: c.name + ": " + title, Width: pageWidth, Height: pageHeight})
	wide := pageWidth - 2*cardMargin
	c.word(title, cardTitle, cardMargin, cardMargin+cardTitle)
	y := cardMargin + cardTitle + 6
	name := drawing.Wrap(c.name, cardSign, wide)
	name = name[:min(len(name), 2)]
	c.write(name, cardSign, cardMargin, y)
	y += tall(len(name), cardSign)
	if c.power != "" {
		power := drawing.Wrap("Power: "+c.power, cardUsual, wide)
		power = power[:min(len(power), 4)]
		c.write(power, cardUsual, cardMargin, y+2)
		y += 2 + tall(len(power), cardUsual)
	}
	c.y = y + cardGap
	c.empty = true
	c.end()
}

// end draws the caution and the lines to fill in at a sheet's foot.
func (c *card) end() {
	wide := pageWidth - 2*cardMargin
	blank := pageHeight - cardMargin - 6
	x := cardMargin
	for _, f := range []struct {
		name string
		room float64
	}{{"Hung up on", 48}, {"by", 62}} {
		c.word(f.name, cardSmall, x, blank)
		from := x + drawing.TextWidth(f.name, cardSmall) + 2
		c.sheet().Add(drawing.Line(drawing.Point{X: from, Y: blank + 0.8}, drawing.Point{X: from + f.room, Y: blank + 0.8}, drawing.Thin))
		x = from + f.room + 5
	}
	text := drawing.Wrap(caution, cardUsual, wide-2*cardPad)
	box := drawing.Box{Left: cardMargin, Right: pageWidth - cardMargin, Bottom: blank - 12}
	box.Top = box.Bottom - tall(len(text), cardUsual) - 2*cardPad
	c.sheet().Add(drawing.Rectangle(box, drawing.Heavy, drawing.NoFill))
	c.write(text, cardUsual, box.Left+cardPad, box.Top+cardPad)
	c.foot = box.Top - cardGap
}

// count numbers the sheets if there are several.
func (c *card) count() {
	n := len(c.sheets)
	for i := range c.sheets {
		if n > 1 {
			c.sheets[i].Add(&drawing.Text{
				Text: fmt.Sprintf("%d of %d", i+1, n), Height: cardSmall, Anchor: drawing.Right,
				At: drawing.Point{X: pageWidth - cardMargin, Y: cardMargin + cardTitle},
			})
		}
	}
}
