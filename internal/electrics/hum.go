package electrics

import "math"

// Hum is how a setting hums in a uniform mains field: hum over string signal at
// the jack, both A-weighted, against the same coils each by itself. 0 dB is a
// single coil; a pair that cancels is as far below as its coils are alike.
type Hum struct {
	Verdict HumVerdict `json:"verdict"`
	Index   float64    `json:"index"` // dB; with unknown windings, taken as clockwise over north
	Lo      float64    `json:"lo"`    // dB, over all that unknown windings and poles can be
	Hi      float64    `json:"hi"`
	Limited bool       `json:"limited,omitempty"` // the index is the coils' unevenness, not the wiring
	Settle  []string   `json:"settle,omitempty"`  // coils whose winding or pole would settle it
}

// HumVerdict is a hum index in a word.
type HumVerdict string

// The verdicts: 20 dB and more below a single coil; less; as a single coil, or
// more.
const (
	HumCancels HumVerdict = "cancels"
	HumPartly  HumVerdict = "partly"
	HumFull    HumVerdict = "hums"
	HumUnsure  HumVerdict = "cannot tell"
	HumNone    HumVerdict = "" // nothing is heard
)

// humCap bounds a hum index, dB: where the signal itself cancels the ratio says
// no more.
const humCap = 40

func verdictOf(index float64) HumVerdict {
	switch {
	case index <= -20:
		return HumCancels
	case index <= -3:
		return HumPartly
	}
	return HumFull
}

// index is the hum index of one choice of signs.
func (h *heardBy) index(signs, winds []float64) (index float64, limited bool) {
	hum := together(h.mains, winds)
	if limited = hum < h.uneven; limited {
		hum = h.uneven
	}
	signal := together(h.dark, signs) + together(h.bright, signs)
	one := apart(h.mains, winds) / (apart(h.dark, signs) + apart(h.bright, signs))
	if !(signal > 0) || !(one > 0) {
		return humCap, limited
	}
	return min(max(powerDB(hum/signal/one), -3*humCap), humCap), limited
}

// choice is one way in which the unknown windings and poles can be: the coils'
// signs in the string's signal and in hum.
type choice struct{ signs, winds []float64 }

// maxUnknown bounds the windings and poles that are tried both ways.
const maxUnknown = 8

// choices lists every way in which unknown windings and poles can be; the first
// takes clockwise over north. whole is false when there are too many to try.
func (m *Model) choices() (list []choice, whole bool) {
	var unknown []func(c *choice)
	first := choice{make([]float64, len(m.coils)), make([]float64, len(m.coils))}
	for i := range m.coils {
		c := &m.coils[i]
		g := m.ac.gain[i]
		first.winds[i] = g * usual(float64(c.winding), 1)
		first.signs[i] = usual(float64(c.winding), 1) * usual(float64(c.pole), 1)
		if c.winding == 0 {
			unknown = append(unknown, func(c *choice) { c.winds[i], c.signs[i] = -c.winds[i], -c.signs[i] })
		}
		if c.pole == 0 {
			unknown = append(unknown, func(c *choice) { c.signs[i] = -c.signs[i] })
		}
	}
	list = append(list, first)
	if len(unknown) > maxUnknown {
		return list, false
	}
	for n := 1; n < 1<<len(unknown); n++ {
		c := choice{append([]float64(nil), first.signs...), append([]float64(nil), first.winds...)}
		for bit, flip := range unknown {
			if n>>bit&1 == 1 {
				flip(&c)
			}
		}
		list = append(list, c)
	}
	return list, true
}

// hum judges all choices.
func (m *Model) hum(h *heardBy, list []choice, whole bool) Hum {
	out := Hum{Lo: math.Inf(1), Hi: math.Inf(-1)}
	for i, c := range list {
		index, limited := h.index(c.signs, c.winds)
		if i == 0 {
			out.Index, out.Limited = index, limited
		}
		out.Lo, out.Hi = min(out.Lo, index), max(out.Hi, index)
	}
	out.Verdict = verdictOf(out.Index)
	if verdictOf(out.Lo) == verdictOf(out.Hi) && whole {
		return out
	}
	out.Verdict = HumUnsure
	for i := range m.coils {
		if c := &m.coils[i]; (c.winding == 0 || c.pole == 0) && h.mains[pairAt(i, i)] > 0 {
			out.Settle = append(out.Settle, c.name)
		}
	}
	return out
}
