package meter

import (
	"fmt"
	"slices"

	"loomwright/internal/diag"
	"loomwright/internal/electrics"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// Codes of this package's findings.
var Codes = []diag.Code{
	{Code: "meter-limit", Severity: diag.Error, Says: "the loom has more settings than readings are worked out for", Notice: "no readings are listed"},
	{Code: "meter-leads", Severity: diag.Error, Says: "which lead is which coil's is not known, so that nobody can say what a meter should read", Notice: "no readings are listed until the leads are told apart"},
	{Code: "meter-file", Severity: diag.Error, Says: "a meter's file cannot be used", Notice: "the meter cannot be chosen until its file is mended"},
}

// maxSettings bounds the settings that readings are worked out for.
const maxSettings = 256

// known checks a loom and gives leads of unknown end a place. Two unknown leads
// of one coil are its ends either way round: ohms are the same, which way a tap
// goes is open. More than that cannot be read against anything.
func known(g *wiring.Graph, o electrics.Options) (*wiring.Graph, diag.List) {
	var list diag.List
	if n := setting.Count(g); n > maxSettings {
		list.Add(diag.Diagnostic{Code: "meter-limit", Severity: diag.Error,
			Message: fmt.Sprintf("the switches of this loom have more than %d settings together; readings are worked out for at most %d", min(n, setting.Max), maxSettings)})
		return nil, list
	}
	if _, more := electrics.New(g, o); more.HasErrors() {
		return nil, more
	}
	out := *g
	out.Links, out.Coils, out.Unknown = slices.Clone(g.Links), slices.Clone(g.Coils), nil
	for _, u := range g.Unknown {
		if !placed(&out, g, u) {
			list.Add(diag.Diagnostic{Code: "meter-leads", Severity: diag.Error, Span: g.Loom.Uses[g.Terms[u.Term].Use].Span,
				Message: fmt.Sprintf("which end of which coil %s is, nobody has told: tell the leads apart with the meter first", g.Terms[u.Term].Name)})
		}
	}
	if list.HasErrors() {
		return nil, list
	}
	return &out, nil
}

// placed joins an unknown lead to one of the two ends of the only coil that it
// can be of: the first of two such leads to the first end, the other to the
// second.
func placed(out, g *wiring.Graph, u wiring.Unknown) bool {
	coil := slices.IndexFunc(g.Coils, func(c wiring.Coil) bool {
		return len(u.May) == 2 && slices.Contains(u.May, c.Start) && slices.Contains(u.May, c.Finish)
	})
	if coil < 0 {
		return false
	}
	first := slices.IndexFunc(g.Unknown, func(o wiring.Unknown) bool { return slices.Equal(o.May, u.May) })
	end := u.May[1]
	if g.Unknown[first].Term == u.Term {
		end = u.May[0]
	}
	out.Coils[coil].Winding = 0
	out.Links = append(out.Links, wiring.Link{A: u.Term, B: end, Run: -1})
	return true
}
