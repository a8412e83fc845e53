package electrics

import (
	"fmt"
	"math"

	"loomwright/internal/setting"
)

// Band is where a curve can lie for all that is not known exactly.
type Band struct {
	Hz   []float64 `json:"hz"`
	Lo   []float64 `json:"lo"` // dB, as Curve.DB
	Hi   []float64 `json:"hi"`
	Kind string    `json:"kind"` // what kind of band it is, in words
}

// Span is the least and the most of a figure over all draws.
type Span struct {
	Lo float64 `json:"lo"`
	Hi float64 `json:"hi"`
}

// RowBand is where the figures of a Row can lie. Levels are over those of the
// chosen setting in the same draw.
type RowBand struct {
	Index      int    `json:"index"`
	Low        Span   `json:"low"`
	Level      Span   `json:"level"`
	Brightness Span   `json:"brightness"`
	PeakHz     *Span  `json:"peakHz,omitempty"` // nil: no resonance in some draw
	PeakDB     *Span  `json:"peakDB,omitempty"`
	Hum        Span   `json:"hum"`
	Kind       string `json:"kind"`
}

// kindOf says what a band is worth.
func kindOf(draws int) string {
	if draws == 0 {
		return "every value is known exactly: there is no band"
	}
	return fmt.Sprintf("sampled: %d draws over the typical range of what is not stated and the tolerance of what is; "+
		"corners of inductance, capacitance and loss among them; likely, not guaranteed", draws)
}

// Band draws values for all that is not known exactly and keeps the lowest and
// the highest curve at each point. Zero when nothing is at the jack.
func (m *Model) Band(at []int, turn setting.Turn) Band {
	if m.g.Hot < 0 {
		return Band{}
	}
	variants := m.variants()
	hz := spread(m.opts.From, m.opts.To, m.opts.Points)
	out := Band{Hz: hz, Kind: kindOf(len(variants))}
	r := &runner{}
	for _, v := range append(variants, m) {
		out.widen(v.levelsAt(at, turn, hz, r))
	}
	return out
}

func (b *Band) widen(db []float64) {
	if b.Lo == nil {
		b.Lo, b.Hi = append([]float64(nil), db...), append([]float64(nil), db...)
	}
	for i, x := range db {
		b.Lo[i], b.Hi[i] = min(b.Lo[i], x), max(b.Hi[i], x)
	}
}

// levelsAt is the curve in dB, without tables of anything else.
func (m *Model) levelsAt(at []int, turn setting.Turn, hz []float64, r *runner) []float64 {
	c := m.circuit(at, turn, nil)
	if c.shorted {
		return filledWith(floorDB, len(hz))
	}
	r.fit(c)
	full := padded(hz)
	out := m.ac.powers(c, r, m.ac.tablesAt(full), full, whole(full, len(hz)))
	for i := range out {
		out[i] = powerDB(out[i])
	}
	return out
}

// TableBand is Table over draws of all that is not known exactly.
func (m *Model) TableBand(settings []setting.Setting, turn setting.Turn, ref int) []RowBand {
	variants := m.variants()
	out := make([]RowBand, len(settings))
	for i, s := range settings {
		out[i] = RowBand{Index: s.Index, Low: nowhere(), Level: nowhere(), Brightness: nowhere(), Hum: nowhere(),
			PeakHz: ptr(nowhere()), PeakDB: ptr(nowhere()), Kind: kindOf(len(variants))}
	}
	for _, v := range append(variants, m) {
		for i, row := range v.Table(settings, turn, ref) {
			out[i].widen(&row)
		}
	}
	return out
}

func (b *RowBand) widen(r *Row) {
	b.Low.widen(r.Low)
	b.Level.widen(r.Level)
	b.Brightness.widen(r.Brightness)
	b.Hum.widen(r.Hum.Index)
	if r.Peak == nil || b.PeakHz == nil {
		b.PeakHz, b.PeakDB = nil, nil
		return
	}
	b.PeakHz.widen(r.Peak.Hz)
	b.PeakDB.widen(r.Peak.DB)
}

func nowhere() Span { return Span{math.Inf(1), math.Inf(-1)} }

func (s *Span) widen(x float64) { s.Lo, s.Hi = min(s.Lo, x), max(s.Hi, x) }

func ptr[T any](x T) *T { return &x }
