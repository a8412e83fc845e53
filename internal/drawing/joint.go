package drawing

import (
	"loomwright/internal/place"
	"loomwright/internal/scene"
)

// Joint is a place where solder goes.
type Joint struct {
	At    scene.Point
	Term  int
	Wires []int
}

// tailEnd is where a tail is soldered.
func tailEnd(w *Wire, s *place.Strand) place.End {
	if s.Pair >= 0 && w.far {
		return s.B
	}
	return s.A
}

// inSleeve reports whether a terminal is a joint under a sleeve.
func (d *Drawing) inSleeve(term int) bool {
	s := &d.Plan.Spots[term]
	return s.Part >= 0 && d.Plan.Parts[s.Part].Sleeve()
}

// jointKey tells joints apart: by terminal, on a case also by place.
type jointKey struct {
	term int
	at   scene.Point
}

// findJoints lists the soldered places: one for each terminal, several on a
// case.
func (d *Drawing) findJoints() {
	at := map[jointKey]int{}
	for i := range d.Wires {
		w := &d.Wires[i]
		if w.stub {
			continue
		}
		s := &d.Plan.Strands[w.Strand]
		ends := []place.End{s.A, s.B}
		if w.Tap[0] {
			ends = []place.End{{Term: -1, Splice: 0}, tailEnd(w, s)}
		}
		for k, e := range ends {
			if e.Splice >= 0 || e.Term < 0 || d.Plan.Spots[e.Term].Kind == "lead" || d.inSleeve(e.Term) {
				continue
			}
			p := w.Points[0]
			if k == 1 {
				p = w.Points[len(w.Points)-1]
			}
			key := jointKey{term: e.Term}
			if d.Plan.Spots[e.Term].InCase {
				key.at = p
			}
			j, ok := at[key]
			if !ok {
				j = len(d.joints)
				at[key] = j
				d.joints = append(d.joints, Joint{At: p, Term: e.Term})
			}
			d.joints[j].Wires = append(d.joints[j].Wires, i)
		}
	}
}
