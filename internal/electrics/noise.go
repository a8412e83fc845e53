package electrics

import "math"

// boltzmann is k in J/K (SI, exact).
const boltzmann = 1.380649e-23

// johnson is the density of thermal noise of a resistance, V²/Hz (Johnson and
// Nyquist 1928).
func johnson(kelvin, ohms float64) float64 { return 4 * boltzmann * kelvin * ohms }

// noise is the thermal noise at the jack, A-weighted, in V: that of the real
// part of all that hangs on hot, over the frequencies of a curve, at the
// typical temperature of the room.
func (m *Model) noise(c *circuit, r *runner) float64 {
	hz, density := m.noiseDensity(c, r)
	for i, f := range hz {
		w := aWeight(f)
		density[i] *= w * w
	}
	return rootOfArea(hz, density)
}

// noiseDensity is the thermal noise at the jack at the points of a curve, V²/Hz.
func (m *Model) noiseDensity(c *circuit, r *runner) (hz, density []float64) {
	kelvin := m.opts.Room.Typical + 273.15
	hz = m.ac.grid.hz[:m.opts.Points]
	s := m.ac.grid.sweep
	for b := s.first; b < s.end; b++ {
		r.block(c, m.ac.tables, m.ac.grid.hz, b)
		for _, ohms := range r.zout(c).Re {
			density = append(density, johnson(kelvin, ohms))
		}
	}
	return hz, density[:len(hz)]
}

// rootOfArea is the square root of the area under a density, by trapezia.
func rootOfArea(hz, density []float64) float64 {
	sum := 0.0
	for i := 1; i < len(hz); i++ {
		sum += (density[i] + density[i-1]) / 2 * (hz[i] - hz[i-1])
	}
	return math.Sqrt(max(0, sum))
}
