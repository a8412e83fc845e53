package electrics

import (
	"fmt"
	"math"

	"loomwright/internal/setting"
	"loomwright/internal/units"
)

// Note corrects what a reader of the figures is likely to conclude wrongly, with
// the loom's own numbers.
type Note struct {
	Code     string   `json:"code"` // ohms-not-output, parallel-not-split, hotter-not-louder, tone-corner, split-short-or-open
	Settings []string `json:"settings,omitempty"`
	Text     string   `json:"text"`
}

// Notes looks through a table (of Table, for the same settings and turn) for
// figures that mislead. At most one note of each kind, the plainest case.
func (m *Model) Notes(settings []setting.Setting, rows []Row, turn setting.Turn) []Note {
	var out []Note
	for _, find := range []func() (Note, bool){
		func() (Note, bool) { return ohmsNotOutput(rows) },
		func() (Note, bool) { return m.parallelNotSplit(settings, rows, turn) },
		func() (Note, bool) { return hotterNotLouder(rows) },
		func() (Note, bool) { return m.toneCorner(settings, rows, turn) },
		func() (Note, bool) { return m.shortOrOpen(settings, turn) },
	} {
		if n, ok := find(); ok {
			out = append(out, n)
		}
	}
	return out
}

// ohmsNotOutput finds two settings whose ohms differ much more than their
// levels do: those with the largest ratio of ohms, of the same coils if any.
func ohmsNotOutput(rows []Row) (Note, bool) {
	best, found := Note{}, 0.0
	for _, high := range rows {
		for _, low := range rows {
			if !readable(high) || !readable(low) {
				continue
			}
			ratio, weaker := high.Ohms.Ohms/low.Ohms.Ohms, high.Level-low.Level
			if ratio < 1.6 || math.Abs(weaker) > 0.75*20*math.Log10(ratio) {
				continue
			}
			plain := ratio
			if sameCoils(high.Heard, low.Heard) {
				plain += 1000
			}
			if plain > found {
				found, best = plain, ohmsNote(&high, &low, ratio, weaker)
			}
		}
	}
	return best, found > 0
}

func ohmsNote(high, low *Row, ratio, weaker float64) Note {
	volts := fraction(math.Pow(10, -weaker/20)) + " the voltage"
	if math.Abs(weaker) < 0.7 {
		volts = "the same voltage"
	}
	return Note{Code: "ohms-not-output", Settings: []string{high.Setting, low.Setting},
		Text: fmt.Sprintf("The jack reads %s with %s, %s the %s with %s, yet the sound is %s, %s: ohms are not output",
			ohmsText(low.Ohms.Ohms), low.Setting, fraction(1/ratio), ohmsText(high.Ohms.Ohms), high.Setting, louder(-weaker), volts)}
}

func sameCoils(a, b []Heard) bool {
	for _, x := range a {
		if !shares([]Heard{x}, b) {
			return false
		}
	}
	return len(a) == len(b)
}

func readable(r Row) bool { return r.Output == Sounding && r.Ohms.Verdict == Path && r.Ohms.Ohms > 0 }

// fraction is a ratio in words.
func fraction(x float64) string {
	for _, f := range []struct {
		x    float64
		text string
	}{{0.125, "an eighth of"}, {0.2, "a fifth of"}, {0.25, "a quarter of"}, {1.0 / 3, "a third of"}, {0.5, "half"}, {2.0 / 3, "two thirds of"}} {
		if math.Abs(x/f.x-1) < 0.09 {
			return "about " + f.text
		}
	}
	if x < 1 {
		return fmt.Sprintf("%.0f %% of", 100*x)
	}
	return fmt.Sprintf("%.2g times", x)
}

// parallelNotSplit finds two coils of one pickup in parallel, and compares them
// with one of the two by itself.
func (m *Model) parallelNotSplit(settings []setting.Setting, rows []Row, turn setting.Turn) (Note, bool) {
	r := &runner{}
	for i := range rows {
		if len(rows[i].Heard) != 2 || !readable(rows[i]) {
			continue
		}
		a, b := m.g.CoilIndex(rows[i].Heard[0].Coil), m.g.CoilIndex(rows[i].Heard[1].Coil)
		nets := m.base.Nets(settings[i].At)
		if m.coils[a].use != m.coils[b].use || !besideEachOther(nets, &m.coils[a], &m.coils[b]) {
			continue
		}
		both, one := m.sound(settings[i].At, turn, nil, r), m.sound(settings[i].At, turn, lift{b}, r)
		if one.Output != Sounding || both.Peak == nil || one.Peak == nil {
			continue
		}
		return Note{Code: "parallel-not-split", Settings: []string{rows[i].Setting},
			Text: fmt.Sprintf("With %s both coils are in parallel. One of them by itself would be %s, but resonate at %s instead of %s and hum %s: parallel is not split",
				rows[i].Setting, louder(one.Level-both.Level), hzText(one.Peak.Hz), hzText(both.Peak.Hz), humWords(both.Hum, one.Hum))}, true
	}
	return Note{}, false
}

