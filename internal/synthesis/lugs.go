package synthesis

import (
	"loomwright/internal/sound"
)

// usualWires is the most wires that a lug takes with ease (common practice, no
// source).
const usualWires = 3

// roomy reports whether a terminal takes any number of wires: a case, a plate,
// a splice.
func (t *task) roomy(x int) bool {
	switch t.g.Terms[x].Kind {
	case "case", "plate":
		return true
	}
	return t.g.Loom.Uses[t.g.Terms[x].Use].Part.Class == "splice"
}

// isLug reports whether a terminal is one that other wires go to; leads are
// wires themselves.
func (t *task) isLug(x int) bool { return t.g.Terms[x].Kind != "lead" }

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
