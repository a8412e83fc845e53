package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loomwright/internal/electrics"
	"loomwright/internal/proof"
	"loomwright/internal/schematic"
	"loomwright/internal/sound"
	"loomwright/internal/units"
)

const nbsp = "\u00a0" // keeps a unit with its number

// maxRows is how many settings a sheet lists.
const maxRows = 96

// settings is the table of settings, each with its strip.
func settings(in *Input) []Block {
	if len(in.Rows) == 0 {
		return nil
	}
	t := Table{Name: "settings", Heads: []string{"setting", "what is heard", "level", "brightness", "hum", "knobs that act", "heard"},
		Shares: []float64{30, 66, 18, 21, 19, 24, 11}}
	if in.Levels == nil {
		t.Heads = append(t.Heads[:2:2], t.Heads[4:]...)
		t.Shares = []float64{34, 88, 20, 30, 10}
	}
	for i := range in.Rows[:min(len(in.Rows), maxRows)] {
		t.Rows = append(t.Rows, settingRow(in, i))
	}
	out := []Block{Heading{Text: "Settings", Level: 1, NewPage: true}, t}
	if n := len(in.Rows) - maxRows; n > 0 {
		out = append(out, Paragraph{Text: fmt.Sprintf("%d more settings are not listed here; the table on screen has them all.", n), Small: true})
	}
	return append(out, Paragraph{Text: settingsKey(in), Small: true})
}

func settingsKey(in *Input) string {
	key := "The chains run from the jack's tip (ring) to ground (bars), coils in series in the order of their names; dark and pointing back: turned round; behind the dotted bar: coils not heard, dashed when off, bridged when shorted."
	if in.Levels != nil {
		key += " Level: A-weighted, over the first row at 0 dB, all knobs at 10; −6 dB is half the volts. Brightness: the level above 2 kHz over the whole, and where the resonance peaks. Hum: over one coil alone. Figures are computed, from typical values where none are known."
	}
	return key
}

func settingRow(in *Input, i int) []Cell {
	r := &in.Rows[i]
	strip := schematic.Strip(r)
	row := []Cell{{Text: capital(r.Name), Bold: true}, {Scene: &strip, Text: heard(in, r)}}
	if in.Levels != nil {
		row = append(row, Cell{Text: levelWords(&in.Levels[i])}, Cell{Text: brightWords(&in.Levels[i])})
	}
	return append(row, Cell{Text: humWords(in, i)}, Cell{Text: knobWords(r.Knobs)}, Cell{Tick: true})
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// heard is the sound in words, and whether it is what was wanted.
func heard(in *Input, r *proof.Row) string {
	e, unsure := sure(r.Sound)
	text := folded(in.Graph.Loom, e).String()
	if unsure && len(e.Leaves()) > 1 {
		text += ", phase unknown"
	}
	switch {
	case r.Unsure:
		text = r.Heard
	case r.Output == proof.Shorted:
		text = "silent (shorted)"
	case r.Output == proof.Open:
		text = "silent (open)"
	}
	if r.Phase == proof.OutOfPhase {
		text += ", out of phase"
	}
	if r.Wanted != nil && r.Wanted.Met != proof.Yes {
		text += fmt.Sprintf(" · **wanted: %s**", r.Wanted.Sound)
	}
	return text
}

// sure is a sound without the marks of unknown signs, and whether it had any.
func sure(e sound.Expr) (sound.Expr, bool) {
	any := e.Unsure
	e.Unsure = false
	e.Kids = slices.Clone(e.Kids)
	for i, k := range e.Kids {
		kid, unsure := sure(k)
		e.Kids[i], any = kid, any || unsure
	}
	return e, any
}

// widest is how far a level may hang on unknown phases and still be printed, dB.
const widest = 24

func levelWords(r *electrics.Row) string {
	switch {
	case r.Output != electrics.Sounding:
		return "–"
	case r.LevelHi-r.LevelLo > widest:
		return "hangs on the phase"
	case !firm(r):
		return fmt.Sprintf("%s to %s%sdB", signed(r.LevelLo), signed(r.LevelHi), nbsp)
	}
	return signed(r.Level) + nbsp + "dB"
}

// signed prints one decimal with a true minus.
func signed(x float64) string {
	s := fmt.Sprintf("%+.1f", x)
	if s == "+0.0" || s == "-0.0" {
		return "0"
	}
	return strings.Replace(s, "-", "−", 1)
}

func brightWords(r *electrics.Row) string {
	switch {
	case r.Output != electrics.Sounding:
		return "–"
	case !firm(r):
		return "hangs on the phase"
	}
	text := signed(r.Brightness) + nbsp + "dB"
	if r.Peak != nil {
		text += "\npeak " + strings.ReplaceAll(units.FormatHertz(units.Round(r.Peak.Hz, 2)), " ", nbsp)
	}
	return text
}

func humWords(in *Input, i int) string {
	if in.Levels == nil {
		return string(in.Rows[i].Hum)
	}
	h := in.Levels[i].Hum
	switch h.Verdict {
	case electrics.HumNone:
		return "–"
	case electrics.HumUnsure:
		return "cannot tell"
	}
	return fmt.Sprintf("%s,\n%s%sdB", h.Verdict, strings.Replace(fmt.Sprint(math.Round(h.Index)+0), "-", "−", 1), nbsp)
}

func knobWords(knobs []proof.KnobAct) string {
	var out []string
	for _, k := range knobs {
		switch {
		case strings.Contains(k.Knob, k.Does):
			out = append(out, k.Knob)
		case len(k.Mutes) > 0 && k.Does == "volume of":
			out = append(out, fmt.Sprintf("%s: volume of %s", k.Knob, strings.Join(k.Mutes, ", ")))
		default:
			out = append(out, k.Knob+": "+k.Does)
		}
	}
	return strings.Join(out, ", ")
}
