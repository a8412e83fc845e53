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

// nothingJoined is the one finding of a loom without joins: what follows from
// that is not worth saying.
var nothingJoined = diag.Code{Code: "unwired", Severity: diag.Warning,
	Says: "nothing is joined yet", Notice: "silence: the parts lie on the bench"}

func (p *prover) unwired() diag.List {
	return diag.List{{Code: nothingJoined.Code, Severity: nothingJoined.Severity, Span: p.useSpan(p.g.Terms[p.g.Hot].Use),
		Message: "nothing is joined yet: write the joins, one soldered run a line", Hint: "- volume.wiper -- jack.tip"}}
}
