package sparse

// minimumDegree returns an elimination order that keeps fill low: at each step
// the unknown with the (approximately) fewest neighbours goes next. The graph
// is kept in quotient form, so that an eliminated unknown and all that was
// merged into it stand as one element, and memory never grows beyond the
// entries given. On a tree the order causes no fill at all.
//
// Approximate external degrees: Amestoy, Davis & Duff 1996, SIAM J. Matrix
// Anal. Appl. 17(4), 886-905 (method from memory; the code is our own).
//
// The pivots come in postorder of the tree in which an element hangs under the
// one that absorbed it, so that columns of like pattern stand side by side.
func minimumDegree(n int, rows, cols []int32) []int32 {
	q := newQuotient(n, rows, cols)
	order := make([]int32, 0, n)
	groups := make([]group, 0, n)
	for len(order) < n {
		p := q.popLeast()
		first := len(order)
		order = q.eliminate(p, append(order, p))
		groups = append(groups, group{pivot: p, first: int32(first)})
	}
	return postorder(order, groups, q.parent)
}

type quotient struct {
	vars   [][]int32 // neighbours that are still unknowns
	elems  [][]int32 // neighbouring elements, or members for an element
	live   []bool    // still an unknown
	dead   []bool    // element absorbed by another
	size   []int32   // live members of an element
	degree []int32
	tag    []int32
	outer  []int32 // members of an element outside the pivot's, while outerTag matches
	outTag []int32
	stamp  int32
	parent []int32 // element that absorbed an element, or -1
	pool   []int32 // room for members

	// Unknowns of equal degree in doubly linked lists.
	head, next, prev []int32
	least            int32
}

func newQuotient(n int, rows, cols []int32) *quotient {
	q := &quotient{
		vars: make([][]int32, n), elems: make([][]int32, n),
		live: make([]bool, n), dead: make([]bool, n),
		size: make([]int32, n), degree: make([]int32, n),
		parent: make([]int32, n),
		tag:    make([]int32, n), outer: make([]int32, n), outTag: make([]int32, n),
		head: make([]int32, n+1), next: make([]int32, n), prev: make([]int32, n),
	}
	count := make([]int32, n)
	for e := range rows {
		count[rows[e]]++
		count[cols[e]]++
	}
	// An unknown never touches more unknowns and elements together than it had
	// neighbours at first, so that lists of that length never grow.
	lists := make([]int32, 4*len(rows))
	for i := range n {
		c := count[i]
		q.vars[i], q.elems[i], lists = lists[:0:c], lists[c:c:2*c], lists[2*c:]
		q.live[i] = true
		q.parent[i] = -1
	}
	for e := range rows {
		i, j := rows[e], cols[e]
		q.vars[i] = append(q.vars[i], j)
		q.vars[j] = append(q.vars[j], i)
	}
	for d := range q.head {
		q.head[d] = -1
	}
	for i := n - 1; i >= 0; i-- { // backwards, so that ties go to the first
		q.stamp++
		kept := q.vars[i][:0]
		for _, j := range q.vars[i] {
			if q.tag[j] != q.stamp {
				q.tag[j] = q.stamp
				kept = append(kept, j)
			}
		}
		q.vars[i] = kept
		q.degree[i] = int32(len(kept))
		q.insert(int32(i))
	}
	return q
}

func (q *quotient) insert(i int32) {
	d := q.degree[i]
	q.next[i] = q.head[d]
	q.prev[i] = -1
	if q.head[d] >= 0 {
		q.prev[q.head[d]] = i
	}
	q.head[d] = i
	q.least = min(q.least, d)
}

func (q *quotient) remove(i int32) {
	if q.prev[i] >= 0 {
		q.next[q.prev[i]] = q.next[i]
	} else {
		q.head[q.degree[i]] = q.next[i]
	}
	if q.next[i] >= 0 {
		q.prev[q.next[i]] = q.prev[i]
	}
}

func (q *quotient) popLeast() int32 {
	for q.head[q.least] < 0 {
		q.least++
	}
	p := q.head[q.least]
	q.remove(p)
	return p
}

// eliminate turns unknown p into an element and brings the degrees of its
// neighbours up to date. Unknowns that have become equal to p in all but name
// are eliminated with it and appended to order.
func (q *quotient) eliminate(p int32, order []int32) []int32 {
	q.live[p] = false
	members := q.gather(p)
	q.elems[p] = members
	q.vars[p] = nil
	q.size[p] = int32(len(members))

	// How many members each neighbouring element has outside the new one.
	base := q.stamp
	for _, i := range members {
		for _, e := range q.elems[i] {
			if q.dead[e] {
				continue
			}
			if q.outTag[e] != base {
				q.outTag[e] = base
				q.outer[e] = q.size[e]
			}
			q.outer[e]--
		}
	}
	remaining := int32(0)
	for _, i := range members {
		q.remove(i)
		// Neighbours inside the new element are reached through it.
		kept := q.vars[i][:0]
		for _, j := range q.vars[i] {
			if q.live[j] && q.tag[j] != base {
				kept = append(kept, j)
			}
		}
		q.vars[i] = kept
		deg := int32(len(kept)) + int32(len(members)) - 1
		ekept := q.elems[i][:0]
		for _, e := range q.elems[i] {
			if q.dead[e] {
				continue
			}
			if q.outTag[e] == base && q.outer[e] == 0 {
				q.dead[e] = true // wholly inside the new element
				q.parent[e] = p
				continue
			}
			ekept = append(ekept, e)
			deg += q.outer[e]
		}
		if len(kept) == 0 && len(ekept) == 0 {
			// Everything i touches is inside the new element.
			q.live[i] = false
			q.vars[i] = nil
			q.elems[i] = nil
			order = append(order, i)
			continue
		}
		q.elems[i] = append(ekept, p)
		q.degree[i] = min(deg, int32(len(q.live))-1)
		members[remaining] = i
		remaining++
	}
	members = members[:remaining]
	q.elems[p] = members
	q.size[p] = remaining
	for _, i := range members {
		q.insert(i)
	}
	return order
}

// gather collects the live unknowns that p touches, directly or through its
// elements, marks them with the new stamp and absorbs those elements.
func (q *quotient) gather(p int32) []int32 {
	q.stamp++
	q.tag[p] = q.stamp
	start := len(q.pool)
	q.take(q.vars[p])
	for _, e := range q.elems[p] {
		if !q.dead[e] {
			q.take(q.elems[e])
			q.dead[e] = true
			q.parent[e] = p
			q.elems[e] = nil
		}
	}
	return q.pool[start:len(q.pool):len(q.pool)]
}

// take adds to the pool the live unknowns of a list that are not yet marked.
func (q *quotient) take(list []int32) {
	for _, j := range list {
		if q.live[j] && q.tag[j] != q.stamp {
			q.tag[j] = q.stamp
			q.pool = append(q.pool, j)
		}
	}
}
