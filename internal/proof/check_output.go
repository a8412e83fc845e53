package proof

import (
	"slices"

	"loomwright/internal/diag"
	"loomwright/internal/sound"
)

// Checks of the output: shorted, open, silent.

var hotShorted = &check{diag.Code{Code: "hot-shorted", Severity: diag.Error,
	Says: "hot is joined to ground where sound is wanted", Notice: "silence"}, func(p *prover, c *check) {
	bad := p.rowsWhere(func(i int, r *Row) bool { return r.Output == Shorted && !p.silenceWanted(r) })
	if len(bad) == 0 {
		return
	}
	for i := range p.rows {
		if p.rows[i].Name != bad[0] {
			continue
		}
		runs := p.runsBetween(p.rows[i].Setting, p.g.Hot, p.g.Ground)
		at := p.termSpan(p.g.Hot)
		if len(runs) > 0 {
			at = p.g.Runs[runs[0]].Span
		}
		p.report(c, at, bad, "%s hot is joined to ground: silence", p.with(bad)).Related = p.related(runs, "on the way from hot to ground")
	}
}}

var hotOpen = &check{diag.Code{Code: "hot-open", Severity: diag.Warning,
	Says: "the output hangs in the air", Notice: "loud hum, and a pop when switching there"}, func(p *prover, c *check) {
	bad := p.rowsWhere(func(_ int, r *Row) bool { return r.Output == Open && !r.Unsure })
	if len(bad) > 0 {
		p.report(c, p.termSpan(p.g.Hot), bad, "%s nothing is joined to hot: the amplifier hums, and switching there pops", p.with(bad))
	}
}}

var noSound = &check{diag.Code{Code: "no-sound", Severity: diag.Warning,
	Says: "no coil reaches the output where none is said to be silent", Notice: "silence"}, func(p *prover, c *check) {
	bad := p.rowsWhere(func(_ int, r *Row) bool {
		return r.Output == Held && r.Wanted == nil && !r.Unsure && len(p.g.Coils) > 0
	})
	if len(bad) > 0 {
		p.report(c, p.termSpan(p.g.Hot), bad, "%s no coil reaches the output: silence", p.with(bad)).Hint = "if that is meant, say so: hear: silent"
	}
}}

// silenceWanted reports whether a row is meant to be silent.
func (p *prover) silenceWanted(r *Row) bool { return r.Wanted != nil && r.Wanted.silent }

var outOfPhase = &check{diag.Code{Code: "out-of-phase", Severity: diag.Warning,
	Says: "coils sound against each other where nobody asked for it", Notice: "a thin, nasal, quiet sound"}, func(p *prover, c *check) {
	bad := p.rowsWhere(func(_ int, r *Row) bool { return r.Wanted == nil && r.Phase == OutOfPhase })
	if len(bad) > 0 {
		p.report(c, p.termSpan(p.g.Hot), bad, "%s coils sound against each other: thin and quiet", p.with(bad)).Hint =
			"if that is meant, ask for it: hear: neck parallel reversed bridge"
	}
}}

var coilHanging = &check{diag.Code{Code: "coil-hanging", Severity: diag.Warning,
	Says: "a coil that is not heard hangs on hot with its other end open", Notice: "hum and hiss that the coil picks up as an aerial"}, func(p *prover, c *check) {
	for i := range p.g.Coils {
		coil := &p.g.Coils[i]
		bad := p.rowsWhere(func(_ int, r *Row) bool { return slices.Contains(r.Hanging, coil.Name) && r.Output != Shorted })
		if len(bad) > 0 {
			p.report(c, p.termSpan(coil.Start), bad, "%s %s hangs on hot with its other end open: it picks up hum like an aerial", p.with(bad), coil.Name)
		}
	}
}}

var coilUnused = &check{diag.Code{Code: "coil-unused", Severity: diag.Warning,
	Says: "a coil is heard in no setting", Notice: "it might as well not be there"}, func(p *prover, c *check) {
	for i := range p.g.Coils {
		name := p.g.Coils[i].Name
		heard := p.rowsWhere(func(_ int, r *Row) bool { return r.Unsure || hasLeaf(r.Sound, name) })
		if len(heard) == 0 && len(p.rows) > 0 {
			p.report(c, p.useSpan(p.g.Coils[i].Use), nil, "%s is heard in no setting", name)
		}
	}
}}

func hasLeaf(e sound.Expr, name string) bool {
	for _, leaf := range e.Leaves() {
		if leaf.Name == name {
			return true
		}
	}
	return false
}

var leadLoose = &check{diag.Code{Code: "lead-loose", Severity: diag.Warning,
	Says: "one end of a coil is soldered nowhere while its other end is", Notice: "that coil is dead, or hums"}, func(p *prover, c *check) {
	joined := p.soldered()
	for i := range p.g.Coils {
		coil := &p.g.Coils[i]
		for _, ends := range [][2]int{{coil.Start, coil.Finish}, {coil.Finish, coil.Start}} {
			if !joined[ends[0]] && joined[ends[1]] {
				p.report(c, p.useSpan(coil.Use), nil, "%s is soldered nowhere", p.g.Terms[ends[0]].Name)
			}
		}
	}
}}

// soldered marks the terminals that a run, an unknown lead or metal inside a
// part leads away from.
func (p *prover) soldered() []bool {
	out := make([]bool, len(p.g.Terms))
	for _, l := range p.g.Links {
		out[l.A], out[l.B] = true, true
	}
	for _, u := range p.g.Unknown {
		for _, t := range u.May {
			out[t] = true
		}
	}
	return out
}
