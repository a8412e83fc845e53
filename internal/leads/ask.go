package leads

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loomwright/internal/units"
)

// kind of question.
type kind string

const (
	ohms    kind = "ohms"
	tap     kind = "tap"
	compass kind = "compass"
)

// ask is one question: ohms between two probes, a tap on a coil with the meter
// between two, a compass over a coil.
type ask struct {
	kind kind
	a, b int
	coil int
}

// key writes an ask as one line: "ohms orange to pink", "tap 1 at orange to
// pink", "compass 2". Coils count from 1 in the order of the make.
func (k ask) key(p *Pickup) string {
	names := p.probes()
	switch k.kind {
	case ohms:
		return fmt.Sprintf("ohms %s to %s", names[k.a], names[k.b])
	case tap:
		return fmt.Sprintf("tap %d at %s to %s", k.coil+1, names[k.a], names[k.b])
	}
	return fmt.Sprintf("compass %d", k.coil+1)
}

// parse reads what key writes.
func parse(p *Pickup, line string) (ask, error) {
	word, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
	k := ask{kind: kind(word)}
	probes := rest
	switch k.kind {
	case ohms:
	case tap, compass:
		number, at, _ := strings.Cut(rest, " at ")
		if _, err := fmt.Sscanf(number, "%d", &k.coil); err != nil || k.coil < 1 || k.coil > len(designs[p.Make].coils) {
			return k, fmt.Errorf("%q: this pickup has coils 1 to %d", line, len(designs[p.Make].coils))
		}
		k.coil--
		probes = at
	default:
		return k, fmt.Errorf("%q is no question: ohms, tap or compass", line)
	}
	if k.kind == compass {
		return k, nil
	}
	red, black, _ := strings.Cut(probes, " to ")
	k.a, k.b = slices.Index(p.probes(), strings.TrimSpace(red)), slices.Index(p.probes(), strings.TrimSpace(black))
	if k.a < 0 || k.b < 0 || k.a == k.b {
		return k, fmt.Errorf("%q: two of %s are wanted", line, strings.Join(p.probes(), ", "))
	}
	return k, nil
}

// outcome is what a question can be answered with. Ohms count as joined, as a
// coil's, or as open.
type outcome string

const (
	joined  outcome = "joined"
	coilful outcome = "coil"
	open    outcome = "open"
	up      outcome = "up"
	down    outcome = "down"
	nothing outcome = "nothing"
	north   outcome = "north"
	south   outcome = "south"
)

// Bounds of a coil's resistance and of one piece of metal, Ω (judgement: no coil
// of an electric guitar's pickup is outside).
const (
	leastCoil = 200
	mostCoil  = 60e3
	mostMetal = 5
	leastOpen = 1e6
)

// read understands an answer; ohms are returned too.
func (k ask) read(said string) (outcome, float64, error) {
	said = strings.ToLower(strings.TrimSpace(said))
	if k.kind != ohms {
		want := []outcome{up, down, nothing}
		if k.kind == compass {
			want = []outcome{north, south}
		}
		if slices.Contains(want, outcome(said)) {
			return outcome(said), 0, nil
		}
		return "", 0, fmt.Errorf("%q is no answer here: say one of %v", said, want)
	}
	if slices.Contains([]string{"ol", "o.l", "1", "1.", "open", "inf", "over"}, said) {
		return open, math.Inf(1), nil
	}
	v, err := units.Ohms(said)
	switch {
	case err != nil:
		return "", 0, err
	case v.X <= mostMetal:
		return joined, v.X, nil
	case v.X >= leastOpen:
		return open, v.X, nil
	case v.X < leastCoil || v.X > mostCoil:
		return "", 0, fmt.Errorf("%s is neither a coil, nor one piece of metal, nor open: zero the leads, keep fingers off the probes, read again", said)
	}
	return coilful, v.X, nil
}

// predict is what a guess answers.
func (d *design) predict(g *guess, k ask) outcome {
	if k.kind == compass {
		return "" // tells nothing of the leads
	}
	a, b := g.node[k.a], g.node[k.b]
	coils, ok := d.between(g, a, b)
	if k.kind == ohms {
		switch {
		case !ok:
			return open
		case len(coils) == 0:
			return joined
		}
		return coilful
	}
	if !ok || !d.stacked && !slices.Contains(coils, k.coil) {
		return nothing
	}
	return d.way(a, coils, k.coil)
}

// way is where the meter goes: up when a coil that the steel is at has its up
// end on the red probe's side.
func (d *design) way(red int, coils []int, coil int) outcome {
	for _, i := range coils {
		c := d.coils[i]
		if d.stacked || i == coil {
			if red == c.up {
				return up
			}
			return down
		}
		red = c.up + c.down - red
	}
	return nothing
}
