// Package sat decides whether a set of clauses over Boolean variables has a
// model, finds one, or says which assumptions stand in its way. It is a solver
// by conflict-driven clause learning with the builders that go before it: gates,
// counts, DIMACS files.
//
// # Use
//
//	s := sat.New(sat.Options{})
//	a, b := s.NewVar(), s.NewVar()
//	s.AddClause(a, b)                  // a or b
//	switch s.Solve(a.Not()) {          // with a false for now
//	case sat.Sat:
//		fmt.Println(s.Value(b))
//	case sat.Unsat:
//		fmt.Println(s.Core())      // which assumptions clash
//	case sat.Unknown:                  // MaxConflicts spent, or Stop said so
//	}
//
// A Lit is a variable or its negation. The literals True and False are constants:
// builders and callers may use them wherever a literal is asked for, and they
// vanish when a clause is added.
//
// Clauses and variables can be added at any time between two calls of Solve, and
// what was learned stays. Assumptions hold for one Solve only; they share one
// level of the search, so hundreds of them cost little. To tighten a bound step
// by step, add the bound that is proved as a clause of one literal and assume the
// one that is tried.
//
// # Budgets
//
// Effort is counted in conflicts, never by clock: the same calls with the same
// Options give the same answers, models, cores and proofs on every machine.
// Stop is polled every PollEvery conflicts; a caller with a context gives
// func() bool { return ctx.Err() != nil }. A search that was stopped can be
// taken up again by calling Solve once more. Neither Stop nor Progress may call
// methods of the solver.
//
// # Evidence
//
// Of the three answers, Sat is checked by looking at the model and Unsat by a
// proof: with Options.Proof set, every learned clause and deletion is written as
// DRAT text, from the first AddClause on. The proof refers to the problem as
// CNF().WriteDIMACS writes it. Solve without assumptions ends a refutation with
// the empty clause. With assumptions it ends with the clause that negates the
// core; a proof of the problem with these assumptions as clauses (CNF(core...))
// is the same text with the line "0" after it. A proof covers the clauses, not
// the question that they were made from.
//
// # Builders
//
// Gates defines AND, OR, XOR and a few more as literals, with constants folded
// and equal gates shared. Totalizer and Merge count in unary; AtMost and AtLeast
// bound a count. MinimalCore reduces the assumptions in a conflict until none can
// be spared.
package sat
