package independent_test

import (
	"math/cmplx"
	"slices"
	"strings"
)

// knobAnswer is what a knob does in a setting.
type knobAnswer struct{ knob, does, mutes string }

// knobs measures each knob at 0, 3.5, 6 and 10.
func (w *world) knobAnswers(groups [][]int, r reading, d draw) []knobAnswer {
	up := w.circuit(groups, w.fullUp(), r)
	var out []knobAnswer
	for k, name := range w.knobs {
		at := func(x float64) *circuit {
			turn := w.fullUp()
			turn[k] = x
			return w.circuit(groups, turn, r)
		}
		if !differ(at(0.35), at(0.6), d) {
			continue
		}
		a := knobAnswer{knob: name}
		a.does, a.mutes = w.does(k, up, at(0), at(1), d)
		out = append(out, a)
	}
	return out
}

// differ reports whether two circuits sound, and measure differently.
func differ(a, b *circuit, d draw) bool {
	ra, oka := a.measure(d)
	rb, okb := b.measure(d)
	sound := func(r response) bool {
		return slices.ContainsFunc(r.share, func(s complex128) bool { return cmplx.Abs(s) > small })
	}
	if !sound(ra) && !sound(rb) {
		return false
	}
	if oka != okb || cmplx.Abs(ra.z-rb.z) > small {
		return true
	}
	for i := range ra.share {
		if cmplx.Abs(ra.share[i]-rb.share[i]) > small {
			return true
		}
	}
	return false
}

func (w *world) isBlend(knob int) bool {
	return slices.ContainsFunc(w.pots, func(p pot) bool { return p.knob == knob && p.law != "" && p.law != "whole" })
}

func (w *world) does(knob int, up, down, far *circuit, d draw) (does, mutes string) {
	names := func(from, to *circuit) []string {
		var out []string
		f, t := from.heard(d), to.heard(d)
		for i := range f {
			if f[i] && !t[i] {
				out = append(out, w.coils[i].name)
			}
		}
		return out
	}
	lost, gained := names(up, down), names(down, up)
	all := 0
	for _, h := range up.heard(d) {
		if h {
			all++
		}
	}
	switch {
	case w.isBlend(knob):
		return "blend", strings.Join(append(lost, names(up, far)...), " ")
	case len(gained) > len(lost):
		return "volume backwards", strings.Join(gained, " ")
	case len(lost) > 0 && len(lost) == all:
		return "volume", strings.Join(lost, " ")
	case len(lost) > 0:
		return "volume of", strings.Join(lost, " ")
	}
	return w.colour(up, down), ""
}

// colour tells what a knob does to treble and bass: how the level where
// capacitors are nearly shorts stands to the level where they are nearly open,
// at 0 against 10. Tracks are large against coils.
func (w *world) colour(up, down *circuit) string {
	level := func(c *circuit, cap float64) float64 {
		d := draw{'c': nil, 't': nil, 'f': nil, 'r': nil}
		for range w.coils {
			d['c'] = append(d['c'], 6e3)
		}
		for range w.pots {
			d['t'] = append(d['t'], 5e5)
		}
		for range w.caps {
			d['f'] = append(d['f'], complex(cap, 0))
		}
		for range w.ress {
			d['r'] = append(d['r'], 1e4)
		}
		r, _ := c.measure(d)
		sum := 0.0
		for _, s := range r.share {
			sum += cmplx.Abs(s)
		}
		return sum
	}
	tilt := func(c *circuit) float64 { return (level(c, 1) + 1e-6) / (level(c, 1e8) + 1e-6) }
	switch before, after := tilt(up), tilt(down); {
	case after < 0.3*before:
		return "darker"
	case before < 0.3*after:
		return "brighter"
	case after > 0.9*before && before > 0.9*after:
		return "even"
	}
	return "?"
}
