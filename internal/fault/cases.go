package fault

import (
	"encoding/binary"

	"loomwright/internal/wiring"
)

// Case is one circuit that a loom can be: whole, or with a fault. Faults that
// make the same circuit in every setting are one case.
type Case struct {
	Faults   []Fault // none: the loom is whole
	Graph    *wiring.Graph
	Circuits []int // by setting: equal numbers are equal circuits, of any case of one Cases call
	Idle     bool  // leads nowhere: the loom works as the whole one
}

// Prior is the sum of the priors of a case's faults.
func (c *Case) Prior() float64 {
	sum := 0.0
	for _, f := range c.Faults {
		sum += f.Prior
	}
	return sum
}

// Harmless is a fault that provably changes nothing, and why.
type Harmless struct {
	Fault
	Why string
}

// Reasons of harmless faults.
const (
	SameNets = "the same terminals are joined in every setting as without it"
	SameWork = "all that is joined otherwise leads nowhere: between hot, ground and metal nothing changes in any setting"
)

// Cases applies faults one by one and sorts out which are the same circuit and
// which change nothing. The first case is the whole loom.
func Cases(g *wiring.Graph, faults []Fault) ([]Case, []Harmless) { return casesOf(g, faults, false) }

// CasesIdle is Cases, with faults that change what probes read but not how the
// loom works among the cases.
func CasesIdle(g *wiring.Graph, faults []Fault) ([]Case, []Harmless) { return casesOf(g, faults, true) }

func casesOf(g *wiring.Graph, faults []Fault, idle bool) ([]Case, []Harmless) {
	d := newDescriber(g)
	cases := []Case{{Graph: g, Circuits: d.circuits(g)}}
	at := map[string]int{key(cases[0].Circuits): 0}
	var harmless []Harmless
	for _, f := range faults {
		faulted := Apply(g, f)
		circuits := d.circuits(faulted)
		switch i, known := at[key(circuits)]; {
		case known && i == 0:
			harmless = append(harmless, Harmless{f, SameNets})
		case known:
			cases[i].Faults = append(cases[i].Faults, f)
		default:
			alike := d.worksAlike(g, faulted)
			if alike && !idle {
				harmless = append(harmless, Harmless{f, SameWork})
				continue
			}
			at[key(circuits)] = len(cases)
			cases = append(cases, Case{[]Fault{f}, faulted, circuits, alike})
		}
	}
	return cases, harmless
}

func key(circuits []int) string {
	var b []byte
	for _, c := range circuits {
		b = binary.AppendUvarint(b, uint64(c))
	}
	return string(b)
}
