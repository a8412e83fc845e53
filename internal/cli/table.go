package cli

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"loomwright/internal/bench"
)

// settingsTable puts the rows of a proof in columns.
func settingsTable(c bench.Checked) [][]string {
	out := [][]string{bench.SettingHeads}
	for _, l := range bench.SettingLines(c) {
		out = append(out, l.Cells())
	}
	return out
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
