package bench

import (
	"fmt"
	"math"

	"loomwright/internal/electrics"
	"loomwright/internal/units"
)

// LevelCells puts a table of levels in words, the head first.
func LevelCells(l Levels, noise bool) [][]string {
	head := []string{"setting", "ohms at the jack", "level", "brightness", "resonance", "hum index"}
	if noise {
		head = append(head, "noise")
	}
	rows := [][]string{head}
	for i, r := range l.Rows {
		cells := []string{r.Setting, ohmsCell(r.Ohms), "", "", "", ""}
		if r.Output == electrics.Sounding {
			cells[2], cells[3], cells[4], cells[5] = levelCell(r), brightCell(r), peakCell(r.Peak), humCell(r.Hum)
		} else {
			cells[2] = string(r.Output)
		}
		if i < len(l.Bands) && r.Output == electrics.Sounding {
			cells[2] += spanCell(l.Bands[i].Level)
			cells[3] += spanCell(l.Bands[i].Brightness)
		}
		if noise {
			cells = append(cells, fmt.Sprintf("%.2f µV", r.Noise*1e6))
		}
		rows = append(rows, cells)
	}
	return rows
}

func ohmsCell(r electrics.Reading) string {
	if r.Verdict != electrics.Path {
		return string(r.Verdict)
	}
	return units.FormatOhms(units.Round(r.Ohms, 3))
}

func brightCell(r electrics.Row) string {
	if r.Level < faint || r.Brightness < faint {
		return "cannot tell"
	}
	return fmt.Sprintf("%.1f dB", r.Brightness)
}

// levelCell shows one level, or the two that an unknown phase leaves open.
func levelCell(r electrics.Row) string {
	if r.LevelHi-r.LevelLo > 0.5 {
		return fmt.Sprintf("%+.1f to %+.1f dB", r.LevelLo, r.LevelHi)
	}
	return decibels(r.Level)
}

// faint is the level below which no figure is shown: coils cancel there, and by
// how much depends on where each sits under the strings.
const faint = -40

// decibels prints a level, without a minus nought.
func decibels(x float64) string {
	if x < faint {
		return fmt.Sprintf("below %d dB", faint)
	}
	return fmt.Sprintf("%+.1f dB", math.Round(x*10)/10+0)
}

func peakCell(p *electrics.Peak) string {
	if p == nil {
		return "none"
	}
	return fmt.Sprintf("%s, %+.1f dB", units.FormatHertz(units.Round(p.Hz, 2)), p.DB)
}

func humCell(h electrics.Hum) string {
	switch {
	case h.Verdict == electrics.HumNone:
		return ""
	case h.Verdict == electrics.HumUnsure:
		return fmt.Sprintf("cannot tell (%.0f to %.0f dB)", h.Lo, h.Hi)
	case h.Limited:
		return fmt.Sprintf("%.0f dB, as even as the coils are", h.Index)
	}
	return fmt.Sprintf("%+.0f dB", math.Round(h.Index)+0)
}

// spanCell shows where a figure can lie.
func spanCell(s electrics.Span) string { return fmt.Sprintf(" (%.1f to %.1f)", s.Lo, s.Hi) }
