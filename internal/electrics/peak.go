package electrics

import (
	"math"

	"loomwright/internal/linear"
)

// Peak is the resonance of a setting: the highest point of its curve above its
// level at the open low E, and where the treble has fallen to 3 dB below that
// level.
type Peak struct {
	Hz   float64 `json:"hz"`
	DB   float64 `json:"db"`             // over the level at 82.4 Hz
	Fall float64 `json:"fall,omitempty"` // Hz, −3 dB; 0: above the grid
}

// leastPeak is the least rise that counts as a resonance, dB.
const leastPeak = 0.1

// peak finds the resonance of a sounding circuit; nil when the curve only falls.
func (m *Model) peak(c *circuit, r *runner) *Peak {
	grid := m.ac.grid
	hz := grid.hz[grid.coarse.first*linear.Lanes:][:grid.coarse.points]
	return m.ac.peakOf(c, r, hz, m.ac.powers(c, r, m.ac.tables, grid.hz, grid.coarse))
}

// peakOf finds the resonance near the highest of some points of |all coils|².
func (r *response) peakOf(c *circuit, run *runner, hz, power []float64) *Peak {
	last := section{r.grid.mains.end - 1, r.grid.mains.end, linear.Lanes} // ends with lowHz
	low := r.powers(c, run, r.tables, r.grid.hz, last)[linear.Lanes-1]
	top := 0
	for i := range power {
		if power[i] > power[top] {
			top = i
		}
	}
	if top == 0 || top == len(hz)-1 || low <= 0 {
		return nil
	}
	p := &Peak{Fall: fall(hz, power, top, low/2)}
	p.Hz, p.DB = r.closer(c, run, hz[top-1], hz[top+1])
	p.DB -= powerDB(low)
	if p.DB < leastPeak {
		return nil
	}
	return p
}

// powers is |total|² over a section.
func (r *response) powers(c *circuit, run *runner, tables [][]linear.Lane, hz []float64, s section) []float64 {
	out := make([]float64, 0, (s.end-s.first)*linear.Lanes)
	for b := s.first; b < s.end; b++ {
		run.block(c, tables, hz, b)
		total := r.total(run)
		for i := range linear.Lanes {
			out = append(out, total.Re[i]*total.Re[i]+total.Im[i]*total.Im[i])
		}
	}
	return out[:s.points]
}

// fall is where the power goes below a bound beyond the top, between points of
// the grid on straight lines in dB over log frequency.
func fall(hz, power []float64, top int, bound float64) float64 {
	for i := top + 1; i < len(hz); i++ {
		if power[i] < bound {
			f := math.Log(bound/power[i-1]) / math.Log(power[i]/power[i-1])
			return hz[i-1] * math.Pow(hz[i]/hz[i-1], f)
		}
	}
	return 0
}

// closer looks at a peak between two frequencies with two blocks of new points,
// the second between neighbours of the highest of the first, then with a
// parabola through the highest three in dB over log frequency.
func (r *response) closer(c *circuit, run *runner, lo, hi float64) (hz, level float64) {
	points := spread(lo, hi, linear.Lanes)
	top, _ := r.highest(c, run, points)
	points = spread(points[top-1], points[top+1], linear.Lanes)
	top, power := r.highest(c, run, points)
	a, b, d := powerDB(power[top-1]), powerDB(power[top]), powerDB(power[top+1])
	bend := a - 2*b + d
	if bend >= 0 {
		return points[top], b
	}
	x := (a - d) / (2 * bend)
	return points[top] * math.Pow(points[1]/points[0], x), b - (a-d)*x/4
}

// highest is the index of the highest of a block of points, its ends left out.
func (r *response) highest(c *circuit, run *runner, points []float64) (top int, power []float64) {
	power = r.powers(c, run, r.tablesAt(points), points, whole(points, len(points)))
	top = 1
	for i := range power[:len(power)-1] {
		if i > 0 && power[i] > power[top] {
			top = i
		}
	}
	return top, power
}
