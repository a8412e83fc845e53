package diagnosis_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"

	"loomwright/internal/electrics"
	"loomwright/internal/fault"
	"loomwright/internal/meter"
	"loomwright/internal/part"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// bench is a simulated guitar on a simulated bench: one draw of every value
// within its tolerance, a meter with errors, a pair of ears. It shares no code
// with electrics or meter: its own nets, its own solver, its own tolerances as
// the parts state them.
type bench struct {
	g      *wiring.Graph
	random *rand.Rand
	meter  electrics.Meter
	coil   []float64 // Ω, warm
	henry  []float64
	track  []float64
	end    [][2]float64 // cw, ccw
	half   []float64
	eye    []float64 // how far each knob is off its mark in mid-turn
	cap    []float64
	fixed  []float64
	leads  float64 // Ω left of the test leads
	gain   float64 // of the meter, relative error −1…1
}

// newBench draws a bench with the given faults in it.
func newBench(g *wiring.Graph, seed uint64, faults ...fault.Fault) *bench {
	r := rand.New(rand.NewPCG(seed, 77))
	b := &bench{g: fault.ApplyAll(g, faults...), random: r, meter: electrics.Plain()}
	warm := 1 + 0.00393*(15+15*r.Float64()-20) // copper, 15 to 30 °C
	for i := range b.g.Coils {
		c := &b.g.Coils[i]
		b.coil = append(b.coil, warm*b.within(c.Ohms))
		b.henry = append(b.henry, b.within(c.Henries))
	}
	for i := range b.g.Tracks {
		t := &b.g.Tracks[i]
		b.track = append(b.track, t.Value.Ohms.X*(1+t.Tolerance*b.even()))
		b.end = append(b.end, [2]float64{2 * t.End * r.Float64(), 2 * t.End * r.Float64()})
		b.half = append(b.half, b.halfOf(t))
	}
	for range b.g.Knobs {
		b.eye = append(b.eye, 0.02*b.even())
	}
	for _, c := range b.g.Caps {
		b.cap = append(b.cap, c.Value.X*(1+0.1*b.even()))
	}
	for _, x := range b.g.Resistors {
		v := x.Value.Interval()
		if x.Use < 0 { // a bad joint or contact: spread evenly over its decades
			b.fixed = append(b.fixed, v.Lo*math.Pow(v.Hi/v.Lo, r.Float64()))
		} else {
			b.fixed = append(b.fixed, x.Value.X*(1+0.1*b.even()))
		}
	}
	b.leads, b.gain = 0.5*r.Float64(), b.even()
	return b
}

func (b *bench) even() float64 { return 2*b.random.Float64() - 1 }

// within draws from a range, now and then its ends.
func (b *bench) within(x part.Range) float64 {
	switch b.random.IntN(8) {
	case 0:
		return x.Lo
	case 1:
		return x.Hi
	}
	return x.Lo + (x.Hi-x.Lo)*b.random.Float64()
}

// halfOf is the share of a track between ccw and wiper at half turn.
func (b *bench) halfOf(t *wiring.Track) float64 {
	lo, hi := 0.08, 0.25 // audio of no stated share
	if t.Value.Half > 0 {
		lo, hi = 0.8*t.Value.Half, 1.2*t.Value.Half
	}
	switch t.Value.Taper {
	case units.Linear:
		lo, hi = 0.45, 0.55
	case units.ReverseAudio:
		lo, hi = 1-hi, 1-lo
	}
	return lo + (hi-lo)*b.random.Float64()
}

// shares are the two halves of a track at a turn: to cw, to ccw.
func (b *bench) shares(i int, turn float64) (up, down float64) {
	t := &b.g.Tracks[i]
	x := turn
	if x > 0 && x < 1 {
		x = min(max(x+b.eye[t.Knob], 0), 1)
	}
	h := (1/b.half[i] - 1) * (1/b.half[i] - 1)
	share := x
	if math.Abs(h-1) > 1e-9 {
		share = (math.Pow(h, x) - 1) / (h - 1)
	}
	up = b.end[i][0] + (1-share)*(b.track[i]-b.end[i][0]-b.end[i][1])
	down = b.end[i][1] + share*(b.track[i]-b.end[i][0]-b.end[i][1])
	return up, down
}

