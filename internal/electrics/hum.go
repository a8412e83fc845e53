package electrics

import (
	"math"
	"slices"
)

// Hum is how a setting hums in a uniform mains field: hum over string signal at
// the jack, both A-weighted, against that of an ordinary coil which gives as much
// of the strings from the same place in the circuit. 0 dB is an ordinary single
// coil; a pair that cancels is as far below as its coils are alike. A coil that
// hears little of the strings (a noise coil) adds little to either side; by
// itself it is above 0 dB by what it hears less. A judgement, no source.
type Hum struct {
	Verdict HumVerdict `json:"verdict"`
	Index   float64    `json:"index"` // dB; with unknown windings, taken as clockwise over north
	Lo      float64    `json:"lo"`    // dB, over all that unknown windings and poles can be
	Hi      float64    `json:"hi"`
	Limited bool       `json:"limited,omitempty"` // the index is the coils' unevenness, not the wiring
	Settle  []string   `json:"settle,omitempty"`  // "winding of bridge.south": knowing any one of these settles it
	Needs   []string   `json:"needs,omitempty"`   // where no single one does: knowing all of these
}

// HumVerdict is a hum index in a word.
type HumVerdict string

// The verdicts: 20 dB and more below a single coil; less; as a single coil, or
// more. A coil does not cancel by being loud: the verdict is the worse of those
// against an ordinary coil and against the same coils each by itself.
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

// index is the hum index of one choice of signs; worst is the larger of it and
// of the index against the same coils each by itself.
func (h *heardBy) index(c choice, gain []float64) (index, worst float64, limited bool) {
	hum := together(h.mains, c.winds)
	if limited = hum < h.uneven; limited {
		hum = h.uneven
	}
	signal, alone := together(h.dark, c.signs)+together(h.bright, c.signs), apart(h.dark, c.signs)+apart(h.bright, c.signs)
	over := func(one float64) float64 {
		if !(signal > 0) || !(one > 0) {
			return humCap
		}
		return min(max(powerDB(hum/signal/(one/alone)), -3*humCap), humCap)
	}
	index = over(apart(h.mains, gain))
	return index, max(index, over(apart(h.mains, c.winds))), limited
}

// choice is one way in which the unknown windings and poles can be: the coils'
// signs in the string's signal and in hum.
type choice struct{ signs, winds []float64 }

// choices is every way in which they can be: bit b of a choice's index tells
// whether unknown b is the other way from clockwise over north.
type choices struct {
	list    []choice
	unknown []flip
	whole   bool // all ways are listed
}

// flip turns one unknown of a coil the other way.
type flip struct {
	coil int
	what string
	do   func(c *choice)
}

// maxUnknown bounds the windings and poles that are tried both ways.
const maxUnknown = 8

// choices lists the ways; the first takes clockwise over north.
func (m *Model) choices() choices {
	out := choices{whole: true}
	first := choice{make([]float64, len(m.coils)), make([]float64, len(m.coils))}
	for i := range m.coils {
		c := &m.coils[i]
		first.winds[i] = m.ac.turns[i] * usual(float64(c.winding), 1)
		first.signs[i] = usual(float64(c.winding), 1) * usual(float64(c.pole), 1)
		if c.winding == 0 {
			out.unknown = append(out.unknown, flip{i, "winding", func(c *choice) { c.winds[i], c.signs[i] = -c.winds[i], -c.signs[i] }})
		}
		if c.pole == 0 {
			out.unknown = append(out.unknown, flip{i, "pole", func(c *choice) { c.signs[i] = -c.signs[i] }})
		}
	}
	out.list = append(out.list, first)
	if out.whole = len(out.unknown) <= maxUnknown; !out.whole {
		return out
	}
	for n := 1; n < 1<<len(out.unknown); n++ {
		c := choice{slices.Clone(first.signs), slices.Clone(first.winds)}
		for bit, u := range out.unknown {
			if n>>bit&1 == 1 {
				u.do(&c)
			}
		}
		out.list = append(out.list, c)
	}
	return out
}

// hum judges all choices.
func (m *Model) hum(h *heardBy, all choices) Hum {
	var out Hum
	indices, worst := make([]float64, len(all.list)), make([]float64, len(all.list))
	for i, c := range all.list {
		var limited bool
		if indices[i], worst[i], limited = h.index(c, m.ac.gain); i == 0 {
			out.Index, out.Limited = indices[i], limited
		}
	}
	out.Lo, out.Hi = slices.Min(indices), slices.Max(indices)
	out.Verdict = verdictOf(worst[0])
	if verdictOf(slices.Min(worst)) == verdictOf(slices.Max(worst)) && all.whole {
		return out
	}
	out.Verdict = HumUnsure
	for bit, u := range all.unknown {
		if h.mains[pairAt(u.coil, u.coil)] <= openBelow*openBelow {
			continue
		}
		name := u.what + " of " + m.coils[u.coil].name
		if all.whole && settles(worst, bit) {
			out.Settle = append(out.Settle, name)
		}
		out.Needs = append(out.Needs, name)
	}
	if out.Settle != nil {
		out.Needs = nil
	}
	return out
}

// settles reports whether knowing one unknown, either way, leaves one verdict.
func settles(indices []float64, bit int) bool {
	var lo, hi [2]float64
	lo[0], lo[1], hi[0], hi[1] = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for n, x := range indices {
		way := n >> bit & 1
		lo[way], hi[way] = min(lo[way], x), max(hi[way], x)
	}
	return verdictOf(lo[0]) == verdictOf(hi[0]) && verdictOf(lo[1]) == verdictOf(hi[1])
}
