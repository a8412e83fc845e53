package bench

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loomwright/internal/drawing"
	"loomwright/internal/wiring"
)

// PlacePart writes into the text of a loom where a part lies in the drawing: x
// and y in mm and quarter turns; nil leaves it to the layout again.
func (b *Bench) PlacePart(name, data, use string, at *[3]float64) (string, error) {
	g, err := b.readable(name, data)
	if err != nil {
		return "", err
	}
	if _, ok := g.Loom.Use(use); !ok {
		return "", fmt.Errorf("this loom has no part %q", use)
	}
	entry := ""
	if at != nil {
		if !finite(at[:]) {
			return "", fmt.Errorf("%s cannot be placed there", use)
		}
		entry = fmt.Sprintf("  %s: [%g, %g, %d]", use, math.Round(at[0]*2)/2, math.Round(at[1]*2)/2, int(math.Round(at[2]))&3)
	}
	out, list := b.Format(name, strings.Join(withPlace(strings.Split(data, "\n"), use, entry), "\n"))
	if list.HasErrors() {
		return "", fmt.Errorf("the places are written in a way that only the text can change")
	}
	return out, nil
}

func finite(numbers []float64) bool {
	return !slices.ContainsFunc(numbers, func(x float64) bool { return math.IsNaN(x) || math.Abs(x) > 1e4 })
}

// withPlace writes, replaces or takes away one entry of the places.
func withPlace(lines []string, use, entry string) []string {
	head := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, "place:") })
	if head < 0 {
		if entry == "" {
			return lines
		}
		return append(lines, "place:", entry)
	}
	end := head + 1
	for end < len(lines) && (strings.HasPrefix(lines[end], " ") || strings.HasPrefix(lines[end], "#")) {
		end++
	}
	own := slices.IndexFunc(lines[head+1:end], func(l string) bool { return strings.HasPrefix(strings.TrimSpace(l), use+":") })
	switch {
	case own >= 0 && entry != "":
		lines[head+1+own] = entry
	case own >= 0 && end == head+2:
		return slices.Delete(lines, head, end)
	case own >= 0:
		return slices.Delete(lines, head+1+own, head+2+own)
	case entry != "":
		return slices.Insert(lines, head+1, entry)
	}
	return lines
}

// loosened is an earlier drawing without the lanes of parts that the loom now
// places elsewhere.
func loosened(s *drawing.Saved, g *wiring.Graph) *drawing.Saved {
	if s == nil {
		return nil
	}
	moved := func(terminal string) bool {
		return slices.ContainsFunc(s.Places, func(p drawing.SavedPart) bool {
			at, placed := g.Loom.Place[p.Part]
			return placed && at != p.At && strings.HasPrefix(terminal, p.Part+".")
		})
	}
	out := *s
	out.Lanes = slices.DeleteFunc(slices.Clone(s.Lanes), func(l drawing.SavedLane) bool { return moved(l.A) || moved(l.B) })
	return &out
}
