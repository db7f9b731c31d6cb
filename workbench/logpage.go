package workbench

import (
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"html/template"
	"math"
	"strings"
	"time"

	"rillwright/keeping"
	"rillwright/quantity"
	"rillwright/record"
)

// logView is what the page of a log shows.
type logView struct {
	Name, Title, Path string
	Back              string // to the design on the page
	Style             template.CSS
	Typed             logTyped
	Choices           []logChoice
	Fault, LookFault  string
	Findings          []string
	Suspects          []logSuspect
	Next, Two         string
	Due               []logDue
	Trends            []logTrend
	Rows              []logRow
	Count             int
}

// logChoice is one thing that can be noted.
type logChoice struct {
	Value   string `json:"value"`
	Label   string `json:"label"`
	Example string `json:"example"` // how its figures are typed
	Chosen  bool   `json:"-"`
}

type logRow struct{ When, ID, Text, Figure, Verdict, Note string }

type logSuspect struct{ Share, What, Do string }

type logDue struct{ What, When, How string }

// logTrend is a flow in time, in a box of 300 by 60 with its first share at 10.
type logTrend struct {
	ID, Say   string
	Line      string // of points
	Limit     float64
	FirstFlow string
}

// choices lists what can be noted, each part by itself.
func choices(n record.Names, chosen string) []logChoice {
	var out []logChoice
	for _, w := range record.Words() {
		add := func(value, help string) {
			out = append(out, logChoice{value, value + ": " + help, record.Example(w.Kind), value == chosen})
		}
		var parts []string
		switch w.Of {
		case record.Pump:
			parts = n.Pumps
		case record.Manifold:
			parts = n.Manifolds
		case record.Whole, record.Thing:
			add(w.Name, w.Help)
			continue
		}
		for _, p := range parts {
			add(w.Name+"["+p+"]", w.Help)
		}
	}
	return out
}

// soonDue is how far ahead a chore is shown, and mostDue how many are.
const (
	soonDue = 7
	mostDue = 6
)

func (p *logView) due(list []keeping.Due, now time.Time) {
	for i := range list {
		d := &list[i]
		late := d.Late(now)
		if late < -soonDue || len(p.Due) == mostDue {
			return
		}
		when := "due " + d.Next.Format(time.DateOnly)
		if late >= 1 {
			when = fmt.Sprintf("late, %s", d.Next.Format(time.DateOnly))
		}
		p.Due = append(p.Due, logDue{d.What, when, d.How})
	}
}

func (p *logView) trends(list []keeping.Trend, sys quantity.System) {
	const width, height, top, floor = 300.0, 60.0, 1.1, 0.6
	y := func(share float64) float64 {
		return height * (top - math.Max(floor, math.Min(top, share))) / (top - floor)
	}
	for i := range list {
		t := &list[i]
		first, last := t.Points[0], t.Points[len(t.Points)-1]
		var line []string
		for _, q := range t.Points {
			x := width * q.Time.Sub(first.Time).Hours() / last.Time.Sub(first.Time).Hours()
			line = append(line, fmt.Sprintf("%.1f,%.1f", x, y(q.Share)))
		}
		say := fmt.Sprintf("%.0f %% of the first", 100*last.Share)
		switch {
		case t.Falls:
			say += ", falls to " + fmt.Sprintf("%.0f %% about %s", 100*keeping.Fallen, t.Crosses[1].Format(time.DateOnly))
		case !math.IsNaN(t.Month):
			say += ", not falling beyond what readings scatter"
		}
		p.Trends = append(p.Trends, logTrend{t.ID, say, strings.Join(line, " "), y(keeping.Fallen), quantity.Flow(t.First).Show(sys)})
	}
}

// hashOf names a style sheet to the browser, so that no other is let in.
func hashOf(text string) string {
	sum := sha256.Sum256([]byte(text))
	return base64.StdEncoding.EncodeToString(sum[:])
}

const logStyle = `:root{color-scheme:light dark}body{font:1.05rem/1.4 system-ui,sans-serif;margin:0 auto;max-width:40rem;padding:.8rem}` +
	`h1{font-size:1.2rem;margin:.2rem 0}h2{font-size:1rem;margin:1.2rem 0 .3rem}label{display:block;margin:.5rem 0}` +
	`select,input,button{font:inherit;width:100%;box-sizing:border-box;padding:.6rem;min-height:2.8rem}button{font-weight:600}` +
	`.fault{border-left:.3rem solid #b00020;padding-left:.6rem}.noted{border-left:.3rem solid #0b6e7f;padding-left:.6rem}` +
	`table{border-collapse:collapse;width:100%}td{border-top:1px solid #8886;padding:.3rem .4rem .3rem 0;vertical-align:top}` +
	`.n{white-space:nowrap}svg{width:100%;height:4rem;display:block}polyline{fill:none;stroke:#0b6e7f;stroke-width:2}line{stroke:#b00020;stroke-dasharray:4 3}small{opacity:.8}`
