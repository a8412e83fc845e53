package synthesis

import (
	"slices"

	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/sound"
	"loomwright/internal/wiring"
)

// sources lists the coils, and the capacitors and resistors that are no
// controls.
func (t *task) sources() {
	for i := range t.g.Coils {
		c := &t.g.Coils[i]
		winding, pole := customary(t.g, i)
		sign := int(winding) * int(pole)
		t.coils = append(t.coils, sounder{element{name: c.Name, a: c.Start, b: c.Finish, sign: sign, hum: int(c.Winding)}, c.Use})
	}
	for _, c := range t.g.Caps {
		t.through(c, loom.ShortFarads, loom.NoCapacitor)
	}
	for _, r := range t.g.Resistors {
		t.through(r, loom.ShortOhms, loom.NoResistor)
	}
}

// through adds a part that a wanted sound goes through, named by its value.
func (t *task) through(two wiring.Two, short func(float64) string, unknown string) {
	if t.isThrough(two.Use) {
		t.coils = append(t.coils, sounder{element{name: valueName(two.Value.X, short, unknown), a: two.A, b: two.B, part: true, either: true}, two.Use})
	}
}

func valueName(x float64, short func(float64) string, unknown string) string {
	if x == 0 {
		return unknown
	}
	return short(x)
}

// customary are a coil's winding and pole; what nobody has told is taken as in
// ordinary pickups: wound alike, the poles of one pickup alternating. The answer
// says what it rests on.
func customary(g *wiring.Graph, coil int) (winding, pole part.Sign) {
	c := &g.Coils[coil]
	winding, pole = c.Winding, c.Pole
	if winding == 0 {
		winding = 1
	}
	if pole == 0 {
		pole = 1
		for k := coil - 1; k >= 0 && g.Coils[k].Use == c.Use; k-- {
			pole = -pole
		}
	}
	return winding, pole
}

// isThrough reports whether a wanted sound goes through a part's value.
func (t *task) isThrough(use int) bool {
	p := t.g.Loom.Uses[use].Part
	var value string
	switch {
	case len(p.Capacitors)+len(p.Resistors) != 1:
		return false
	case len(p.Capacitors) == 1:
		value = valueName(p.Capacitors[0].Value.X, loom.ShortFarads, loom.NoCapacitor)
	default:
		value = valueName(p.Resistors[0].Value.X, loom.ShortOhms, loom.NoResistor)
	}
	return slices.ContainsFunc(t.g.Loom.Sounds, func(s loom.Sound) bool { return namesValue(s.Hear, value) })
}

func namesValue(e sound.Expr, value string) bool {
	return e.Op == sound.Through && e.Name == value ||
		slices.ContainsFunc(e.Kids, func(k sound.Expr) bool { return namesValue(k, value) })
}
