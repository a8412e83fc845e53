package synthesis

import (
	"loomwright/internal/sound"
)

// usualWires is the most wires that a lug takes with ease (common practice, no
// source).
const usualWires = 3

// wiresPerLug is how many wires a lug may take.
func (t *task) wiresPerLug() int {
	if t.opt.WiresPerLug > 0 {
		return max(2, t.opt.WiresPerLug)
	}
	return usualWires
}

// roomy reports whether a terminal takes any number of wires: a case, a plate,
// a splice.
func (t *task) roomy(x int) bool {
	switch t.g.Terms[x].Kind {
	case "case", "plate":
		return t.isLug(x)
	}
	return t.classOf(x) == "splice"
}

// isLug reports whether a terminal is one that other wires go to. Leads are
// wires themselves; a point stands for a wire from elsewhere; nobody solders to
// a pickup's plate what has another place.
func (t *task) isLug(x int) bool {
	switch t.classOf(x) {
	case "pickup", "points", "output", "":
		return false
	case "splice":
		return true
	}
	kind := t.g.Terms[x].Kind
	return kind != "lead" && kind != "point"
}

// classOf is the class of a terminal's part; "" for a braid.
func (t *task) classOf(x int) string {
	if use := t.g.Terms[x].Use; use >= 0 {
		return t.g.Loom.Uses[use].Part.Class
	}
	return ""
}

// humWanted reports whether hum is to cancel in a sound.
func (t *task) humWanted(i int, x *tree) bool {
	coils := 0
	for _, e := range x.elements() {
		if !t.coils[e].part {
			coils++
		}
	}
	s := &t.g.Loom.Sounds[i]
	return s.Hear.Op != sound.Silent && (s.HumFree || t.opt.HumCancels && coils > 1)
}
