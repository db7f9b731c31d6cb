package sparse

// group is a run of pivots eliminated together, the first of which names the
// element they became.
type group struct {
	pivot int32
	first int32 // place of its first pivot in the elimination order
	size  int32 // pivots in the group and in all that hang under it
	end   int32 // place after the last pivot of what is left of its subtree
}

// postorder rearranges an elimination order so that all that hangs under a
// group comes right before it, the part eliminated last being nearest. parent
// tells under which element an element hangs, or -1. The fill stays the same
// (Liu 1990, SIAM J. Matrix Anal. Appl. 11, 134; from memory).
func postorder(order []int32, groups []group, parent []int32) []int32 {
	groupOf := make([]int32, len(parent))
	for g := range groups {
		groupOf[groups[g].pivot] = int32(g)
	}
	// Elements hang under later ones: sizes are summed in order of elimination,
	// places given out against it.
	own := func(g int) []int32 {
		if g+1 < len(groups) {
			return order[groups[g].first:groups[g+1].first]
		}
		return order[groups[g].first:]
	}
	for g := range groups {
		groups[g].size += int32(len(own(g)))
		if p := parent[groups[g].pivot]; p >= 0 {
			groups[groupOf[p]].size += groups[g].size
		}
	}
	placed := make([]int32, len(order))
	left := int32(len(order)) // places not given to any root
	for g := len(groups) - 1; g >= 0; g-- {
		end := &left
		if p := parent[groups[g].pivot]; p >= 0 {
			end = &groups[groupOf[p]].end
		}
		last := *end
		*end -= groups[g].size
		pivots := own(g)
		groups[g].end = last - int32(len(pivots))
		copy(placed[groups[g].end:last], pivots)
	}
	return placed
}