func besideEachOther(nets setting.Nets, a, b *coil) bool {
	s, f, p, q := nets.Of[a.start], nets.Of[a.finish], nets.Of[b.start], nets.Of[b.finish]
	return s != f && (s == p && f == q || s == q && f == p)
}

func humWords(both, one Hum) string {
	if both.Verdict == HumCancels && one.Verdict == HumFull {
		return fmt.Sprintf("where parallel cancels (%.0f dB)", both.Index)
	}
	return "all the same"
}

// hotterNotLouder finds two settings of different pickups of which the one with
// more ohms is not the louder.
func hotterNotLouder(rows []Row) (Note, bool) {
	for _, hot := range rows {
		for _, cold := range rows {
			if !readable(hot) || !readable(cold) || shares(hot.Heard, cold.Heard) {
				continue
			}
			if hot.Ohms.Ohms > 1.05*cold.Ohms.Ohms && hot.Level < cold.Level-0.2 {
				return Note{Code: "hotter-not-louder", Settings: []string{hot.Setting, cold.Setting},
					Text: fmt.Sprintf("The jack reads more with %s (%s) than with %s (%s), and the sound is %s: turns, magnet and place under the strings make output, ohms only tell of the wire",
						hot.Setting, ohmsText(hot.Ohms.Ohms), cold.Setting, ohmsText(cold.Ohms.Ohms), louder(hot.Level-cold.Level))}, true
			}
		}
	}
	return Note{}, false
}

func shares(a, b []Heard) bool {
	for _, x := range a {
		for _, y := range b {
			if x.Coil == y.Coil {
				return true
			}
		}
	}
	return false
}

func (m *Model) shortOrOpen(settings []setting.Setting, turn setting.Turn) (Note, bool) {
	best, found := Note{}, 0.1
	for _, s := range m.Splits(settings, turn) {
		if math.Abs(s.Louder) > found {
			found = math.Abs(s.Louder)
			best = Note{Code: "split-short-or-open", Settings: []string{s.Setting}, Text: s.Words}
		}
	}
	return best, best.Code != ""
}

// toneCorner finds a tone control, and says where its corner would be and what
// it does instead.
func (m *Model) toneCorner(settings []setting.Setting, rows []Row, turn setting.Turn) (Note, bool) {
	r := &runner{}
	for i := range rows {
		if !readable(rows[i]) {
			continue
		}
		for t := range m.tracks {
			c := m.toneCapacitor(settings[i].At, t)
			if c < 0 {
				continue
			}
			bright, dark := m.ends(settings[i].At, turn, m.tracks[t].knob, r)
			if bright.Peak == nil || bright.Level < dark.Level || bright.Brightness < dark.Brightness+3 {
				continue
			}
			return Note{Code: "tone-corner", Settings: []string{rows[i].Setting}, Text: m.toneText(t, c, &bright, &dark)}, true
		}
	}
	return Note{}, false
}

// toneCapacitor is the capacitor between a track and ground that shares a net
// with one of its lugs; −1 when there is none.
func (m *Model) toneCapacitor(at []int, t int) int {
	nets := m.base.Nets(at)
	ground := nets.Of[m.g.Ground]
	for i, c := range m.caps {
		a, b := nets.Of[c.a], nets.Of[c.b]
		if a == ground {
			a, b = b, a
		}
		if b != ground || a == ground {
			continue
		}
		for _, lug := range []int{m.tracks[t].cw, m.tracks[t].wiper, m.tracks[t].ccw} {
			if nets.Of[lug] == a {
				return i
			}
		}
	}
	return -1
}

// ends are the sounds with a knob at its two ends, the brighter first.
func (m *Model) ends(at []int, turn setting.Turn, knob int, r *runner) (bright, dark Row) {
	bright, dark = m.sound(at, turn.With(knob, 1), nil, r), m.sound(at, turn.With(knob, 0), nil, r)
	if bright.Brightness < dark.Brightness {
		bright, dark = dark, bright
	}
	return bright, dark
}

func (m *Model) toneText(t, c int, bright, dark *Row) string {
	ohms, farads := m.tracks[t].ohms.Typical, m.caps[c].value.Typical
	down := "nothing stands out any more"
	if dark.Peak != nil {
		down = fmt.Sprintf("the capacitor takes it down to %s", hzText(dark.Peak.Hz))
	}
	return fmt.Sprintf("%s with %s at %s: 1/(2πRC) is %s, and that corner is not what is heard. With the tone up the coils resonate at %s; with it down %s",
		units.FormatOhms(units.Round(ohms, 3)), units.FormatFarads(units.Round(farads, 3)), m.tracks[t].name,
		hzText(1/(2*math.Pi*ohms*farads)), hzText(bright.Peak.Hz), down)
}
