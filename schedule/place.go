package schedule

import (
	"fmt"
	"slices"
	"sort"
)

// horizonDays is how far ahead hours are laid out: ten years.
const horizonDays = 3660

// Reason says what a task's start waits for.
type Reason int

// What may hold a task back.
const (
	Free       Reason = iota // nothing: it begins with the project
	ByCause                  // a cause is over no sooner
	ByResource               // what it needs is taken by another task
	ByHours                  // nobody is there sooner
	ByEarliest               // it may not begin before a moment that is given
	ByNow                    // sooner is past
	AsDone                   // it has begun already
)

// Held is what a task's start waits for, and the task behind that, if one is:
// the cause, the one that takes up the resource, or the cause after which there
// are no hours.
type Held struct {
	By   Reason
	Task string
}

// booking is a stretch in which a task takes up some of a resource.
type booking struct {
	Span
	reach Moment // the latest end of this and all before it
	count int
	task  int
}

type use struct{ resource, count int }

// placer places tasks; its slices are used again for each placing.
type placer struct {
	p      *Project
	n      *net
	order  []int
	tracks []*track // by task; nil is day and night
	uses   [][]use  // by task, of resources that can run out
	status []int8
	now    Moment

	work, wait         []Moment
	start, end, finish []Moment
	over               []Moment // when what is done was said to be, 0 if it was not
	by                 []Reason
	behind             []int // the task behind the reason, or -1
	booked             [][]booking
}

// What has happened to a task.
const (
	toDo int8 = iota
	underWay
	done
)

func newPlacer(p *Project) (*placer, error) {
	n, err := newNet(p)
	if err != nil {
		return nil, err
	}
	k := len(p.Tasks)
	pl := &placer{p: p, n: n, order: n.ranked(p), tracks: make([]*track, k), uses: make([][]use, k), status: make([]int8, k), now: max(p.Now, p.Start)}
	for _, s := range []*[]Moment{&pl.work, &pl.wait, &pl.start, &pl.end, &pl.finish, &pl.over} {
		*s = make([]Moment, k)
	}
	pl.by, pl.behind = make([]Reason, k), make([]int, k)
	pl.booked = make([][]booking, len(p.Resources))
	if err := pl.past(); err != nil {
		return nil, err
	}
	pl.layOut()
	return pl, nil
}

// layOut finds the hours in which each task can be worked on: tasks that need the
// same share them.
func (pl *placer) layOut() {
	first := pl.p.Start
	for _, d := range pl.p.Done {
		first = min(first, d.Start)
	}
	open := make([][]Span, len(pl.p.Resources))
	shared := map[string]*track{}
	for i, t := range pl.p.Tasks {
		var needs []int
		for _, need := range t.Needs {
			r := pl.n.resource[need.Resource]
			needs = append(needs, r)
			if pl.p.Resources[r].Count > 0 {
				pl.uses[i] = append(pl.uses[i], use{r, max(need.Count, 1)})
			}
		}
		if len(needs) == 0 {
			continue
		}
		slices.Sort(needs)
		key := fmt.Sprint(needs)
		if shared[key] == nil {
			var spans []Span
			for k, r := range needs {
				if open[r] == nil {
					open[r] = tracked(pl.p.Resources[r].Hours, first.Day(), horizonDays)
				}
				if spans = both(spans, open[r]); k == 0 {
					spans = open[r]
				}
			}
			shared[key] = newTrack(spans)
		}
		pl.tracks[i] = shared[key]
	}
}

// last sets how long everything takes: at the low end (side < 0), as is likely
// (0) or at the high end (side > 0).
func (pl *placer) last(side int) {
	for i, t := range pl.p.Tasks {
		pl.work[i], pl.wait[i] = minutes(t.Work.At(side)), minutes(t.Wait.At(side))
	}
}

