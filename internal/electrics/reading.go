package electrics

import (
	"math"
	"slices"
)

// Verdict says what direct current finds between two terminals.
type Verdict string

// The verdicts. Joined terminals are one net; Blocked ones are connected
// through a capacitor only, which a meter may show for a moment.
const (
	Joined  Verdict = "joined"
	Path    Verdict = "path"
	Blocked Verdict = "blocked"
	Apart   Verdict = "open"
)

// Reading is the resistance between two terminals in one setting and turn. The
// true value lies between Lo and Hi if every part lies within its own bounds:
// resistance between two points never falls when a resistor grows (Rayleigh),
// so that all values low and all values high bound it.
type Reading struct {
	A       string   `json:"a"`
	B       string   `json:"b"`
	Verdict Verdict  `json:"verdict"`
	Ohms    float64  `json:"ohms"` // Ω; 0 where there is no path
	Lo      float64  `json:"lo"`
	Hi      float64  `json:"hi"`
	Typical bool     `json:"typical,omitempty"` // rests on values that nobody stated
	Through []string `json:"through,omitempty"` // capacitors that block
	Words   string   `json:"words"`
}

// Interval is the resistance between two terminals without words: nominal and
// bounds in Ω, +Inf where there is no path.
func (d *DC) Interval(a, b int) (ohms, lo, hi float64) {
	na, nb := d.nets.Of[a], d.nets.Of[b]
	return d.between(nominal, na, nb), d.between(allLow, na, nb), d.between(allHigh, na, nb)
}

// Ohms is what lies between two terminals of the graph, with words for it.
func (d *DC) Ohms(a, b int) Reading {
	out := Reading{A: d.m.g.Terms[a].Name, B: d.m.g.Terms[b].Name}
	na, nb := d.nets.Of[a], d.nets.Of[b]
	switch ohms, lo, hi := d.Interval(a, b); {
	case na == nb:
		out.Verdict = Joined
	case !math.IsInf(ohms, 1):
		out.Verdict, out.Ohms, out.Lo, out.Hi = Path, settled(ohms), settled(lo), hi
		out.Typical = d.typical(na, nb)
	default:
		out.Verdict = Apart
		if out.Through = d.through(na, nb); out.Through != nil {
			out.Verdict = Blocked
		}
	}
	out.Words = d.words(&out, na, nb)
	return out
}

// settled takes out what stands for no resistance.
func settled(ohms float64) float64 {
	if ohms < 100*tinyOhms {
		return 0
	}
	return ohms
}

// leastShare is the share of a reading from which a part is worth a word.
const leastShare = 0.002

// typical reports whether the reading rests on a value that nobody stated.
func (d *DC) typical(a, b int) bool {
	for i := range d.parts {
		if r := &d.parts[i]; !d.stated(r) && d.share(r, a, b) > leastShare {
			return true
		}
	}
	return false
}

func (d *DC) stated(r *resistor) bool {
	if r.track >= 0 {
		return d.m.tracks[r.track].ohms.Known
	}
	return r.ohms.Known
}

// through finds the capacitors on a shortest way between two nets that no
// direct current joins; nil when there is none.
func (d *DC) through(a, b int) []string {
	forest := make([]int, d.nets.Count)
	for i := range forest {
		forest[i] = i
	}
	for _, r := range d.parts {
		unite(forest, r.a, r.b)
	}
	from := map[int]int{root(forest, a): -1} // the capacitor by which an island was reached
	for queue := []int{root(forest, a)}; len(queue) > 0; queue = queue[1:] {
		for i, c := range d.m.caps {
			p, q := root(forest, d.nets.Of[c.a]), root(forest, d.nets.Of[c.b])
			if q == queue[0] {
				p, q = q, p
			}
			if _, seen := from[q]; p != queue[0] || seen {
				continue
			}
			from[q] = i
			queue = append(queue, q)
		}
	}
	var names []string
	for at := root(forest, b); ; {
		i, reached := from[at]
		if !reached {
			return nil
		}
		if i < 0 {
			slices.Reverse(names)
			return names
		}
		names = append(names, d.m.caps[i].name)
		c := d.m.caps[i]
		if p := root(forest, d.nets.Of[c.a]); p != at {
			at = p
		} else {
			at = root(forest, d.nets.Of[c.b])
		}
	}
}
