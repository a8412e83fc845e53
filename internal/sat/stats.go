package sat

// Stats counts what the solver has done since it was made.
type Stats struct {
	Solves       int64
	Conflicts    int64
	Decisions    int64
	Propagations int64 // literals propagated
	Restarts     int64
	Learned      int64 // clauses ever learned
	Forgotten    int64 // of them deleted as not useful
	Vars         int   // variables
	Fixed        int   // of them with a value for good
	Kept         int   // learned clauses now in use
	Clauses      int   // clauses of the problem now in use
}

// Stats returns the counts so far.
func (s *Solver) Stats() Stats {
	st := s.stats
	st.Vars, st.Fixed = s.NumVars(), len(s.trail)-1
	if len(s.levels) > 0 {
		st.Fixed = int(s.levels[0]) - 1
	}
	st.Kept, st.Clauses = len(s.learned), len(s.original)
	return st
}
