package cli

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"loomwright/internal/proof"
)

// settingsTable puts rows of a proof in columns.
func settingsTable(rows []proof.Row) [][]string {
	out := [][]string{{"setting", "heard", "phase", "hum", "knobs", "travel", "wanted"}}
	for _, r := range rows {
		out = append(out, []string{r.Name, heard(r), string(r.Phase), string(r.Hum), Knobs(r.Knobs), travel(r.Travel), wanted(r.Wanted)})
	}
	return out
}

// heard adds what a player would want to know of a silent setting.
func heard(r proof.Row) string {
	switch r.Output {
	case proof.Shorted:
		return "silent (shorted)"
	case proof.Open:
		return "silent (open)"
	}
	return r.Heard
}

// Knobs puts the knobs that act in a few words: "volume; tone: tone".
func Knobs(knobs []proof.KnobAct) string {
	var words []string
	for _, k := range knobs {
		switch {
		case k.Does == "volume of":
			words = append(words, fmt.Sprintf("%s: volume of %s", k.Knob, strings.Join(k.Mutes, " ")))
		case strings.Contains(k.Knob, k.Does):
			words = append(words, k.Knob)
		default:
			words = append(words, k.Knob+": "+k.Does)
		}
	}
	return strings.Join(words, ", ")
}

// travel is the worst moment on the way to a neighbour.
func travel(ways []proof.Passage) string {
	worst := proof.Moment("")
	for _, w := range ways {
		worst = proof.Worse(worst, w.Quiet)
	}
	return string(worst)
}

func wanted(w *proof.Wanted) string {
	if w == nil {
		return "-"
	}
	return string(w.Met)
}

// printTable prints rows in columns; the first row is the head.
func printTable(w io.Writer, rows [][]string) {
	width := make([]int, len(rows[0]))
	for _, row := range rows {
		for i, cell := range row {
			width[i] = max(width[i], utf8.RuneCountInString(cell))
		}
	}
	for r, row := range rows {
		var b strings.Builder
		for i, cell := range row {
			b.WriteString("  " + cell + strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell)))
		}
		fmt.Fprintln(w, strings.TrimRight(b.String(), " "))
		if r == 0 {
			rule(w, width)
		}
	}
}

func rule(w io.Writer, width []int) {
	for _, n := range width {
		fmt.Fprint(w, "  "+strings.Repeat("-", n))
	}
	fmt.Fprintln(w)
}
