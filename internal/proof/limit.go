package proof

import (
	"fmt"

	"loomwright/internal/diag"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// tooMany refuses a loom with more settings than are walked through.
func tooMany(g *wiring.Graph) Report {
	span := diag.Span{}
	for i := range g.Switches {
		span = g.Loom.Uses[g.Switches[i].Use].Span
	}
	return Report{Findings: diag.List{{Code: "loom-limit", Severity: diag.Error, Span: span,
		Message: fmt.Sprintf("the switches of this loom have more than %d settings together: prove it in parts", setting.Max)}}}
}
