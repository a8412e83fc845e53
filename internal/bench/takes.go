//go:build !js || paper

package bench

import (
	"fmt"
	"strings"

	"loomwright/internal/build"
	"loomwright/internal/meter"
	"loomwright/internal/sheet"
	"loomwright/internal/wiring"
)

// takesOf puts the readings of all stages in words for paper. Where a lug is, is
// said when it is first met.
func takesOf(g *wiring.Graph, proofs []meter.Proof) map[int][]sheet.Take {
	t := teller{g: g, told: map[int]bool{}}
	out := map[int][]sheet.Take{}
	for stage := range proofs {
		for i := range proofs[stage].Lines {
			out[stage] = append(out[stage], t.take(&proofs[stage].Lines[i]))
		}
	}
	return out
}

// teller remembers which lugs have been explained.
type teller struct {
	g    *wiring.Graph
	told map[int]bool
}

func (t *teller) take(l *meter.Line) sheet.Take {
	out := sheet.Take{Stand: t.stand(l), Right: shownWords(l)}
	switch l.Kind {
	case meter.Ohms:
		out.Do = fmt.Sprintf("%s, %s range.", t.probes(l), nbspUnit(l.Range))
	case meter.Tap:
		out.Do = fmt.Sprintf("%s, lowest volts range. Touch steel (a screwdriver's tip) to the poles of %s: as it touches, the reading goes up, down, or nothing?", t.probes(l), l.Coil)
	case meter.Farads:
		out = sheet.Take{Do: l.Do, Right: out.Right, Before: true}
		if _, part, ok := strings.Cut(l.Do, "unsolder one lead of "); ok {
			out.Do = "Capacitance of " + strings.Replace(part, ", and read its capacitance", "", 1) + " Read it while it is loose: afterwards a lead must be unsoldered for it."
		}
	case meter.Compass:
		out.Stand, out.Do = "", l.Do
	default:
		out.Stand, out.Do = "", l.Do
	}
	return out
}

// stand says where switches and knobs stand.
func (t *teller) stand(l *meter.Line) string {
	var words []string
	if len(t.g.Switches) > 0 && l.Setting != "as wired" {
		words = append(words, l.Setting)
	}
	switch {
	case len(l.Knobs) > 0:
		words = append(words, strings.ReplaceAll(strings.Join(l.Knobs, ", "), "=", " at "))
		if len(t.g.Knobs) > len(l.Knobs) {
			words = append(words, "other knobs at 10")
		}
	case len(t.g.Knobs) == 1:
		words = append(words, t.g.Knobs[0].Name+" at 10")
	case len(t.g.Knobs) > 1:
		words = append(words, "all knobs at 10")
	}
	text := strings.Join(words, ", ")
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

func (t *teller) probes(l *meter.Line) string {
	if l.RedTerm == t.g.Hot && l.BlackTerm == t.g.Ground {
		return "A cable in the jack: red probe on its tip, black on its sleeve"
	}
	return fmt.Sprintf("Red probe on %s, black on %s", t.place(l.RedTerm, l.Red), t.place(l.BlackTerm, l.Black))
}

// place is a terminal, with its place when it is first met.
func (t *teller) place(term int, name string) string {
	if term < 0 || term >= len(t.g.Terms) {
		return name
	}
	words := build.Place(t.g, term)
	if t.g.Terms[term].Kind == "lead" {
		words = "its bare end"
	}
	if words == "" || t.told[term] {
		return name
	}
	t.told[term] = true
	return fmt.Sprintf("%s [%s]", name, strings.NewReplacer(" (", "; seen from the ", ")", "").Replace(words))
}

// overWords are what meters show of an open circuit.
var overWords = map[string]string{"OL": "open (OL)", "1": "open (1 at the left, or OL)"}

// shownWords are what a right loom shows: the likeliest, and from what to what.
func shownWords(l *meter.Line) string {
	if open, ok := overWords[l.Lo]; ok {
		return open
	}
	if l.Lo == l.Hi {
		return nbspUnit(l.Shows)
	}
	lo, hi := l.Lo, l.Hi
	if _, unit, ok := strings.Cut(hi, " "); ok {
		lo = strings.TrimSuffix(lo, " "+unit)
	}
	return fmt.Sprintf("%s (%s to %s)", nbspUnit(l.Shows), nbspUnit(lo), nbspUnit(hi))
}

// nbspUnit keeps a unit with its number.
func nbspUnit(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") }
