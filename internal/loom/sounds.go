package loom

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/part"
	"loomwright/internal/sound"
	"loomwright/internal/source"
	"loomwright/internal/units"
)

// sound reads one wanted sound.
func (r *resolver) sound(f *SoundFile) {
	s := Sound{Text: f.Hear.Value, FreePhase: f.Phase.Value == "free", Fixed: f.Phase.Value == "fixed", HumFree: f.Hum.Value != "",
		Span: f.Span, WithSpan: f.With.Span, HearSpan: f.Hear.Span}
	s.With = r.with(f.With)
	e, leaves, err := sound.Parse(f.Hear.Value)
	if err != nil {
		if f.Hear.Value != "" {
			r.soundSyntax(f.Hear, err)
		}
		return
	}
	for _, leaf := range leaves {
		r.leaf(f.Hear, leaf)
	}
	s.Hear = r.through(f.Hear, e.Map(r.loom.FullSound)).Canon()
	r.repeated(f.Hear, s.Hear)
	r.loom.Sounds = append(r.loom.Sounds, s)
}

func (r *resolver) soundSyntax(s source.String, err error) {
	at, hint := s.Span, ""
	if e := (*sound.SyntaxError)(nil); errors.As(err, &e) {
		at, hint = r.sub(s, piece{strings.Repeat("x", max(1, e.Length)), e.Offset}), e.Hint
	}
	r.fail("sound-syntax", at, "%v", err).Hint = hint
}

// through writes the values that a sound goes through as proof prints them.
func (r *resolver) through(s source.String, e sound.Expr) sound.Expr {
	if e.Op == sound.Through {
		e.Name = r.throughValue(s, e.Name)
		return e
	}
	kids := make([]sound.Expr, len(e.Kids))
	for i, k := range e.Kids {
		kids[i] = r.through(s, k)
	}
	if len(kids) > 0 {
		e.Kids = kids
	}
	return e
}

// throughValue reads a resistance or a capacitance; the words for a part
// whose value is not stated stand for themselves.
func (r *resolver) throughValue(s source.String, text string) string {
	if text == NoTrack || text == NoCapacitor || text == NoResistor {
		return text
	}
	ohms, notOhms := units.Ohms(text)
	farads, notFarads := units.Farads(text)
	switch {
	case notOhms == nil && notFarads == nil:
		r.fail("value-ambiguous", s.Span, "%q can be a resistance or a capacitance", text).Hint =
			"through " + ShortOhms(ohms.X) + "   or   through " + ShortFarads(farads.X)
	case notOhms == nil:
		return ShortOhms(ohms.X)
	case notFarads == nil:
		return ShortFarads(farads.X)
	default:
		r.unreadable(s, notOhms)
	}
	return text
}

// The words for a part in the path whose value is not stated.
const (
	NoTrack     = "a-pot-track"
	NoCapacitor = "a-capacitor"
	NoResistor  = "a-resistor"
)

// ShortOhms writes a resistance in one word: 4.7k, 470Ω.
func ShortOhms(x float64) string { return short(units.FormatOhms(x), "Ω") }

// ShortFarads writes a capacitance in one word: 22n.
func ShortFarads(x float64) string { return short(units.FormatFarads(x), "F") }

func short(text, unit string) string {
	number, prefix, _ := strings.Cut(text, " ")
	if prefix != unit {
		prefix = strings.TrimSuffix(prefix, unit)
	}
	return number + prefix
}

// FullSound gives a pickup's name its customary full sound, in the loom's coil
// names; a coil's own name stands for itself.
func (l *Loom) FullSound(name string) sound.Expr {
	use, coil := cut(name)
	i, ok := l.Use(use)
	if !ok {
		return sound.Coil(name, false)
	}
	p := l.Uses[i].Part
	if coil == "" && len(p.Coils) > 0 {
		return p.Full.Map(func(c string) sound.Expr { return sound.Coil(CoilName(use, p, c), false) })
	}
	return sound.Coil(CoilName(use, p, coil), false)
}

// CoilName is a coil's name in sounds: the pickup's own name when it is its
// only coil, else pickup.coil.
func CoilName(use string, p *part.Part, coil string) string {
	if len(p.Coils) == 1 {
		return use
	}
	return use + "." + coil
}

