package proof

import (
	"slices"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/setting"
	"loomwright/internal/sound"
	"loomwright/internal/wiring"
)

// Checks of the output: shorted, open, silent.

var hotShorted = &check{diag.Code{Code: "hot-shorted", Severity: diag.Error,
	Says: "hot is joined to ground where sound is wanted", Notice: "silence"}, func(p *prover, c *check) {
	bad := p.rowsWhere(func(i int, r *Row) bool {
		return r.Output == Shorted && !r.Unsure && !p.silenceWanted(r) && !turnsBack(r)
	})
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

// turnsBack reports whether a volume that works backwards is why a row is
// silent at 10: that has a finding of its own.
func turnsBack(r *Row) bool {
	return slices.ContainsFunc(r.Knobs, func(k KnobAct) bool { return k.Does == volumeBackwards })
}

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
		p.report(c, p.reversedSpan(bad[0]), bad, "%s coils sound against each other: thin and quiet", p.with(bad)).Hint =
			"if that is meant, ask for it: hear: neck parallel reversed bridge"
	}
}}

// reversedSpan is where the first reversed coil of a row is soldered.
func (p *prover) reversedSpan(row string) diag.Span {
	for i := range p.rows {
		if p.rows[i].Name != row {
			continue
		}
		for _, leaf := range p.rows[i].Sound.Leaves() {
			if c := p.g.CoilIndex(leaf.Name); leaf.Reversed && c >= 0 {
				return p.termSpan(p.g.Coils[c].Start)
			}
		}
	}
	return p.termSpan(p.g.Hot)
}

var coilHanging = &check{diag.Code{Code: "coil-hanging", Severity: diag.Warning,
	Says: "a coil that is not heard hangs on hot with its other end open", Notice: "hum and hiss that the coil picks up as an aerial"}, func(p *prover, c *check) {
	hangs := func(coil int) []string {
		return p.rowsWhere(func(_ int, r *Row) bool {
			return slices.Contains(r.Hanging, p.g.Coils[coil].Name) && r.Output != Shorted && !r.Unsure
		})
	}
	for _, group := range p.coilGroups(hangs) {
		p.report(c, p.termSpan(p.g.Coils[group.coils[0]].Start), group.rows, "%s %s with the other end open, and hum comes in as through an aerial",
			p.with(group.rows), p.verb(group.coils, "hangs on hot", "hang on hot"))
	}
}}

var coilUnused = &check{diag.Code{Code: "coil-unused", Severity: diag.Warning,
	Says: "a coil is heard in no setting", Notice: "it might as well not be there"}, func(p *prover, c *check) {
	if !p.anySounding() {
		return // silence has findings of its own
	}
	unused := func(coil int) []string {
		name := p.g.Coils[coil].Name
		if heard := p.rowsWhere(func(_ int, r *Row) bool { return r.Unsure || hasLeaf(r.Sound, name) }); len(heard) > 0 {
			return nil
		}
		return p.rowsWhere(func(int, *Row) bool { return true })
	}
	for _, group := range p.coilGroups(unused) {
		p.report(c, p.useSpan(p.g.Coils[group.coils[0]].Use), nil, "%s in no setting", p.verb(group.coils, "is heard", "are heard"))
	}
}}

// coilGroup is some coils of one pickup of which the same holds.
type coilGroup struct {
	coils []int
	rows  []string
}

// coilGroups puts the coils of a pickup together that something holds of in
// the same settings.
func (p *prover) coilGroups(holds func(coil int) []string) []coilGroup {
	var out []coilGroup
	for i := range p.g.Coils {
		rows := holds(i)
		if len(rows) == 0 {
			continue
		}
		at := slices.IndexFunc(out, func(g coilGroup) bool {
			return p.g.Coils[g.coils[0]].Use == p.g.Coils[i].Use && slices.Equal(g.rows, rows)
		})
		if at < 0 {
			at, out = len(out), append(out, coilGroup{rows: rows})
		}
		out[at].coils = append(out[at].coils, i)
	}
	return out
}

// verb names coils, a whole pickup by its own name, with a verb that fits.
func (p *prover) verb(coils []int, one, several string) string {
	use := p.g.Coils[coils[0]].Use
	if len(coils) == len(p.g.Loom.Uses[use].Part.Coils) {
		return p.g.Loom.Uses[use].Name + " " + one
	}
	names := make([]string, len(coils))
	for i, c := range coils {
		names[i] = p.g.Coils[c].Name
	}
	if len(names) == 1 {
		return names[0] + " " + one
	}
	return strings.Join(names, " and ") + " " + several
}

func hasLeaf(e sound.Expr, name string) bool {
	return e.Op == sound.Name && e.Name == name ||
		slices.ContainsFunc(e.Kids, func(k sound.Expr) bool { return hasLeaf(k, name) })
}

var leadLoose = &check{diag.Code{Code: "lead-loose", Severity: diag.Warning,
	Says: "one end of a coil is soldered nowhere while its other end is", Notice: "that coil is dead, or hums"}, func(p *prover, c *check) {
	for _, t := range p.looseLeads() {
		p.report(c, p.useSpan(p.g.Terms[t].Use), nil, "%s is soldered nowhere", p.g.Terms[t].Name)
	}
}}

// looseLeads lists the coil ends that are soldered nowhere while the coil's
// other end is.
func (p *prover) looseLeads() []int {
	joined := p.soldered()
	var out []int
	for i := range p.g.Coils {
		coil := &p.g.Coils[i]
		for _, ends := range [][2]int{{coil.Start, coil.Finish}, {coil.Finish, coil.Start}} {
			if !joined[ends[0]] && joined[ends[1]] {
				out = append(out, ends[0])
			}
		}
	}
	return out
}

// soldered marks the terminals that something leads away from: a run to them or
// to metal of one piece with them, another coil joined inside the pickup, an
// unknown lead.
func (p *prover) soldered() []bool {
	piece := p.insides()
	joined := make([]bool, piece.Count)
	for _, r := range p.g.Links {
		if r.Run >= 0 {
			joined[piece.Of[r.A]], joined[piece.Of[r.B]] = true, true
		}
	}
	for _, u := range p.g.Unknown {
		for _, t := range u.May {
			joined[piece.Of[t]] = true
		}
	}
	ends := make([]int, piece.Count)
	for i := range p.g.Coils {
		ends[piece.Of[p.g.Coils[i].Start]]++
		ends[piece.Of[p.g.Coils[i].Finish]]++
	}
	out := make([]bool, len(p.g.Terms))
	for t, at := range piece.Of {
		out[t] = joined[at] || ends[at] > 1
	}
	return out
}

// insides merges what is one piece of metal inside the parts, without any run.
func (p *prover) insides() setting.Nets {
	g := *p.g
	g.Links = slices.DeleteFunc(slices.Clone(g.Links), func(l wiring.Link) bool { return l.Run >= 0 })
	return setting.NewBase(&g).NetsOf(nil)
}
