package bench

import (
	"fmt"
	"strings"

	"loomwright/internal/electrics"
	"loomwright/internal/proof"
)

// SettingLine is one row of the table of settings in words, as every face
// shows it.
type SettingLine struct {
	Setting  string
	Heard    string
	Phase    string
	Hum      string
	Knobs    string
	Level    string // over Checked.Over; "" where nothing sounds
	Bright   string // brightness, dB
	Travel   string // the worst moment on the way to a neighbour
	Wanted   string // yes, no, cannot tell, or – where nothing is asked
	LiveRuns []int
}

// SettingHeads are the heads of the table of settings.
var SettingHeads = []string{"setting", "heard", "phase", "hum", "level", "brightness", "knobs", "travel", "wanted"}

// Cells lists the line under SettingHeads.
func (l SettingLine) Cells() []string {
	return []string{l.Setting, l.Heard, l.Phase, l.Hum, l.Level, l.Bright, l.Knobs, l.Travel, l.Wanted}
}

// SettingLines puts the rows of a proof in words.
func SettingLines(c Checked) []SettingLine {
	var out []SettingLine
	for i, r := range c.Rows {
		l := SettingLine{Setting: r.Name, Heard: heardWords(r), Phase: string(r.Phase), Hum: humWords(r), Knobs: knobWords(r.Knobs),
			Travel: travelWords(r.Travel), Wanted: wantedWords(r.Wanted), LiveRuns: r.LiveRuns}
		if i < len(c.Figures) && c.Figures[i].Output == electrics.Sounding && !r.Unsure {
			l.Level, l.Bright = levelCell(c.Figures[i]), brightCell(c.Figures[i])
		}
		out = append(out, l)
	}
	return out
}

// heardWords adds what a player would want to know of a silent setting.
func heardWords(r proof.Row) string {
	switch {
	case r.Unsure:
		return r.Short
	case r.Output == proof.Shorted:
		return "silent (shorted)"
	case r.Output == proof.Open:
		return "silent (open)"
	}
	return r.Short
}

// humWords says of one coil that it hums; several add their hum, or not.
func humWords(r proof.Row) string {
	if r.Phase == proof.OneCoil && r.Hum == proof.Adds {
		return "hums"
	}
	return string(r.Hum)
}

// knobWords puts the knobs that act in a few words: "volume, tone".
func knobWords(knobs []proof.KnobAct) string {
	var words []string
	for _, k := range knobs {
		switch {
		case len(k.Mutes) > 0 && k.Does == "volume of":
			words = append(words, fmt.Sprintf("%s (%s)", k.Knob, strings.Join(k.Mutes, ", ")))
		case strings.Contains(k.Knob, k.Does):
			words = append(words, k.Knob)
		default:
			words = append(words, k.Knob+": "+k.Does)
		}
	}
	return strings.Join(words, ", ")
}

func travelWords(ways []proof.Passage) string {
	worst := proof.Moment("")
	for _, w := range ways {
		worst = proof.Worse(worst, w.Quiet)
	}
	return string(worst)
}

func wantedWords(w *proof.Wanted) string {
	if w == nil {
		return "–"
	}
	return string(w.Met)
}
