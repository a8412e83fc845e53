package electrics

import (
	"math"

	"loomwright/internal/linear"
	"loomwright/internal/setting"
)

// Output says what is at the jack of a setting.
type Output string

// The kinds of output. Silent is more than 80 dB below a coil by itself: turned
// down, or reached by stray capacitance only. NoOutput is a loom without a jack.
const (
	Sounding Output = "sounding"
	Silent   Output = "silent"
	Open     Output = "open"
	Shorted  Output = "shorted"
	NoOutput Output = "no output"
)

// Bounds of Silent and Open, as amplitudes of a coil by itself.
const (
	silentBelow = 1e-4
	openBelow   = 1e-9
)

// Curve is what reaches the jack over frequency in one setting and turn.
type Curve struct {
	Output Output     `json:"output"`
	Hz     []float64  `json:"hz"`
	DB     []float64  `json:"db"`    // all coils together over one string; 0 dB: a coil of mean inductance by itself
	Coils  []CoilGain `json:"coils"` // those that are heard
	Peak   *Peak      `json:"peak,omitempty"`
	Zout   []float64  `json:"zout,omitempty"` // |Z| at the jack, cable and input included, Ω
}

// CoilGain is the response at the jack to one volt of EMF in one coil, V(start)
// over V(finish), as real and imaginary parts.
type CoilGain struct {
	Coil string    `json:"coil"`
	Re   []float64 `json:"re"`
	Im   []float64 `json:"im"`
}

// Curve works out the response from every coil. Sounds of several coils add up
// as the strings move them: by winding and pole, and by inductance.
func (m *Model) Curve(at []int, turn setting.Turn) Curve {
	if m.g.Hot < 0 {
		return Curve{Output: NoOutput}
	}
	m.ac.prepare()
	c := m.circuit(at, turn, nil)
	hz := m.ac.grid.hz[:m.opts.Points]
	out := Curve{Output: Shorted, Hz: append([]float64(nil), hz...)}
	if c.shorted {
		out.DB = filledWith(floorDB, len(hz))
		return out
	}
	r := &runner{}
	r.fit(c)
	all, power := m.sweep(c, r, &out)
	out.Output, out.Coils = sorted(all)
	if out.Output == Sounding {
		out.Peak = m.peakFrom(c, r, hz, power)
	}
	for _, p := range power {
		out.DB = append(out.DB, powerDB(p))
	}
	return out
}

// peakFrom finds the peak on the curve's own points where they are close enough.
func (m *Model) peakFrom(c *circuit, r *runner, hz, power []float64) *Peak {
	if math.Log(hz[len(hz)-1]/hz[0])/float64(len(hz)) > math.Log(1000)/coarsePoints {
		return m.peak(c, r)
	}
	return m.ac.peakOf(c, r, hz, power)
}

// sweep solves all points of a curve.
func (m *Model) sweep(c *circuit, r *runner, out *Curve) (all []CoilGain, power []float64) {
	points := m.opts.Points
	all, power, out.Zout = m.newGains(points), make([]float64, 0, points), make([]float64, 0, points)
	out.DB = make([]float64, 0, points)
	s := m.ac.grid.sweep
	for b := s.first; b < s.end; b++ {
		r.block(c, m.ac.tables, m.ac.grid.hz, b)
		n := min(linear.Lanes, points-(b-s.first)*linear.Lanes)
		total, z := m.ac.total(r), r.zout(c)
		for i := range n {
			power = append(power, total.Re[i]*total.Re[i]+total.Im[i]*total.Im[i])
			out.Zout = append(out.Zout, math.Sqrt(z.Re[i]*z.Re[i]+z.Im[i]*z.Im[i]))
		}
		for k := range all {
			all[k].Re = append(all[k].Re, r.h[k].Re[:n]...)
			all[k].Im = append(all[k].Im, r.h[k].Im[:n]...)
		}
	}
	return all, power
}

func filledWith(x float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = x
	}
	return out
}

func (m *Model) newGains(points int) []CoilGain {
	out := make([]CoilGain, len(m.coils))
	for i := range out {
		out[i] = CoilGain{m.coils[i].name, make([]float64, 0, points), make([]float64, 0, points)}
	}
	return out
}

// sorted keeps the coils that are heard, and says what kind of output that is.
func sorted(all []CoilGain) (Output, []CoilGain) {
	var heard []CoilGain
	loudest := 0.0
	for _, g := range all {
		most := 0.0
		for i := range g.Re {
			most = max(most, g.Re[i]*g.Re[i]+g.Im[i]*g.Im[i])
		}
		most = math.Sqrt(most)
		if most >= openBelow {
			heard = append(heard, g)
		}
		loudest = max(loudest, most)
	}
	return outputOf(loudest), heard
}

func outputOf(loudest float64) Output {
	switch {
	case loudest < openBelow:
		return Open
	case loudest < silentBelow:
		return Silent
	}
	return Sounding
}

// total adds up the block's responses as one string at every coil moves them.
func (r *response) total(run *runner) linear.Lane {
	var sum linear.Lane
	for k := range run.h {
		sum.AddTimes(r.sign[k]*r.gain[k], &run.h[k])
	}
	return sum
}
