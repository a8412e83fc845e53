package plot

import (
	"fmt"

	"loomwright/internal/electrics"
	"loomwright/internal/units"
)

// OverOneCoil is the unit of electrics' curves.
const OverOneCoil = "dB over one coil"

// Response is a curve of electrics as a line, marked at its peak.
func Response(name string, c electrics.Curve) Line {
	l := Line{Name: name}
	if c.Output != electrics.Sounding && c.Output != electrics.Silent {
		l.Name = fmt.Sprintf("%s: %s", name, c.Output)
		return l
	}
	l.Hz, l.DB = c.Hz, c.DB
	if c.Peak != nil {
		l.Mark = Mark{Hz: c.Peak.Hz, DB: near(c.Hz, c.DB, c.Peak.Hz),
			Text: fmt.Sprintf("%s, %.1f dB over its low E", units.FormatHertz(units.Round(c.Peak.Hz, 2)), c.Peak.DB)}
	}
	return l
}

// near is the level at the point of a curve next to a frequency.
func near(hz, db []float64, at float64) float64 {
	best := 0
	for i := range hz {
		if a, b := hz[i]/at, hz[best]/at; max(a, 1/a) < max(b, 1/b) {
			best = i
		}
	}
	return db[best]
}

// Likely is a band of electrics as the shaded area of a plot; nil when there is
// none.
func Likely(b electrics.Band) *Band {
	if len(b.Hz) == 0 {
		return nil
	}
	return &Band{Name: b.Kind, Hz: b.Hz, Lo: b.Lo, Hi: b.Hi}
}
