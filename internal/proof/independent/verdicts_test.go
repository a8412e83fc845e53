package independent_test

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"slices"
)

// alike is a draw in which all coils are 1 Ω and other parts depend on their
// value alone.
func (w *world) alike(rng *rand.Rand) draw {
	d := w.random(rng)
	for i := range d['c'] {
		d['c'][i] = 1
	}
	seen := map[float64]complex128{}
	value := func(kind byte, i int, v float64) {
		if kind == 'f' {
			v = -v
		}
		if _, ok := seen[v]; !ok {
			seen[v] = complex(0.1+3*rng.Float64(), 0)
		}
		d[kind][i] = seen[v]
	}
	for i, p := range w.pots {
		value('t', i, p.ohms)
	}
	for i, t := range w.caps {
		value('f', i, t.value)
	}
	for i, t := range w.ress {
		value('r', i, t.value)
	}
	return d
}

// phase is the verdict on strings; two marks coils whose sign nobody can tell.
func (w *world) phase(r response, two []bool) string {
	signs := map[int]int{}
	for i, s := range r.share {
		if cmplx.Abs(s) <= small && !two[i] {
			continue
		}
		g := w.coils[i].winding * w.coils[i].pole
		if two[i] {
			g = 0
		} else if real(s) < 0 {
			g = -g
		}
		signs[g]++
	}
	switch {
	case signs[1]+signs[-1]+signs[0] == 0:
		return ""
	case signs[1]+signs[-1]+signs[0] == 1:
		return "one coil"
	case signs[1] > 0 && signs[-1] > 0:
		return "out of phase"
	case signs[0] > 0:
		return "cannot tell"
	}
	return "in phase"
}

// hum tries every winding that nobody has told.
func (w *world) hum(rs []response) string {
	var open []int
	heard := false
	for i, k := range w.coils {
		if cmplx.Abs(rs[0].share[i]) > small {
			heard = true
			if k.winding == 0 {
				open = append(open, i)
			}
		}
	}
	if !heard {
		return ""
	}
	verdicts := map[string]bool{}
	for mask := range 1 << len(open) {
		verdicts[w.humWith(rs, open, mask)] = true
	}
	if len(verdicts) > 1 {
		return "cannot tell"
	}
	for v := range verdicts {
		return v
	}
	return ""
}

func (w *world) humWith(rs []response, open []int, mask int) string {
	verdict := "cancels"
	for _, r := range rs {
		sum, whole := 0.0, 0.0
		for i, s := range r.share {
			wind := w.coils[i].winding
			if k := slices.Index(open, i); k >= 0 {
				wind = 1 - 2*(mask>>k&1)
			}
			sum += float64(wind) * real(s)
			whole += math.Abs(real(s))
		}
		switch share := math.Abs(sum) / whole; {
		case share > 1-1e-9:
			return "adds"
		case share > 1e-9:
			verdict = "partly"
		}
	}
	return verdict
}
