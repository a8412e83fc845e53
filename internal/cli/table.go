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

// maxCell is the width that a cell's words are wrapped to.
const maxCell = 60

// printTable prints rows in columns, long cells wrapped; the first row is the
// head.
func printTable(w io.Writer, rows [][]string) {
	wrapped := make([][][]string, len(rows))
	width := make([]int, len(rows[0]))
	for r, row := range rows {
		for i, cell := range row {
			lines := wrap(cell, maxCell)
			wrapped[r] = append(wrapped[r], lines)
			for _, l := range lines {
				width[i] = max(width[i], utf8.RuneCountInString(l))
			}
		}
	}
	for r, cells := range wrapped {
		printRow(w, cells, width)
		if r == 0 {
			rule(w, width)
		}
	}
}

func printRow(w io.Writer, cells [][]string, width []int) {
	height := 1
	for _, lines := range cells {
		height = max(height, len(lines))
	}
	for k := range height {
		var b strings.Builder
		for i, lines := range cells {
			text := ""
			if k < len(lines) {
				text = lines[k]
			}
			b.WriteString("  " + text + strings.Repeat(" ", width[i]-utf8.RuneCountInString(text)))
		}
		fmt.Fprintln(w, strings.TrimRight(b.String(), " "))
	}
}

// wrap breaks a text at spaces into lines of at most n characters; a word that
// is longer stands alone.
func wrap(text string, n int) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > n {
			out = append(out, line)
			line = word
			continue
		}
		line = strings.TrimSpace(line + " " + word)
	}
	return append(out, line)
}

func rule(w io.Writer, width []int) {
	for _, n := range width {
		fmt.Fprint(w, "  "+strings.Repeat("-", n))
	}
	fmt.Fprintln(w)
}
