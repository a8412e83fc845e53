package independent_test

import (
	"fmt"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"slices"
	"sort"
	"strings"
)

// settings lists every position of all switches, the last moving fastest.
func (w *world) settings() [][]int {
	out := [][]int{nil}
	for _, s := range w.switches {
		var next [][]int
		for _, at := range out {
			for p := range s.positions {
				if s.proved < 0 || s.proved == p {
					next = append(next, append(slices.Clone(at), p))
				}
			}
		}
		out = next
	}
	return out
}

func (w *world) settingName(at []int) string {
	var words []string
	for i, s := range w.switches {
		if s.proved < 0 {
			words = append(words, s.name+" "+s.positions[at[i]])
		}
	}
	if len(words) == 0 {
		return "as wired"
	}
	return strings.Join(words, ", ")
}

// reading is one way in which the unknown leads can be coil ends, with what is
// then one piece of metal whatever the switches do.
type reading struct {
	number int
	pairs  [][2]int
	piece  []int // of each terminal
	count  int
}

// readings lists what the unknown leads can be, no two of them one end.
func (w *world) readings() []reading {
	var out []reading
	solid := slices.Concat(w.metal, w.wires, w.braids)
	var choose func(i int, so [][2]int)
	choose = func(i int, so [][2]int) {
		if i == len(w.unknown) {
			piece, count := flood(len(w.names), slices.Concat(solid, so))
			out = append(out, reading{len(out), slices.Clone(so), piece, count})
			return
		}
		for _, end := range w.unknown[i].may {
			if !slices.ContainsFunc(so, func(p [2]int) bool { return p[1] == end }) {
				choose(i+1, append(so, [2]int{w.unknown[i].lead, end}))
			}
		}
	}
	choose(0, nil)
	return out
}

// inTheWay marks the parts other than coils that the sound goes through: those
// on which it depends, with some choice of the others there, whether all heard
// coils are heard. The rest only load. ok is false where there are too many to
// try.
func (c *circuit) inTheWay(d draw, heard []bool) (way map[element]bool, ok bool) {
	way = map[element]bool{}
	hears := func(sub *circuit) bool { return slices.Equal(sub.heard(d), heard) }
	if hears(c.with(func(element) bool { return false })) {
		return way, true
	}
	var some []element
	for _, e := range c.els {
		if e.kind != 'c' && c.carries(e) {
			some = append(some, e)
		}
	}
	if len(some) > 9 {
		return way, false
	}
	with := make([]bool, 1<<len(some))
	for mask := range with {
		with[mask] = hears(c.with(func(e element) bool { i := slices.Index(some, e); return i >= 0 && mask>>i&1 == 1 }))
	}
	for i, e := range some {
		for mask := range with {
			if mask>>i&1 == 0 && with[mask] != with[mask|1<<i] {
				way[e] = true
			}
		}
	}
	return way, true
}

// with keeps the coils, and the other elements that keep says.
func (c *circuit) with(keep func(element) bool) *circuit {
	out := *c
	out.els = nil
	for _, e := range c.els {
		if e.kind == 'c' || keep(e) {
			out.els = append(out.els, e)
		}
	}
	return &out
}

// twoWays reports, for each coil, whether impedances decide which way round it
// is heard: then nobody can tell its phase from the wiring alone.
func (c *circuit) twoWays(rng *rand.Rand) []bool {
	out := make([]bool, len(c.w.coils))
	seen := make([]int, len(c.w.coils))
	for range 60 {
		d := c.w.random(rng)
		for _, zs := range d {
			for i := range zs {
				zs[i] = complex(math.Pow(10, 6*rng.Float64()-3), 0)
			}
		}
		r, ok := c.measure(d)
		if !ok {
			return out
		}
		for i, s := range r.share {
			switch v := real(s); {
			case math.Abs(v) < 1e-7:
			case seen[i] == 0:
				seen[i] = int(math.Copysign(1, v))
			case float64(seen[i])*v < 0:
				out[i] = true
			}
		}
	}
	return out
}

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

// coilStates sorts the coils that are not heard: shorted, hanging or off.
func (c *circuit) coilStates(heard []bool) map[string]string {
	out := map[string]string{}
	carrying := make([]bool, c.nets)
	for _, e := range c.els {
		if c.carries(e) {
			carrying[e.a], carrying[e.b] = true, true
		}
	}
	carrying[c.hot] = true
	carrying[c.gnd] = false
	for i, k := range c.w.coils {
		switch {
		case heard[i]:
			out[k.name] = "heard"
		case c.piece[k.start] == c.piece[k.finish]:
			out[k.name] = "shorted"
		case c.hot != c.gnd && c.hangs(i, carrying):
			out[k.name] = "hanging"
		default:
			out[k.name] = "off"
		}
	}
	return out
}

