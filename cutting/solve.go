package cutting

// solve returns the best layout found, and sets the bound.
func (s *sheets) solve() []sheet {
	if len(s.need) == 0 {
		s.leftover = true
		return nil
	}
	low := s.least()
	s.bound = low
	r := s.refitter()
	r.refit(refitFirst, low)
	if r.best.area == 0 && r.best.spent <= low {
		r.gather(refitLeft)
	}
	found := r.layout()
	given := found
	if r.best.area > 0 {
		given = nil
	}
	if given = s.exact(given); s.none || given != nil && s.total(given) <= s.bound {
		if s.none {
			return found
		}
		return given
	}
	r.refit(refitMore, s.bound)
	if r.best.area == 0 {
		r.gather(refitLeft)
	}
	return r.layout()
}
