package bench

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/synthesis"
)

// Found is what a search found, as a page needs it.
type Found struct {
	synthesis.Result
	Texts    []string  `json:"texts"`  // the loom file with each wiring
	Proved   []bool    `json:"proved"` // whether the proof, by other code, hears every wanted sound in each
	Findings diag.List `json:"findings"`
}

// pageWirings is how many wirings are offered.
const pageWirings = 3

// find looks for a wiring; tell hears how far it is.
func (d *Desk) find(a Ask, tell func(any)) Found {
	o := WireOptions{Best: pageWirings, HumCancels: a.HumCancels, Hanging: a.Hanging, WiresPerLug: a.WiresPerLug}
	if tell != nil {
		o.Progress = func(p synthesis.Progress) { tell(p) }
	}
	w := d.bench.Wire(a.Name, a.Text, o)
	out := Found{Result: w.Result, Texts: w.Texts, Proved: []bool{}, Findings: some(w.Findings)}
	for _, c := range w.Looms {
		out.Proved = append(out.Proved, met(c))
	}
	return out
}

// met reports whether every wanted sound of a loom is heard.
func met(c Checked) bool {
	for _, r := range c.Rows {
		if r.Wanted != nil && r.Wanted.Met == "no" {
			return false
		}
	}
	return len(c.Rows) > 0
}

// GiveUp takes wanted sounds out of the text of a loom, by their places in the
// list. The error is in a user's words.
func (b *Bench) GiveUp(name, data string, sounds []int) (string, error) {
	l, _ := loom.Read(diag.NewText(name, data), b.Library)
	lines := strings.Split(data, "\n")
	for _, i := range slices.Backward(slices.Compact(slices.Sorted(slices.Values(sounds)))) {
		if l == nil || i < 0 || i >= len(l.Sounds) {
			return "", fmt.Errorf("this loom has no such wish")
		}
		s := l.Sounds[i].Span
		lines = slices.Delete(lines, s.Start.Line-1, s.End.Line)
	}
	return b.soundWritten(name, lines)
}