// nets numbers what is one piece of metal in a setting.
func (b *bench) nets(at []int) []int {
	net := make([]int, len(b.g.Terms))
	for i := range net {
		net[i] = i
	}
	merge := func(p, q int) {
		from, to := net[p], net[q]
		for i := range net {
			if net[i] == from {
				net[i] = to
			}
		}
	}
	for _, l := range b.g.Links {
		merge(l.A, l.B)
	}
	for i := range b.g.Switches {
		for _, pole := range b.g.Switches[i].Contacts {
			for _, group := range pole[at[i]] {
				for _, t := range group {
					merge(t, group[0])
				}
			}
		}
	}
	return net
}

// part is one admittance between two nets.
type element struct {
	p, q int
	y    complex128
}

// solve gives the voltage of every net for currents into nets, with net zero
// held at 0 V; nets without a way to zero stay out.
func solve(elements []element, into map[int]complex128, zero int) map[int]complex128 {
	reach := map[int]bool{zero: true}
	for again := true; again; {
		again = false
		for _, e := range elements {
			if e.y != 0 && reach[e.p] != reach[e.q] {
				reach[e.p], reach[e.q], again = true, true, true
			}
		}
	}
	row := map[int]int{}
	for n := range reach {
		if n != zero {
			row[n] = len(row)
		}
	}
	a := make([][]complex128, len(row))
	for i := range a {
		a[i] = make([]complex128, len(row)+1)
	}
	for _, e := range elements {
		i, iok := row[e.p]
		j, jok := row[e.q]
		if iok {
			a[i][i] += e.y
		}
		if jok {
			a[j][j] += e.y
		}
		if iok && jok {
			a[i][j] -= e.y
			a[j][i] -= e.y
		}
	}
	for n, x := range into {
		if i, ok := row[n]; ok {
			a[i][len(row)] += x
		}
	}
	x := gauss(a)
	out := map[int]complex128{zero: 0}
	for n, i := range row {
		out[n] = x[i]
	}
	return out
}

// gauss solves with row pivoting.
func gauss(a [][]complex128) []complex128 {
	n := len(a)
	size := func(z complex128) float64 { return math.Hypot(real(z), imag(z)) }
	for k := range n {
		best := k
		for i := k; i < n; i++ {
			if size(a[i][k]) > size(a[best][k]) {
				best = i
			}
		}
		a[k], a[best] = a[best], a[k]
		for i := k + 1; i < n; i++ {
			f := a[i][k] / a[k][k]
			for j := k; j <= n && f != 0; j++ {
				a[i][j] -= f * a[k][j]
			}
		}
	}
	x := make([]complex128, n)
	for i := n - 1; i >= 0; i-- {
		x[i] = a[i][n]
		for j := i + 1; j < n; j++ {
			x[i] -= a[i][j] * x[j]
		}
		x[i] /= a[i][i]
	}
	return x
}

// direct lists the resistances of a state.
func (b *bench) direct(a *meter.Ask, net []int) []element {
	var out []element
	add := func(p, q int, ohms float64) {
		if net[p] != net[q] {
			out = append(out, element{net[p], net[q], complex(1/max(ohms, 1e-6), 0)})
		}
	}
	for i, c := range b.g.Coils {
		add(c.Start, c.Finish, b.coil[i])
	}
	for i := range b.g.Tracks {
		t := &b.g.Tracks[i]
		up, down := b.shares(i, a.Turn[t.Knob])
		add(t.CW, t.Wiper, up)
		add(t.Wiper, t.CCW, down)
	}
	for i, r := range b.g.Resistors {
		add(r.A, r.B, b.fixed[i])
	}
	return out
}

// take answers an ask as a careful person with an ordinary meter would.
func (b *bench) take(a meter.Ask) string {
	switch a.Kind {
	case meter.Ohms:
		return b.show(b.ohms(&a))
	case meter.Tap:
		return b.tap(&a)
	case meter.Darkens:
		return b.darkens(&a)
	case meter.Compass:
		return map[part.Sign]string{1: "north", -1: "south"}[b.g.Coils[a.Coil].Pole]
	case meter.Farads:
		return b.farads(a.Cap)
	}
	return ""
}

// ohms is the true resistance; +Inf where open.
func (b *bench) ohms(a *meter.Ask) float64 {
	net := b.nets(a.At)
	if net[a.A] == net[a.B] {
		return 0.9 * b.random.Float64() // wires and contacts
	}
	v, ok := solve(b.direct(a, net), map[int]complex128{net[a.A]: 1}, net[a.B])[net[a.A]]
	if !ok {
		return math.Inf(1)
	}
	return real(v) + 0.9*b.random.Float64()
}