// hangs reports whether a coil that is not heard has a way to a net that
// carries signal, not over ground, and its ends no way to each other.
func (c *circuit) hangs(coil int, carrying []bool) bool {
	var pairs, dead [][2]int
	for _, e := range c.els {
		if e.a != c.gnd && e.b != c.gnd {
			pairs = append(pairs, [2]int{e.a, e.b})
		}
		if !(e.kind == 'c' && e.of == coil) && !c.carries(e) {
			dead = append(dead, [2]int{e.a, e.b})
		}
	}
	ends := []int{c.net(c.w.coils[coil].start), c.net(c.w.coils[coil].finish)}
	if piece, _ := flood(c.nets, dead); piece[ends[0]] == piece[ends[1]] {
		return false
	}
	piece, _ := flood(c.nets, pairs)
	for net, on := range carrying {
		for _, end := range ends {
			if on && end != c.gnd && piece[net] == piece[end] {
				return true
			}
		}
	}
	return false
}

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

var moments = []string{"smooth", "gap", "mute", "pop"}

var momentOf = map[string]string{"sounding": "smooth", "held": "gap", "shorted": "mute", "open": "pop"}

// passage is the worst moment while one switch moves between two positions.
func (w *world) passage(at []int, sw, to int, readings []reading, memo map[string]string) string {
	s := w.switches[sw]
	var still [][]int
	for i, o := range w.switches {
		if i != sw {
			for _, pole := range o.poles {
				still = append(still, pole[at[i]]...)
			}
		}
	}
	worst := 0
	try := func(groups [][]int) {
		for _, r := range readings {
			worst = max(worst, slices.Index(moments, w.moment(groups, r, memo)))
		}
	}
	steps := s.stepsOf(at[sw], to)
	if !s.skew || len(s.poles) > 4 {
		for k := range steps[0] {
			groups := slices.Clone(still)
			for p := range steps {
				groups = append(groups, steps[p][k]...)
			}
			try(groups)
		}
		return moments[worst]
	}
	total := 1
	for _, st := range steps {
		total *= len(st)
	}
	for mix := range total {
		groups := slices.Clone(still)
		for rest, p := mix, 0; p < len(steps); p++ {
			groups = append(groups, steps[p][rest%len(steps[p])]...)
			rest /= len(steps[p])
		}
		try(groups)
	}
	return moments[worst]
}

// stepsOf lists for each pole the contacts that it goes through.
func (s lever) stepsOf(from, to int) [][][][]int {
	var out [][][][]int
	for _, pole := range s.poles {
		var both [][]int
		for _, a := range pole[from] {
			for _, b := range pole[to] {
				in := slices.DeleteFunc(slices.Clone(a), func(t int) bool { return !slices.Contains(b, t) })
				both = append(both, in)
			}
		}
		either := append(slices.Clone(pole[from]), pole[to]...)
		switch s.travel {
		case "break first":
			out = append(out, [][][]int{pole[from], both, pole[to]})
		case "make first":
			out = append(out, [][][]int{pole[from], either, pole[to]})
		default:
			out = append(out, [][][]int{pole[from], both, either, pole[to]})
		}
	}
	return out
}

func (w *world) moment(groups [][]int, r reading, memo map[string]string) string {
	piece, _ := flood(r.count, w.graph(groups, w.fullUp(), r))
	key := make([]byte, len(piece), len(piece)+1)
	for i, p := range piece {
		key[i] = byte(p)
	}
	key = append(key, byte(r.number))
	m, ok := memo[string(key)]
	if !ok {
		m = momentOf[w.circuit(groups, w.fullUp(), r).output()]
		memo[string(key)] = m
	}
	return m
}

// passages lists "switch to setting: moment" for the ways out of a setting.
func (w *world) passages(at []int, readings []reading, memo map[string]string) []string {
	var out []string
	for sw, s := range w.switches {
		if s.proved >= 0 {
			continue
		}
		for to := range s.positions {
			step := to - at[sw]
			ring := s.around && len(s.positions) > 2 && (step == len(s.positions)-1 || step == 1-len(s.positions))
			if step == 1 || step == -1 || ring {
				there := slices.Clone(at)
				there[sw] = to
				way := fmt.Sprint(min(to, at[sw]), max(to, at[sw]), sw, at[:sw], at[sw+1:]) // the same both ways
				if memo[way] == "" {
					memo[way] = w.passage(at, sw, to, readings, memo)
				}
				out = append(out, s.name+" to "+w.settingName(there)+": "+memo[way])
			}
		}
	}
	sort.Strings(out)
	return out
}
