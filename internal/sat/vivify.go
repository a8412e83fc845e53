package sat

const vivifyStep = 1 << 40

func (s *Solver) vivify() {}
