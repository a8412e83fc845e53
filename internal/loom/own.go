package loom

import (
	"loomwright/internal/diag"
	"loomwright/internal/part"
	"loomwright/internal/source"
)

// ownParts reads the part files that are written in the loom file itself: an
// unknown switch as its contacts were found by meter goes where the loom goes.
func (r *resolver) ownParts(list source.Map[part.File]) {
	for _, e := range list.Entries {
		p, more := part.Resolve(e.Key.Value, &e.Value)
		for i := range more {
			if more[i].Span.IsZero() {
				more[i].Span = e.Key.Span
			}
		}
		r.list = append(r.list, more...)
		r.ownPart[e.Key.Value] = p
	}
}

// part finds what "is" names: in the file, else in the library or on a shelf.
func (r *resolver) part(id string) (*part.Part, diag.List) {
	if p, ok := r.ownPart[id]; ok {
		return p, nil
	}
	return r.lib.Part(id)
}
