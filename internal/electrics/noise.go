package electrics

import "loomwright/internal/linear"

// boltzmann is k in J/K (SI, exact).
const boltzmann = 1.380649e-23

// noise is the thermal noise at the jack, A-weighted, in V: 4kT·Re(Z) of all
// that hangs on hot (Johnson and Nyquist 1928), over the frequencies of a
// curve, at the typical temperature of the room.
func (m *Model) noise(c *circuit, r *runner) float64 {
	kelvin := m.opts.Room.Typical + 273.15
	hz := m.ac.grid.hz[:m.opts.Points]
	density := make([]float64, 0, len(hz))
	s := m.ac.grid.sweep
	for b := s.first; b < s.end; b++ {
		r.block(c, m.ac.tables, m.ac.grid.hz, b)
		for i := range linear.Lanes {
			if at := (b-s.first)*linear.Lanes + i; at < len(hz) {
				w := aWeight(hz[at])
				density = append(density, 4*boltzmann*kelvin*r.zout(c).Re[i]*w*w)
			}
		}
	}
	return sqrtOfArea(hz, density)
}

// sqrtOfArea is the square root of the area under a density, by trapezia.
func sqrtOfArea(hz, density []float64) float64 {
	sum := 0.0
	for i := 1; i < len(hz); i++ {
		sum += (density[i] + density[i-1]) / 2 * (hz[i] - hz[i-1])
	}
	return root2(sum)
}
