package cli

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"rillwright"
	"rillwright/answers"
)

const width = 92 // characters of a line

// printReport prints answers for people: a line for each verdict, then each
// answer with its figures, then what was assumed.
func printReport(w io.Writer, r *rillwright.Report, shown []answers.Answer, brief bool) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", r.Name)
	for i := range shown {
		a := &shown[i]
		fmt.Fprintf(&b, "  %-13s %s [%s]\n", strings.ToUpper(a.Verdict.String()), a.Question, a.ID)
	}
	if !brief {
		for i := range shown {
			b.WriteByte('\n')
			printAnswer(&b, r, &shown[i])
		}
		printAssumed(&b, r)
		b.WriteString("\nThis is arithmetic, not a certificate: glass, weight, mains near water and animals need\nyour own judgement, local codes and licensed trades.\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func printAnswer(b *strings.Builder, r *rillwright.Report, a *answers.Answer) {
	fmt.Fprintf(b, "%s  %s\n", a.Question, strings.ToUpper(a.Verdict.String()))
	wrap(b, "  ", "  ", a.Say)
	longest := 0
	for _, f := range a.Figures {
		longest = max(longest, utf8.RuneCountInString(f.Name))
	}
	for _, f := range a.Figures {
		fmt.Fprintf(b, "    %s%s  %s\n", f.Name, strings.Repeat(" ", longest-utf8.RuneCountInString(f.Name)), f.Text)
	}
	if a.Limit.Text != "" {
		wrap(b, "  limit:   ", "           ", a.Limit.Text+" ("+a.Limit.Mark+")")
	}
	if a.Margin != "" {
		wrap(b, "  margin:  ", "           ", a.Margin)
	}
	if a.Limiting != "" {
		text := a.Limiting
		if a.LimitingLine > 0 {
			text += fmt.Sprintf(" (line %d)", a.LimitingLine)
		}
		wrap(b, "  limited: ", "           ", text)
	}
	for i, m := range a.Matters {
		head := "           "
		if i == 0 {
			head = "  depends: "
		}
		text := fmt.Sprintf("%s, %s: %s", m.What, m.Range, m.Effect)
		if m.Line > 0 {
			text += fmt.Sprintf(" (line %d)", m.Line)
		}
		if i == 0 && m.Settle != "" {
			text += "; settle it by: " + m.Settle
		}
		wrap(b, head, "             ", text)
	}
	for i, f := range a.Fixes {
		head := "           "
		if i == 0 {
			head = "  do:      "
		}
		wrap(b, head, "             ", f.Do+" (cost: "+f.Cost+")")
		wrap(b, "             ", "             ", f.Before+" -> "+f.After+": "+then(f.Verdict))
		for _, x := range f.Breaks {
			wrap(b, "             but ", "             ", x)
		}
	}
	for _, c := range a.Cautions {
		wrap(b, "  note:    ", "           ", c)
	}
}

func then(v answers.Verdict) string {
	switch v {
	case answers.Holds:
		return "then it holds"
	case answers.Tight:
		return "then it is tight"
	case answers.Fails:
		return "better, but it still fails"
	}
	return "then it is " + v.String()
}

func printAssumed(b *strings.Builder, r *rillwright.Report) {
	e := r.Enclosure
	b.WriteString("\nTaken for granted, since the file does not say otherwise\n")
	for _, a := range e.Assumed {
		wrap(b, "  - ", "    ", fmt.Sprintf("%s: %s (%s; %s would say it)", a.What, a.Value, a.Why, a.Field))
	}
	for i := range e.Doubts {
		d := &e.Doubts[i]
		if d.Pos.Line > 0 {
			continue
		}
		wrap(b, "  - ", "    ", fmt.Sprintf("%s: %s to %s, likely %s (%s)", d.What, d.Show(d.Low, e.Units), d.Show(d.High, e.Units), d.Show(d.Likely, e.Units), d.Why))
	}
	for _, o := range e.Design.Overrides() {
		wrap(b, "  - ", "    ", fmt.Sprintf("as built, %s is %s where the plan said %s (line %d)", o.Path, o.Measured, o.Planned, o.Pos.Line))
	}
}

// wrap prints a paragraph within the width, its first line after head and the
// others after indent.
func wrap(b *strings.Builder, head, indent, text string) {
	b.WriteString(head)
	at := utf8.RuneCountInString(head)
	for i, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case at+1+n > width:
			b.WriteString("\n" + indent)
			at = utf8.RuneCountInString(indent)
		default:
			b.WriteByte(' ')
			at++
		}
		b.WriteString(word)
		at += n
	}
	b.WriteByte('\n')
}
