package electrics

import (
	"reflect"
	"strings"
	"testing"

	"loomwright/internal/setting"
)

// A band holds the curve of typical values, is wider than a hair where values
// are unknown, is the same every time, and says what it is.
func TestBand(t *testing.T) {
	g := loomFile(t, "two-twins")
	m := modelOf(t, g, Options{Points: 100})
	full, at := setting.FullUp(g), setting.Nth(g, 1).At
	band, curve := m.Band(at, full), m.Curve(at, full)
	widest := 0.0
	for i := range band.Hz {
		if curve.DB[i] < band.Lo[i]-1e-9 || curve.DB[i] > band.Hi[i]+1e-9 {
			t.Fatalf("%.0f Hz: %.2f dB is outside %.2f…%.2f dB", band.Hz[i], curve.DB[i], band.Lo[i], band.Hi[i])
		}
		widest = max(widest, band.Hi[i]-band.Lo[i])
	}
	if widest < 3 {
		t.Errorf("unknown inductances leave a band of %.2f dB", widest)
	}
	if !strings.Contains(band.Kind, "not guaranteed") {
		t.Errorf("kind: %q", band.Kind)
	}
	if !reflect.DeepEqual(band, modelOf(t, g, Options{Points: 100}).Band(at, full)) {
		t.Error("another band the second time")
	}
}

// The frequency of the peak over its whole band: twice the inductance and
// capacitance is the resonance lower by their square root.
func TestTableBand(t *testing.T) {
	g := loomFile(t, "five-way")
	m := modelOf(t, g, Options{})
	full := setting.FullUp(g)
	ss := settingsOf(g)
	rows, bands := m.Table(ss, full, 0), m.TableBand(ss, full, 0)
	for i, b := range bands {
		r := rows[i]
		for _, c := range []struct {
			name string
			s    Span
			x    float64
		}{{"low", b.Low, r.Low}, {"level", b.Level, r.Level}, {"brightness", b.Brightness, r.Brightness}, {"hum", b.Hum, r.Hum.Index}, {"peak", *b.PeakHz, r.Peak.Hz}, {"peak", *b.PeakDB, r.Peak.DB}} {
			if c.x < c.s.Lo-1e-9 || c.x > c.s.Hi+1e-9 {
				t.Errorf("%s, %s: %g is outside %+v", r.Setting, c.name, c.x, c.s)
			}
		}
	}
	if b := bands[0]; b.Level.Hi-b.Level.Lo > 1e-9 || b.PeakHz.Hi < 1.2*b.PeakHz.Lo {
		t.Errorf("the chosen setting against itself: %+v, peak %+v", b.Level, *b.PeakHz)
	}
}

// Nothing unknown: no band.
func TestNoBand(t *testing.T) {
	g := straight(t, 6e3, 2.5, 100e-12, 500e-12, 1e6)
	b := modelOf(t, g, Options{NoEddy: true, Points: 10}).Band(nil, nil)
	if !reflect.DeepEqual(b.Lo, b.Hi) || !strings.Contains(b.Kind, "no band") {
		t.Errorf("%+v", b)
	}
}
