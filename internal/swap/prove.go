package swap

import (
	"fmt"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/proof"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// prove reads the new file from its text alone, proves it, and holds every
// setting against the old loom.
func (s *swapper) prove(text string) Result {
	out := Result{Verdict: Same, Text: text, Renamed: s.renamed}
	l, list := loom.Read(diag.NewText(s.text.Name, text), s.lib)
	out.Findings = list
	if l == nil {
		return Result{Verdict: Refused, Findings: list, Renamed: s.renamed}
	}
	g, more := wiring.Build(l)
	out.Graph = g
	before, after := proof.Prove(s.g), proof.Prove(g)
	out.Rows = after.Rows
	out.Findings = append(append(list, more...), after.Findings...).Sorted()
	out.Differences = s.differences(g, before.Rows, after.Rows)
	for _, d := range out.Differences {
		out.Why = append(out.Why, fmt.Sprintf("%s: %s before, %s now", d.Setting, d.Before, d.After))
	}
	out.Why = append(out.Why, newFindings(before.Findings, after.Findings)...)
	if len(out.Why) > 0 {
		out.Verdict = Differs
	}
	return out
}

// differences compares every setting of the new loom with that of the old in
// which the same switches stand alike; a switch that only one of them has does
// not count. They have the names of the new loom.
func (s *swapper) differences(g *wiring.Graph, before, after []proof.Row) []Difference {
	var out []Difference
	for i := range after {
		old := s.alike(g, after[i].Setting.At)
		if old >= len(before) {
			continue
		}
		if b, a := heard(&before[old]), heard(&after[i]); b != a {
			out = append(out, Difference{after[i].Name, b, a})
		}
	}
	return out
}

// alike is the setting of the old loom with the switches of a new one's.
func (s *swapper) alike(g *wiring.Graph, at []int) int {
	old := make([]int, len(s.g.Switches))
	for i := range s.g.Switches {
		if p := s.g.Switches[i].Proved; p >= 0 {
			old[i] = p
		}
		for k := range g.Switches {
			if g.Switches[k].Name == s.g.Switches[i].Name && at[k] < len(s.g.Switches[i].Positions) {
				old[i] = at[k]
			}
		}
	}
	return setting.Index(s.g, old)
}

// heard is all that a player would notice of a setting.
func heard(r *proof.Row) string {
	text := r.Heard
	if r.Output != proof.Sounding {
		text = string(r.Output)
	}
	if r.Phase == proof.OutOfPhase || r.Phase == proof.CannotTell {
		text += ", phase " + string(r.Phase)
	}
	if r.Hum != proof.Nothing {
		text += ", hum " + string(r.Hum)
	}
	for _, k := range r.Knobs {
		part, _, _ := strings.Cut(k.Knob, ".") // a gang may have another name
		text += fmt.Sprintf(", %s %s", part, k.Does)
	}
	return text
}

// newFindings are warnings and errors that the old loom did not have as often.
func newFindings(before, after diag.List) []string {
	had := map[string]int{}
	for _, f := range before {
		had[f.Code]++
	}
	var out []string
	for _, f := range after {
		if f.Severity <= diag.Info {
			continue
		}
		if had[f.Code]--; had[f.Code] < 0 {
			out = append(out, f.Code+": "+f.Message)
		}
	}
	return out
}