// leaf reports a name in a sound that is no coil.
func (r *resolver) leaf(s source.String, leaf sound.Leaf) {
	use, coil := cut(leaf.Name)
	at := r.sub(s, piece{leaf.Name, leaf.Offset})
	i, ok := r.loom.Use(use)
	if ok && len(r.loom.Uses[i].Part.Terminals) == 0 {
		return // the part itself was not found
	}
	if ok && len(r.loom.Uses[i].Part.Coils) > 0 && (coil == "" || r.loom.Uses[i].Part.CoilIndex(coil) >= 0) {
		return
	}
	r.fail("sound-name", at, "no coil or pickup is called %q", leaf.Name).Hint = r.nearest(leaf.Name, r.loom.coilNames)
}

// repeated reports a coil that a sound names twice.
func (r *resolver) repeated(s source.String, e sound.Expr) {
	seen := map[string]bool{}
	for _, leaf := range e.Leaves() {
		if seen[leaf.Name] {
			r.fail("sound-name", s.Span, "this sound uses %s twice, and there is only one", leaf.Name)
			return
		}
		seen[leaf.Name] = true
	}
}

func (l *Loom) coilNames() []string {
	var out []string
	for i := range l.Uses {
		u := &l.Uses[i]
		if len(u.Part.Coils) > 0 {
			out = append(out, u.Name)
		}
		for _, c := range u.Part.Coils {
			out = append(out, u.Name+"."+c.Name)
		}
	}
	return out
}

// with reads "lever middle, volume pulled".
func (r *resolver) with(s source.String) []At {
	var out []At
	if w := strings.TrimSpace(s.Value); w == "" || w == "as wired" {
		return nil
	}
	for _, p := range pieces(piece{text: s.Value}, ",") {
		at, ok := r.clause(s, p)
		if !ok {
			continue
		}
		for _, before := range out {
			if before.Use == at.Use && before.Switch == at.Switch {
				r.fail("sound-name", r.sub(s, p), "this setting has one switch in two positions at once")
			}
		}
		out = append(out, at)
	}
	return out
}

// clause reads "lever middle" or "lever 3".
func (r *resolver) clause(s source.String, p piece) (At, bool) {
	name, position, _ := strings.Cut(p.text, " ")
	position = strings.TrimSpace(position)
	use, inner := cut(name)
	i, ok := r.loom.Use(use)
	if !ok || len(r.loom.Uses[i].Part.Switches) == 0 {
		if !ok || len(r.loom.Uses[i].Part.Terminals) > 0 {
			r.fail("sound-name", r.sub(s, p), "no switch is called %q", name).Hint = r.nearest(name, r.loom.switchNames)
		}
		return At{}, false
	}
	k := switchIndex(r.loom.Uses[i].Part, inner)
	if k < 0 {
		r.fail("sound-name", r.sub(s, p), "%s has no switch %q", use, inner).Hint = r.nearest(name, r.loom.switchNames)
		return At{}, false
	}
	sw := &r.loom.Uses[i].Part.Switches[k]
	at := positionIndex(sw, position)
	if at >= 0 && sw.Proved >= 0 {
		r.fail("sound-name", r.sub(s, p), "%s is no switch that a player moves: it is proved with %s", name, sw.Positions[sw.Proved].Words)
		return At{}, false
	}
	if at < 0 {
		d := r.fail("sound-name", r.sub(s, p), "%s has no position %q: it has %s", name, position, positionList(sw))
		d.Hint = diag.Nearest(position, positionNames(sw))
		return At{}, false
	}
	return At{i, k, at}, true
}

// switchIndex finds a part's switch; a single one needs no name.
func switchIndex(p *part.Part, inner string) int {
	if inner == "" && len(p.Switches) == 1 {
		return 0
	}
	for k, s := range p.Switches {
		if s.Name == inner {
			return k
		}
	}
	return -1
}

// positionIndex finds a position by name, or by its number in order.
func positionIndex(s *part.Switch, text string) int {
	if i := s.Position(text); i >= 0 {
		return i
	}
	if n, err := strconv.Atoi(text); err == nil && n >= 1 && n <= len(s.Positions) {
		return n - 1
	}
	return -1
}

func positionNames(s *part.Switch) []string {
	out := make([]string, len(s.Positions))
	for i, p := range s.Positions {
		out[i] = p.Name
	}
	return out
}

func positionList(s *part.Switch) string { return strings.Join(positionNames(s), ", ") }

func (l *Loom) switchNames() []string {
	var out []string
	for i := range l.Uses {
		u := &l.Uses[i]
		for _, s := range u.Part.Switches {
			out = append(out, SwitchName(u, &s))
		}
	}
	return out
}

// SwitchName is a switch's name in a setting: the part's, and the switch's own
// where the part has several.
func SwitchName(u *Use, s *part.Switch) string {
	if len(u.Part.Switches) == 1 {
		return u.Name
	}
	return fmt.Sprintf("%s.%s", u.Name, s.Name)
}
