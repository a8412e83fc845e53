package electrics

import (
	"testing"

	"loomwright/internal/setting"
)

func BenchmarkSweepOnly(b *testing.B) {
	g := loomFile(b, "two-twins")
	m := modelOf(b, g, Options{})
	m.ac.prepare()
	c := m.circuit(setting.Nth(g, 1).At, setting.FullUp(g), nil)
	var r runner
	r.fit(c)
	s := m.ac.grid.sweep
	b.ReportMetric(float64(c.plan.Nodes()), "nodes")
	for b.Loop() {
		for k := s.first; k < s.end; k++ {
			r.block(c, m.ac.tables, m.ac.grid.hz, k)
		}
	}
}

func BenchmarkCircuitOnly(b *testing.B) {
	g := loomFile(b, "two-twins")
	m := modelOf(b, g, Options{})
	m.ac.prepare()
	full := setting.FullUp(g)
	for b.Loop() {
		m.circuit(setting.Nth(g, 1).At, full, nil)
	}
}

func BenchmarkBand(b *testing.B) {
	g := loomFile(b, "two-twins")
	m := modelOf(b, g, Options{})
	full := setting.FullUp(g)
	at := setting.Nth(g, 1).At
	for b.Loop() {
		m.Band(at, full)
	}
}

func BenchmarkTableBand(b *testing.B) {
	g := loomFile(b, "two-twins")
	m := modelOf(b, g, Options{})
	full := setting.FullUp(g)
	ss := settingsOf(g)
	for b.Loop() {
		m.TableBand(ss, full, 0)
	}
}

func BenchmarkAllOhms(b *testing.B) {
	g := loomFile(b, "two-twins")
	m := modelOf(b, g, Options{})
	full := setting.FullUp(g)
	ss := settingsOf(g)
	for b.Loop() {
		for _, s := range ss {
			d := m.DC(s.At, full)
			for a := range g.Terms {
				for c := range a {
					d.Interval(a, c)
				}
			}
		}
	}
}
