package sheet

import (
	"slices"

	"loomwright/internal/loom"
	"loomwright/internal/sound"
)

// folded writes a sound as a player says it: a pickup's name for its customary
// full sound, its coils only where it is not full.
func folded(l *loom.Loom, e sound.Expr) sound.Expr {
	e.Kids = slices.Clone(e.Kids)
	for i, k := range e.Kids {
		e.Kids[i] = folded(l, k)
	}
	for i := range l.Uses {
		u := &l.Uses[i]
		if len(u.Part.Coils) < 2 {
			continue
		}
		full := l.FullSound(u.Name)
		e = foldOne(e, full, sound.Coil(u.Name, false))
		e = foldOne(e, full.Reverse(), sound.Coil(u.Name, true))
	}
	return e.Canon()
}

// foldOne replaces one pickup's full sound by its name, whole or as part of a
// longer chain of the same kind.
func foldOne(e, full, name sound.Expr) sound.Expr {
	if sound.Equal(e, full) {
		return name
	}
	if e.Op != full.Op || e.Op != sound.Series && e.Op != sound.Parallel {
		return e
	}
	rest := slices.Clone(e.Kids)
	for _, k := range full.Kids {
		at := slices.IndexFunc(rest, func(r sound.Expr) bool { return sound.Equal(r, k) && r.Unsure == k.Unsure })
		if at < 0 {
			return e
		}
		rest = slices.Delete(rest, at, at+1)
	}
	return sound.In(e.Op, append(rest, name)...)
}
