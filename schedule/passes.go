package schedule

// link is an arrow between tasks.
type link struct {
	task int
	work bool
}

// net is a project's tasks by number.
type net struct {
	index    map[string]int
	resource map[string]int
	after    [][]link
	next     [][]link
	order    []int // causes first
}

// newNet checks a project's figures, names and arrows.
func newNet(p *Project) (*net, error) {
	k := len(p.Tasks)
	n := &net{index: make(map[string]int, k), resource: map[string]int{}, after: make([][]link, k), next: make([][]link, k)}
	if err := n.checked(p); err != nil {
		return nil, err
	}
	open := make([]int, k)
	for i := range p.Tasks {
		open[i] = len(n.after[i])
		if open[i] == 0 {
			n.order = append(n.order, i)
		}
	}
	for at := 0; at < len(n.order); at++ {
		for _, l := range n.next[n.order[at]] {
			if open[l.task]--; open[l.task] == 0 {
				n.order = append(n.order, l.task)
			}
		}
	}
	if len(n.order) < k {
		return nil, n.ring(p, open)
	}
	return n, nil
}

// ring finds a cycle among the tasks that never came free: each has a cause among
// them, so walking from cause to cause must come round.
func (n *net) ring(p *Project, open []int) error {
	at := 0
	for open[at] == 0 {
		at++
	}
	seen := map[int]int{}
	var walk []int
	for {
		if from, again := seen[at]; again {
			walk = walk[from:]
			break
		}
		seen[at] = len(walk)
		walk = append(walk, at)
		for _, l := range n.after[at] {
			if open[l.task] > 0 {
				at = l.task
				break
			}
		}
	}
	// Walked against the arrows; begun with the task that is listed first.
	first := 0
	for i, t := range walk {
		if t < walk[first] {
			first = i
		}
	}
	e := &CycleError{}
	for i := range walk {
		e.Tasks = append(e.Tasks, p.Tasks[walk[(first+len(walk)-i)%len(walk)]].ID)
	}
	return e
}

// Pass holds a task's times when hours and resources are left out, minutes from
// the start of the project.
type Pass struct {
	EarlyStart, EarlyFinish Moment
	LateStart, LateFinish   Moment
	Slack                   Moment // 0 on the critical path
}

// Passes returns the forward and the backward pass over the causes alone, with
// each task lasting its work and its waiting at the low end (side < 0), as is
// likely (0) or at the high end (side > 0): the critical path method. The error is
// about the project's figures, names or cycles.
//
// Kelley and Walker 1959; Hillier and Lieberman, Introduction to Operations
// Research, 7th edition 2001, chapter 10; both from memory.
func Passes(p *Project, side int) ([]Pass, error) {
	n, err := newNet(p)
	if err != nil {
		return nil, err
	}
	out := make([]Pass, len(p.Tasks))
	work := func(i int) Moment { return minutes(p.Tasks[i].Work.At(side)) }
	wait := func(i int) Moment { return minutes(p.Tasks[i].Wait.At(side)) }
	var end Moment
	for _, i := range n.order {
		for _, l := range n.after[i] {
			over := out[l.task].EarlyFinish
			if l.work {
				over -= wait(l.task)
			}
			out[i].EarlyStart = max(out[i].EarlyStart, over)
		}
		out[i].EarlyFinish = out[i].EarlyStart + work(i) + wait(i)
		end = max(end, out[i].EarlyFinish)
	}
	for k := len(n.order) - 1; k >= 0; k-- {
		i := n.order[k]
		late := end
		for _, l := range n.next[i] {
			by := out[l.task].LateStart
			if l.work {
				by += wait(i)
			}
			late = min(late, by)
		}
		out[i].LateFinish = late
		out[i].LateStart = late - work(i) - wait(i)
		out[i].Slack = late - out[i].EarlyFinish
	}
	return out, nil
}

// tails returns how long it is from the start of each task to the end, as is
// likely, hours and resources left out: what decides which comes next.
func (n *net) tails(p *Project) []Moment {
	tail := make([]Moment, len(p.Tasks))
	for k := len(n.order) - 1; k >= 0; k-- {
		i := n.order[k]
		work, wait := minutes(p.Tasks[i].Work.Likely), minutes(p.Tasks[i].Wait.Likely)
		tail[i] = work + wait
		for _, l := range n.next[i] {
			way := work + tail[l.task]
			if !l.work {
				way += wait
			}
			tail[i] = max(tail[i], way)
		}
	}
	return tail
}

// ranked returns the order in which tasks are placed: of those whose causes are
// placed, the one with the longest tail, then the first listed.
func (n *net) ranked(p *Project) []int {
	tail := n.tails(p)
	open := make([]int, len(p.Tasks))
	var heap []int
	before := func(a, b int) bool { return tail[a] > tail[b] || tail[a] == tail[b] && a < b }
	push := func(i int) {
		heap = append(heap, i)
		for k := len(heap) - 1; k > 0 && before(heap[k], heap[(k-1)/2]); k = (k - 1) / 2 {
			heap[k], heap[(k-1)/2] = heap[(k-1)/2], heap[k]
		}
	}
	pop := func() int {
		top, last := heap[0], len(heap)-1
		heap[0] = heap[last]
		heap = heap[:last]
		for k := 0; 2*k+1 < last; {
			c := 2*k + 1
			if c+1 < last && before(heap[c+1], heap[c]) {
				c++
			}
			if !before(heap[c], heap[k]) {
				break
			}
			heap[k], heap[c] = heap[c], heap[k]
			k = c
		}
		return top
	}
	for i := range p.Tasks {
		if open[i] = len(n.after[i]); open[i] == 0 {
			push(i)
		}
	}
	var order []int
	for len(heap) > 0 {
		i := pop()
		order = append(order, i)
		for _, l := range n.next[i] {
			if open[l.task]--; open[l.task] == 0 {
				push(l.task)
			}
		}
	}
	return order
}
