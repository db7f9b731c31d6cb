// Package answers turns what was computed into what a builder asks: a question
// in plain words, a verdict, the figure as a band with its limit and margin,
// the part that limits, the doubts that matter most and what to do.
//
// The formulas live in the subjects, the limits live here: they come from other
// sources and change for other reasons.
package answers

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"rillwright/design"
	"rillwright/quantity"
)

// Verdict is how an answer came out, taken at the bad end of its band.
type Verdict int

// The verdicts, worst last.
const (
	// Holds: within the limit with every doubt at its bad end.
	Holds Verdict = iota
	// Tight: at the bad end it is past what the trade calls good but does no
	// harm, or a setting that is at hand can mend it.
	Tight
	// Unknown: something must be measured or written down first.
	Unknown
	// Fails: at the bad end it does not do what it is for, or water leaves
	// where it should not. For comfort (a loud drain) the likely figure decides.
	Fails
)

func (v Verdict) String() string {
	return [...]string{"holds", "tight", "not known yet", "fails"}[v]
}

// MarshalText implements encoding.TextMarshaler.
func (v Verdict) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// Answer is the answer to one question.
type Answer struct {
	ID       string   `json:"id"`
	Question string   `json:"question"`
	Verdict  Verdict  `json:"verdict"`
	Say      string   `json:"say"` // the answer in a sentence or two
	Figures  []Figure `json:"figures"`
	Limit    Limit    `json:"limit"`
	Margin   string   `json:"margin,omitempty"`
	// Limiting is the part that limits, and where the file gives it.
	Limiting     string   `json:"limiting,omitempty"`
	LimitingLine int      `json:"limitingLine,omitempty"`
	Matters      []Matter `json:"matters,omitempty"`
	Fixes        []Fix    `json:"fixes,omitempty"`
	Cautions     []string `json:"cautions,omitempty"`
	// Key is the index of the figure that the verdict turns on, and Score the
	// same figure as a number of which more is better.
	Key   int     `json:"-"`
	Score float64 `json:"-"`
}

// Figure is one number of an answer, as a band in the builder's units.
type Figure struct {
	Name   string  `json:"name"`
	Low    float64 `json:"low"`
	Likely float64 `json:"likely"`
	High   float64 `json:"high"`
	Unit   string  `json:"unit"`
	Text   string  `json:"text"` // the same, rounded for people
	// Bound is the limit that the figure is held against, in its unit; nil if there is
	// none, or none that one number tells. It is the most that the figure may be, with
	// Least the least.
	Bound *float64 `json:"bound,omitempty"`
	Least bool     `json:"least,omitempty"`
	// Words says that the text alone counts: there is no number.
	Words bool `json:"words,omitempty"`
}

// Limit is what a figure is held against.
type Limit struct {
	Text   string `json:"text,omitempty"`
	Source string `json:"source,omitempty"` // key of package source
	Mark   string `json:"mark,omitempty"`   // how far to trust it, in words
}

// Matter is one doubt and how far it alone moves the answer's figure.
type Matter struct {
	What   string  `json:"what"`
	Range  string  `json:"range"`  // the doubt's band
	Effect string  `json:"effect"` // the figure from its one end to the other
	Swing  float64 `json:"swing"`  // size of the effect as a share of the likely figure
	Why    string  `json:"why"`
	Settle string  `json:"settle,omitempty"`
	Line   int     `json:"line,omitempty"`
}

// rank puts the doubts that matter most first.
func rank(list []Matter) {
	slices.SortStableFunc(list, func(x, y Matter) int { return cmp.Compare(y.Swing, x.Swing) })
}

// Fix is a change that helps, with its effect recomputed.
type Fix struct {
	Do     string `json:"do"`
	Change string `json:"change,omitempty"` // field and new text in the design file
	// Edits write the fix into the design file, in order; see design.Apply. There
	// are none if something about it is the builder's to choose, which Do then says.
	Edits  []Edit  `json:"edits,omitempty"`
	Cost   string  `json:"cost"`
	Weight float64 `json:"-"` // rank by cost, cheapest first
	// Price is that of a fix priced in another currency than the design's: it
	// orders those of equal weight. Zero for others.
	Price  quantity.Money `json:"-"`
	Before string         `json:"before"`
	After  string         `json:"after"`
	// Notch is what the fix cuts out of a grid panel, nil if it cuts none.
	Notch *Notching `json:"-"`
	// Verdict is that of this answer with the fix.
	Verdict Verdict `json:"verdict"`
	// Breaks lists other answers that come out worse with it.
	Breaks []Break `json:"breaks,omitempty"`
}

// Edit is one change to the text of the design file.
type Edit = design.Edit

// Break is an answer that a fix makes worse.
type Break struct {
	ID       string  `json:"id"`
	Question string  `json:"question"`
	Verdict  Verdict `json:"verdict"` // with the fix
}

// figure makes a Figure of a band.
func figure[T ~float64](name string, b quantity.Band[T], sys quantity.System) Figure {
	f := Figure{Name: name, Text: b.Show(sys)}
	f.Low, f.Likely, f.High, f.Unit = b.In(sys)
	if !b.IsExact() {
		if text := b.ShowLikely(sys); text != f.Text {
			f.Text += ", likely " + text
		}
	}
	return f
}

// against is a figure with the most that it may be, SI.
func against[T ~float64](f Figure, limit T) Figure {
	return bounded(f, quantity.Reading(limit, f.Unit))
}

// over is a figure with the least that it may be, SI.
func over[T ~float64](f Figure, limit T) Figure {
	return boundedBelow(f, quantity.Reading(limit, f.Unit))
}

// boundedBelow is a figure with the least that it may be, in its unit.
func boundedBelow(f Figure, limit float64) Figure {
	f = bounded(f, limit)
	f.Least = f.Bound != nil
	return f
}

// bounded is a figure with the most that it may be, in its unit. A limit without
// end is none.
func bounded(f Figure, limit float64) Figure {
	if !math.IsInf(limit, 0) && !math.IsNaN(limit) && !f.Words {
		f.Bound = &limit
	}
	return f
}

// headFigure makes a Figure of a pump's head or a lift, which builders know in
// metres or feet, not in the units of their tape.
func headFigure(name string, b quantity.Band[quantity.Length], sys quantity.System) Figure {
	unit, scale, decimals := "m", 1.0, 2
	if sys == quantity.US {
		unit, scale, decimals = "ft", 0.3048, 1
	}
	f := Figure{Name: name, Low: float64(b.Low) / scale, Likely: float64(b.Likely) / scale, High: float64(b.High) / scale, Unit: unit}
	low, high := fmt.Sprintf("%.*f", decimals, f.Low), fmt.Sprintf("%.*f", decimals, f.High)
	f.Text = high + " " + unit
	if low != high {
		f.Text = fmt.Sprintf("%s to %s %s, likely %.*f %s", low, high, unit, decimals, f.Likely, unit)
	}
	return f
}

// inHead is a head in the unit of headFigure.
func inHead(h float64, sys quantity.System) float64 {
	if sys == quantity.US {
		return h / 0.3048
	}
	return h
}

// headText shows a head as headFigure does.
func headText(h float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.1f ft", h/0.3048)
	}
	return fmt.Sprintf("%.2f m", h)
}

// beyond says by how much v is more or less than a limit: "24 % less than you
// want".
func beyond(v, limit float64, than string) string {
	word := "more"
	d := v/limit - 1
	if d < 0 {
		word, d = "less", -d
	}
	return quantity.Ratio(d).Show(quantity.Metric) + " " + word + " " + than
}
