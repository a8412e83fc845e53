package proof

import (
	"fmt"

	"loomwright/internal/diag"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// maxWork bounds settings times terminals: 4,096 settings of a loom of 366
// terminals.
const maxWork = 1500000

// tooMany refuses a loom whose settings cannot be walked through in reasonable
// time and memory; ok where they can.
func tooMany(g *wiring.Graph) (refused diag.List, ok bool) {
	n := setting.Count(g)
	message := fmt.Sprintf("the switches of this loom have %d settings together, and it has %d terminals: prove it in parts", n, len(g.Terms))
	switch {
	case n > setting.Max:
		message = fmt.Sprintf("the switches of this loom have more than %d settings together: prove it in parts", setting.Max)
	case n*len(g.Terms) <= maxWork:
		return nil, true
	}
	span := diag.Span{}
	for i := range g.Switches {
		span = g.Loom.Uses[g.Switches[i].Use].Span
	}
	return diag.List{{Code: "loom-limit", Severity: diag.Error, Span: span, Message: message}}, false
}

// nothingJoined is the one finding of a loom without joins: what follows from
// that is not worth saying.
var nothingJoined = diag.Code{Code: "unwired", Severity: diag.Warning,
	Says: "nothing is joined yet", Notice: "silence: the parts lie on the bench"}

func (p *prover) unwired() diag.List {
	return diag.List{{Code: nothingJoined.Code, Severity: nothingJoined.Severity, Span: p.useSpan(p.g.Terms[p.g.Hot].Use),
		Message: "nothing is joined yet: write the joins, one soldered run a line", Hint: "- volume.wiper -- jack.tip"}}
}
