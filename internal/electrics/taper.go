package electrics

import (
	"math"

	"loomwright/internal/part"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// taper is the share of the track between ccw and the wiper as a function of
// the turn, with the bounds in which it is looked for in mid-turn.
type taper struct {
	half  part.Range // share at half turn
	table []float64  // measured, instead
}

// Shares at half turn from memory: audio about 10–15 % (20 % also sold); a part
// may be a fifth off what it states. Without a stated taper anything goes.
func taperOf(t *wiring.Track) taper {
	if len(t.Table) > 1 {
		return taper{table: t.Table}
	}
	h := t.Value.Half
	audio := part.Range{Typical: 0.15, Lo: 0.08, Hi: 0.25}
	if h > 0 {
		audio = part.Range{Typical: h, Lo: 0.8 * h, Hi: 1.2 * h, Known: true}
	}
	switch t.Value.Taper {
	case units.Linear:
		return taper{half: part.Range{Typical: 0.5, Lo: 0.45, Hi: 0.55, Known: true}}
	case units.Audio:
		return taper{half: audio}
	case units.ReverseAudio:
		return taper{half: part.Range{Typical: 1 - audio.Typical, Lo: 1 - audio.Hi, Hi: 1 - audio.Lo, Known: audio.Known}}
	}
	return taper{half: part.Range{Typical: 0.5, Lo: 0.08, Hi: 0.92}}
}

// byEye is how far from its mark a knob in mid-turn may stand, as a fraction of
// the turn; tableError the same for the share of a measured taper. Judgements.
const (
	byEye      = 0.02
	tableError = 0.02
)

// share is the part of the track between ccw and the wiper, x being how far the
// wiper has come. At the ends it is exact.
func (t *taper) share(x float64) part.Range {
	if x <= 0 || x >= 1 {
		x = min(max(x, 0), 1)
		return part.Range{Typical: x, Lo: x, Hi: x, Known: true}
	}
	low, high := max(0, x-byEye), min(1, x+byEye)
	if t.table != nil {
		return part.Range{Typical: interpolate(t.table, x), Lo: max(0, interpolate(t.table, low)-tableError),
			Hi: min(1, interpolate(t.table, high)+tableError), Known: true}
	}
	return part.Range{Typical: exponential(t.half.Typical, x), Lo: exponential(t.half.Lo, low),
		Hi: exponential(t.half.Hi, high), Known: t.half.Known}
}

// exponential is the smooth taper that has a given share at half turn:
// (bˣ−1)/(b−1) with b = (1/half−1)².
func exponential(half, x float64) float64 {
	b := 1/half - 1
	b *= b
	if math.Abs(b-1) < 1e-9 {
		return x
	}
	return (math.Pow(b, x) - 1) / (b - 1)
}

// interpolate reads a table of equal steps over 0…1.
func interpolate(table []float64, x float64) float64 {
	at := x * float64(len(table)-1)
	i := min(int(at), len(table)-2)
	return table[i] + (at-float64(i))*(table[i+1]-table[i])
}

// halves are the two parts of a track, wiper to cw and ccw to wiper, in ohms,
// each within its own bounds. A no-load track is cut beside the wiper at one end
// of the turn: below it at full clockwise, above it at the other end where the
// pot's ends are swapped.
func (t *track) halves(turn float64) (upper, lower part.Range) {
	x := travelled(&t.law, turn)
	share := t.taper.share(x)
	upper = t.half(part.Range{Typical: 1 - share.Typical, Lo: 1 - share.Hi, Hi: 1 - share.Lo})
	lower = t.half(share)
	if !t.noLoad || x != t.cut {
		return upper, lower
	}
	cut := part.Range{Typical: math.Inf(1), Lo: math.Inf(1), Hi: math.Inf(1)}
	if x == 0 {
		return cut, lower
	}
	return upper, cut
}

// half is the end resistance and a share of the rest of the track.
func (t *track) half(share part.Range) part.Range {
	return part.Range{
		Typical: stretch(t.ohms.Typical, t.end.Typical, share.Typical),
		Lo:      min(stretch(t.ohms.Lo, t.end.Lo, share.Lo), stretch(t.ohms.Lo, t.end.Hi, share.Lo)),
		Hi:      max(stretch(t.ohms.Hi, t.end.Lo, share.Hi), stretch(t.ohms.Hi, t.end.Hi, share.Hi)),
	}
}

// stretch keeps the whole track unchanged at any turn. A broken track leaves
// only the end that the wiper stands on.
func stretch(ohms, end, share float64) float64 {
	if math.IsInf(ohms, 1) {
		if share == 0 {
			return end
		}
		return ohms
	}
	end = min(end, ohms/2)
	return end + share*(ohms-2*end)
}