// show is what the display has, on the smallest range that shows it.
func (b *bench) show(ohms float64) string {
	ohms += b.leads
	for _, r := range b.meter.Ranges {
		x := ohms*(1+b.gain*r.Percent/100) + (r.Counts-0.5)*b.even()*r.Count
		if x = r.Count * math.Round(max(0, x)/r.Count); x <= r.Full*(1+1e-9) {
			return ohmsText(x, r)
		}
	}
	return "OL"
}

func ohmsText(x float64, r electrics.Range) string {
	unit, scale := "", 1.0
	switch {
	case r.Full > 1.9e6:
		unit, scale = "M", 1e6
	case r.Full > 1.9e3:
		unit, scale = "k", 1e3
	}
	decimals := int(math.Round(-math.Log10(r.Count / scale)))
	return strconv.FormatFloat(x/scale, 'f', max(0, decimals), 64) + unit
}

// tap touches steel to a coil: flux out of the coil's north face grows, its EMF
// (start over finish) goes down in a coil wound clockwise.
func (b *bench) tap(a *meter.Ask) string {
	net := b.nets(a.At)
	c := b.g.Coils[a.Coil]
	emf := -float64(c.Winding * c.Pole)
	s, f := net[c.Start], net[c.Finish]
	v := 0.0
	if s != f && net[a.A] != net[a.B] {
		elements := append(b.direct(a, net), element{net[a.A], net[a.B], 1e-7}) // the meter's 10 MΩ
		i := complex(emf/b.coil[a.Coil], 0)
		volts := solve(elements, map[int]complex128{s: i, f: -i}, net[a.B])
		v = real(volts[net[a.A]])
	}
	switch size := math.Abs(v); {
	case size < 0.02, size < 0.1 && b.random.IntN(2) == 0:
		return "nothing"
	case v > 0:
		return "up"
	}
	return "down"
}

// darkens listens to a chord, roughly: 300 Hz for its body, 3 kHz for its top.
func (b *bench) darkens(a *meter.Ask) string {
	level := func(turn, hz float64) float64 {
		at := *a
		at.Turn = a.Turn.With(a.Knob, turn)
		return 20 * math.Log10(b.heard(&at, hz)+1e-12)
	}
	open, shut := level(1, 300), level(0, 300)
	drop := (level(1, 3000) - open) - (level(0, 3000) - shut)
	switch {
	case open < -40:
		return "silent"
	case shut < open-30:
		return "silences"
	case drop > 6 || drop > 2 && b.random.IntN(2) == 0:
		return "darker"
	}
	return "same"
}

// heard is the size of what reaches the jack of one volt in every coil, as the
// strings move them.
func (b *bench) heard(a *meter.Ask, hz float64) float64 {
	net := b.nets(a.At)
	w := 2 * math.Pi * hz
	elements := b.direct(a, net)[len(b.live(net)):]
	into := map[int]complex128{}
	for i, c := range b.g.Coils {
		if net[c.Start] == net[c.Finish] {
			continue
		}
		y := 1 / complex(b.coil[i], w*b.henry[i])
		elements = append(elements, element{net[c.Start], net[c.Finish], y + complex(0, w*120e-12)})
		sign := complex(float64(c.Winding*c.Pole), 0)
		into[net[c.Start]] += sign * y
		into[net[c.Finish]] -= sign * y
	}
	for i, c := range b.g.Caps {
		elements = append(elements, element{net[c.A], net[c.B], complex(0, w*b.cap[i])})
	}
	hot, ground := net[b.g.Hot], net[b.g.Ground]
	if hot == ground {
		return 0
	}
	elements = append(elements, element{hot, ground, complex(1e-6, w*470e-12)})
	v := solve(elements, into, ground)[hot]
	return math.Hypot(real(v), imag(v))
}

// live lists the coils that direct lists, which come first there.
func (b *bench) live(net []int) []int {
	var out []int
	for i, c := range b.g.Coils {
		if net[c.Start] != net[c.Finish] {
			out = append(out, i)
		}
	}
	return out
}

func (b *bench) farads(i int) string {
	c := b.g.Caps[i]
	x := b.cap[i]
	if b.g.Terms[c.A].Kind == "inside" || b.g.Terms[c.B].Kind == "inside" {
		x = 0
	}
	for _, l := range b.g.Links {
		if l.Run < 0 && (l.A == c.A && l.B == c.B || l.B == c.A && l.A == c.B) {
			return "OL"
		}
	}
	return fmt.Sprintf("%.2fn", 1e9*x*(1+0.03*b.even()))
}
