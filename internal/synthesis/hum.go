package synthesis

import "math"

// share is one leaf's part of a sound: the volts at the open output for one
// volt in the coil, all coils and parts taken as alike.
type share struct {
	element int
	gain    float64
}

// shares returns the leaves' parts of a sound and its resistance in units of
// one coil's.
func (p *puzzle) shares(t *tree) ([]share, float64) {
	if t.leaf() {
		gain := 1.0
		if p.elements[t.element].part {
			gain = 0
		}
		return []share{{t.element, gain}}, 1
	}
	var out []share
	total := 0.0 // ohms in series, siemens in parallel
	for _, k := range t.kids {
		in, r := p.shares(k)
		weight := 1.0
		if !t.series {
			weight, r = 1/r, 1/r
		}
		total += r
		for _, s := range in {
			out = append(out, share{s.element, s.gain * weight})
		}
	}
	if t.series {
		return out, total
	}
	for i := range out {
		out[i].gain /= total
	}
	return out, 1 / total
}

// humCancels reports whether a uniform field cancels in a sound whose coils lie
// in the given order (+1: start toward hot). A winding that nobody has told
// leaves it open, which counts as yes: the proof says what it rests on.
func (p *puzzle) humCancels(t *tree, order []int) bool {
	sum := 0.0
	in, _ := p.shares(t)
	for _, s := range in {
		e := p.elements[s.element]
		if e.part {
			continue
		}
		if e.hum == 0 {
			return true
		}
		sum += s.gain * float64(order[s.element]*e.hum)
	}
	return math.Abs(sum) < 1e-9
}

// humNever reports whether hum is to cancel in a sound of given phase and cannot:
// no wiring changes that. With free phase it is decided way by way.
func (t *task) humNever(i int, x *tree) bool {
	if x == nil || !t.humWanted(i, x) || t.g.Loom.Sounds[i].FreePhase {
		return false
	}
	p := &puzzle{}
	for _, c := range t.coils {
		p.elements = append(p.elements, c.element)
	}
	order := make([]int, len(p.elements))
	x.leaves(func(l *tree) { order[l.element] = l.sign * p.elements[l.element].sign })
	return !p.humCancels(x, order)
}
