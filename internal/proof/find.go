package proof

import (
	"fmt"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/setting"
)

// check is one thing that can be wrong with a proved loom. Its record feeds
// help and documentation.
type check struct {
	diag.Code
	find func(*prover, *check)
}

// checks lists every check but joinSuspect, which runs the others on changed
// looms.
func checks() []*check {
	return []*check{
		hotShorted, hotOpen, noSound, outOfPhase, coilHanging, coilUnused, leadLoose,
		groundMissing, groundLost, groundHot, coverLifted, jackSwapped, stringGround,
		volumeWrongWay, toneWrongWay, alwaysDark, knobDead, knobWeak, volumesMute, tonesTogether, taperReversed,
		switchIdle, switchUpsideDown, groundLoop, throwUnused,
	}
}

// Codes of this package's findings.
func Codes() []diag.Code {
	out := []diag.Code{
		{Code: "sound-missed", Severity: diag.Error, Says: "a wanted sound is not what is heard", Notice: "another sound, or none, in that setting"},
		{Code: "sound-unsure", Severity: diag.Warning, Says: "whether a wanted sound is heard cannot be told", Notice: "perhaps a thin sound, perhaps the right one"},
		nothingJoined,
	}
	for _, c := range append(checks(), joinSuspect) {
		out = append(out, c.Code)
	}
	return out
}

// Quiet are the codes that a face leaves out unless asked: normal in a guitar.
var Quiet = map[string]bool{"ground-loop": true, "throw-unused": true}

// find runs every check.
func (p *prover) find() {
	for _, c := range append(checks(), joinSuspect) {
		c.find(p, c)
	}
}

// report adds a finding of a check, at its severity.
func (p *prover) report(c *check, at diag.Span, settings []string, format string, args ...any) *diag.Diagnostic {
	if len(settings) == len(p.rows) {
		settings = nil
	}
	p.list.Add(diag.Diagnostic{Code: c.Code.Code, Severity: c.Severity, Span: at, Settings: settings,
		Message: fmt.Sprintf(format, args...)})
	return &p.list[len(p.list)-1]
}

// rowsWhere names the settings in which something holds.
func (p *prover) rowsWhere(holds func(i int, r *Row) bool) []string {
	var out []string
	for i := range p.rows {
		if holds(i, &p.rows[i]) {
			out = append(out, p.rows[i].Name)
		}
	}
	return out
}

// with puts the settings of a finding in words.
func (p *prover) with(settings []string) string {
	switch {
	case len(settings) == len(p.rows) || len(settings) == 0:
		return "in every setting"
	case len(settings) == 1:
		return "with " + settings[0]
	case len(settings) > 3:
		return fmt.Sprintf("with %s and %d more settings", settings[0], len(settings)-1)
	}
	return "with " + strings.Join(settings, " or with ")
}

// useSpan is where a part is named.
func (p *prover) useSpan(use int) diag.Span { return p.g.Loom.Uses[use].Span }

// name is a terminal as the user writes it; a braid is named by its wire.
func (p *prover) name(term int) string {
	for _, r := range p.g.Runs {
		if r.Braid == term {
			return fmt.Sprintf("the braid from %s to %s", p.g.Terms[r.A].Name, p.g.Terms[r.B].Name)
		}
	}
	return p.g.Terms[term].Name
}

// termSpan is the first run that is soldered to a terminal, or the part's name.
func (p *prover) termSpan(term int) diag.Span {
	for _, r := range p.g.Runs {
		if r.A == term || r.B == term || r.Braid == term {
			return r.Span
		}
	}
	if use := p.g.Terms[term].Use; use >= 0 {
		return p.useSpan(use)
	}
	return diag.Span{}
}

// runsBetween lists the runs on simple paths of metal between two terminals in
// a setting, all knobs up.
func (p *prover) runsBetween(s setting.Setting, a, b int) []int {
	var edges []edge
	var run []int
	for _, l := range p.g.Links {
		edges, run = append(edges, edge{l.A, l.B}), append(run, l.Run)
	}
	for group := range p.base.Contacts(s.At) {
		for _, t := range group[1:] {
			edges, run = append(edges, edge{group[0], t}), append(run, -1)
		}
	}
	for _, e := range setting.Ends(p.g, p.full) {
		edges, run = append(edges, edge{e[0], e[1]}), append(run, -1)
	}
	edges = append(edges, edge{a, b})
	var out []int
	for i, in := range blockOf(len(p.g.Terms), edges, len(edges)-1)[:len(run)] {
		if in && run[i] >= 0 {
			out = append(out, run[i])
		}
	}
	return out
}

func (p *prover) related(runs []int, message string) []diag.Related {
	var out []diag.Related
	for _, r := range runs {
		out = append(out, diag.Related{Span: p.g.Runs[r].Span, Message: message})
	}
	return out
}
