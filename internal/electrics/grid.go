package electrics

import (
	"math"
	"sync"

	"loomwright/internal/linear"
)

// section is a run of frequencies on the grid: whole blocks of linear.Lanes,
// the last one filled up with its last frequency.
type section struct{ first, end, points int }

// grid holds all frequencies that a model is looked at, in sections.
type grid struct {
	hz     []float64
	sweep  section // of a curve
	coarse section // the same range with fewer points, to find the peak
	chord  section // partials of the plucked strings
	mains  section // harmonics of the mains; the last point is lowHz
}

func (g *grid) add(hz []float64) section {
	s := section{first: len(g.hz) / linear.Lanes, points: len(hz)}
	g.hz = append(g.hz, padded(hz)...)
	s.end = len(g.hz) / linear.Lanes
	return s
}

// whole is a padded list as one section.
func whole(full []float64, points int) section { return section{0, len(full) / linear.Lanes, points} }

// padded fills a list up to whole blocks.
func padded(hz []float64) []float64 {
	out := append([]float64(nil), hz...)
	for len(out)%linear.Lanes != 0 {
		out = append(out, hz[len(hz)-1])
	}
	return out
}

// spread is n points from lo to hi, evenly over log frequency.
func spread(lo, hi float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = lo * math.Pow(hi/lo, float64(i)/float64(max(1, n-1)))
	}
	out[n-1] = hi
	return out
}

// coarsePoints are enough to find a peak that an ordinary coil can have; it is
// then looked at closely.
const coarsePoints = 128

// mainsTop bounds the harmonics of the mains that count, Hz.
const mainsTop = 1000

func newGrid(m *Model, partials []partial) *grid {
	g := &grid{}
	g.sweep = g.add(spread(m.opts.From, m.opts.To, m.opts.Points))
	g.coarse = g.add(spread(20, 20e3, coarsePoints))
	var hz []float64
	for _, p := range partials {
		hz = append(hz, p.hz)
	}
	g.chord = g.add(hz)
	hz = nil
	for n := 1; float64(n)*m.opts.Mains <= mainsTop; n++ {
		hz = append(hz, float64(n)*m.opts.Mains)
	}
	g.mains = g.add(append(hz, lowHz))
	return g
}

// response is what does not change with switches and knobs: the admittance of
// every group of coils at every frequency, and how much each coil hears. It is
// made when first needed.
type response struct {
	m        *Model
	groups   []group
	groupOf  []int // of each coil, −1 when broken
	inGroup  []int // place of each coil in its group
	sign     []float64
	turns    []float64 // by coil, relative: what it picks up of a hum field
	gain     []float64 // by coil, relative: what it picks up of the strings
	once     sync.Once
	grid     *grid
	partials []partial
	brightAt int // first partial above brightFrom
	tables   [][]linear.Lane
	heard    [][]float64 // by coil, by partial: A-weighted EMF, without sign
	humAt    []float64   // A-weight at each harmonic of the mains
}

func newResponse(m *Model) *response {
	r := &response{m: m, groups: groups(m.coils, m.couplings)}
	r.groupOf, r.inGroup = make([]int, len(m.coils)), make([]int, len(m.coils))
	for i := range r.groupOf {
		r.groupOf[i] = -1
	}
	for g := range r.groups {
		for at, c := range r.groups[g].coils {
			r.groupOf[c], r.inGroup[c] = g, at
		}
	}
	r.gains()
	return r
}

// gains finds each coil's EMF per unit of hum field and of string velocity:
// coils of one shape have turns, and so EMF, as the square root of their
// inductance, unless the sensitivity to the strings is stated. One is the
// geometric mean of the loom's coils by their inductance.
func (r *response) gains() {
	sum := 0.0
	for i := range r.m.coils {
		c := &r.m.coils[i]
		sum += math.Log(c.henries.Typical)
		sign := float64(c.winding * c.pole)
		r.sign = append(r.sign, usual(sign, 1))
	}
	mean := math.Exp(sum / float64(max(1, len(r.m.coils))))
	for i := range r.m.coils {
		c := &r.m.coils[i]
		r.turns = append(r.turns, math.Sqrt(c.henries.Typical/mean))
		r.gain = append(r.gain, r.turns[i])
		if c.sensitivity > 0 {
			r.gain[i] = c.sensitivity * math.Sqrt(typicalHenry.Typical/mean)
		}
	}
}

// prepare makes the tables, once.
func (r *response) prepare() {
	r.once.Do(func() {
		r.partials = chord(r.m.opts.Pluck, r.m.scale)
		for r.brightAt < len(r.partials) && r.partials[r.brightAt].hz <= brightFrom {
			r.brightAt++
		}
		r.grid = newGrid(r.m, r.partials)
		r.tables = r.tablesAt(r.grid.hz)
		for i := range r.m.coils {
			r.heard = append(r.heard, r.hears(i))
		}
		for i := range r.grid.mains.points - 1 {
			r.humAt = append(r.humAt, aWeight(r.grid.hz[r.grid.mains.first*linear.Lanes+i]))
		}
	})
}

// tablesAt tabulates all groups at other frequencies, padded to whole blocks.
func (r *response) tablesAt(hz []float64) [][]linear.Lane {
	var out [][]linear.Lane
	for i := range r.groups {
		out = append(out, r.groups[i].admittances(r.m.coils, hz)...)
	}
	return out
}

// hears is the A-weighted EMF of a coil for every partial, as if it were wound
// clockwise over a north pole.
func (r *response) hears(i int) []float64 {
	x, scale := r.m.fromBridge(i), r.m.scale
	out := make([]float64, len(r.partials))
	for k, p := range r.partials {
		out[k] = r.gain[i] * p.amp * place(p.n, x, scale) * window(p.hz, aperture, speed(p.open, scale))
	}
	return out
}

// fromBridge is a coil's place under the strings, m from the bridge; 0: not known.
func (m *Model) fromBridge(i int) float64 {
	u := m.g.Coils[i].Use
	x := m.g.Loom.Uses[u].FromBridge
	if x <= 0 {
		return 0
	}
	return x + m.g.Coils[i].Offset/1000
}
