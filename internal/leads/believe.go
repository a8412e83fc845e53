package leads

import (
	"slices"

	"loomwright/internal/part"
)

// Believe puts a lead code as something to check into a state. Leads that the
// pickup does not have are left out of it; hot, ground and link keep their
// customary meaning of a twin coil joined finish to finish.
func Believe(s State, code *part.Code) State {
	s.Believed = map[string][]string{}
	for _, l := range code.Leads {
		if !l.Unknown && slices.Contains(s.Pickup.Leads, l.Name) {
			s.Believed[l.Name] = l.Ends
		}
	}
	return s
}

// agrees reports whether a guess is what the believed code says.
func (w *wizard) agrees(g *guess) bool {
	for i, lead := range w.s.Pickup.Leads {
		ends, ok := w.s.Believed[lead]
		if !ok {
			continue
		}
		if !slices.ContainsFunc(ends, func(end string) bool { return slices.Contains(w.ends(g.node[i]), end) }) {
			return false
		}
	}
	return true
}

// ends are the names in a lead code of what is on a node: of a coil's end, also
// the words that makers use.
func (w *wizard) ends(node int) []string {
	var out []string
	for i, c := range w.d.coils {
		if node != c.up && node != c.down {
			continue
		}
		start := (node == c.up) == (c.pole < 0)
		name := c.finish
		if start {
			name = c.start
		}
		out = append(append(out, name), makersWord(i, len(w.d.coils), start)...)
	}
	if node == w.d.shield() {
		out = append(out, "shield")
	}
	return out
}

// makersWord is hot, ground or link for an end of a coil: in a twin coil the
// starts are the outer ends of the chain, the finishes its middle.
func makersWord(coil, coils int, start bool) []string {
	switch {
	case coils != 2:
		return nil
	case !start:
		return []string{"link"}
	case coil == 0:
		return []string{"hot"}
	}
	return []string{"ground"}
}

// believedNext asks what would most surely refute a believed code, as long as
// something could.
func (w *wizard) believedNext(guesses []guess, step *Step) bool {
	if len(w.s.Believed) == 0 || w.any {
		return false
	}
	var in, out []guess
	for _, g := range guesses {
		if w.agrees(&g) {
			in = append(in, g)
		} else {
			out = append(out, g)
		}
	}
	if len(in) == 0 || len(out) == 0 {
		return false
	}
	best, most := ask{}, 0
	for _, k := range w.asks {
		if w.asked(k) || k.kind == tap && !w.isCoil(k) {
			continue // an open pair picks up noise: ohms come first
		}
		if n := w.refuted(in, out, k); n > most {
			best, most = k, n
		}
	}
	if most == 0 {
		return false
	}
	step.Question = w.question(best, "the code that is believed says what must be seen here", false)
	return true
}

// refuted counts the other guesses that an answer as the code has it rules out;
// none if the code itself leaves the answer open.
func (w *wizard) refuted(in, out []guess, k ask) int {
	want := w.d.predict(&in[0], k)
	for i := range in {
		if w.d.predict(&in[i], k) != want {
			return 0
		}
	}
	n := 0
	for i := range out {
		if w.d.predict(&out[i], k) != want {
			n++
		}
	}
	return n
}
