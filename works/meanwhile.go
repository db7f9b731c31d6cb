package works

import (
	"strings"

	"rillwright/schedule"
)

// meanwhile notes, with each line that sets the end and stands for a day or more, what
// is planned to be begun while it does.
func meanwhile(lines []Line) {
	for i := range lines {
		l := &lines[i]
		from := l.End
		if l.Comes {
			from = l.Start
		}
		if !l.Sets || l.Finish-from < schedule.DayMinutes {
			continue
		}
		for k := range lines {
			if o := &lines[k]; k != i && !o.Idle() && !o.Done && o.Start >= from && o.Start < l.Finish {
				l.Meanwhile = append(l.Meanwhile, o.ID)
			}
		}
	}
}

// Beside tells what is begun while a line stands, "" where nothing is.
func (l *Line) Beside() string { return strings.Join(l.Meanwhile, ", ") }