// place gives every task its times. The number is the task that cannot be placed,
// or -1.
func (pl *placer) place() int {
	for r := range pl.booked {
		pl.booked[r] = pl.booked[r][:0]
	}
	// The past stands, whatever the rule would have placed first.
	for i, s := range pl.status {
		if s == toDo {
			continue
		}
		pl.by[i], pl.behind[i] = AsDone, -1
		if s == underWay {
			span, ok := pl.fit(i, pl.start[i], false)
			if !ok {
				return i
			}
			pl.end[i] = max(span.To, pl.now)
			pl.book(i)
		}
		if pl.finish[i] = pl.end[i] + pl.wait[i]; pl.over[i] != 0 {
			pl.finish[i] = pl.over[i]
		}
	}
	for _, i := range pl.order {
		if pl.status[i] == toDo && !pl.placeOne(i) {
			return i
		}
	}
	return -1
}

func (pl *placer) fit(i int, from Moment, whole bool) (Span, bool) {
	if pl.tracks[i] == nil {
		return Span{from, from + pl.work[i]}, true
	}
	return pl.tracks[i].fit(from, pl.work[i], whole)
}

// placeOne places a task after its causes.
func (pl *placer) placeOne(i int) bool {
	ready, by, behind := pl.p.Start, Free, -1
	later := func(m Moment, reason Reason, task int) {
		if m > ready {
			ready, by, behind = m, reason, task
		}
	}
	if !pl.p.Tasks[i].byItself() {
		later(pl.now, ByNow, -1)
	}
	later(pl.p.Tasks[i].Earliest, ByEarliest, -1)
	for _, l := range pl.n.after[i] {
		if over := pl.finish[l.task]; l.work {
			later(pl.end[l.task], ByCause, l.task)
		} else {
			later(over, ByCause, l.task)
		}
	}
	from := ready
	for {
		span, ok := pl.fit(i, from, pl.p.Tasks[i].Whole)
		if !ok {
			return false
		}
		free, blocker := pl.clash(i, span)
		if blocker < 0 {
			if span.From > from {
				by = ByHours
			}
			pl.start[i], pl.end[i], pl.finish[i] = span.From, span.To, span.To+pl.wait[i]
			pl.by[i], pl.behind[i] = by, behind
			pl.book(i)
			return true
		}
		from, by, behind = free, ByResource, blocker
	}
}

// clash says whether something a task needs has run out in a span: when the first
// of those who have it then gives it back, and who; -1 if nothing has.
func (pl *placer) clash(i int, span Span) (free Moment, blocker int) {
	blocker = -1
	if span.From == span.To {
		return 0, blocker
	}
	for _, u := range pl.uses[i] {
		list := pl.booked[u.resource]
		lo := sort.Search(len(list), func(k int) bool { return list[k].reach > span.From })
		hi := lo + sort.Search(len(list)-lo, func(k int) bool { return list[lo+k].From >= span.To })
		if !over(list[lo:hi], span, pl.p.Resources[u.resource].Count-u.count) {
			continue
		}
		first := Moment(-1)
		who := -1
		for _, b := range list[lo:hi] {
			if b.To > span.From && (who < 0 || b.To < first) {
				first, who = b.To, b.task
			}
		}
		if blocker < 0 || first > free {
			free, blocker = first, who
		}
	}
	return free, blocker
}

// over reports whether more than spare of a resource is taken at once within a
// span: what is taken grows only where a booking begins.
func over(list []booking, span Span, spare int) bool {
	for _, b := range list {
		if b.To <= span.From {
			continue
		}
		at, taken := max(b.From, span.From), 0
		for _, c := range list {
			if c.From <= at && c.To > at {
				taken += c.count
			}
		}
		if taken > spare {
			return true
		}
	}
	return false
}

// book takes up what a task needs from its start to the end of its work. Others
// cannot have it in the breaks either: a job begun is ended first.
func (pl *placer) book(i int) {
	span := Span{pl.start[i], pl.end[i]}
	if span.From == span.To {
		return
	}
	for _, u := range pl.uses[i] {
		list := pl.booked[u.resource]
		at := sort.Search(len(list), func(k int) bool { return list[k].From > span.From })
		list = slices.Insert(list, at, booking{Span: span, count: u.count, task: i})
		for k := at; k < len(list); k++ {
			reach := list[k].To
			if k > 0 {
				reach = max(reach, list[k-1].reach)
			}
			if k > at && list[k].reach == reach {
				break
			}
			list[k].reach = reach
		}
		pl.booked[u.resource] = list
	}
}
