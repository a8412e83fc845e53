package place

import (
	"loomwright/internal/loom"
	"loomwright/internal/scene"
)

// fanOf makes the slots of a pickup's leads: the library's column of places,
// as many as there are leads, around the mouth of the cable.
func (l *layout) fanOf(u int, f *form) *Fan {
	use := &l.g.Loom.Uses[u]
	leads := l.leadsOf(u)
	if len(use.Part.Coils) == 0 || len(leads) == 0 {
		return nil
	}
	var column []scene.Point
	for _, s := range f.spots {
		if s.Kind == "lead" {
			column = append(column, s.At)
		}
	}
	box := boxOf(column)
	fan := &Fan{Mouth: scene.Pt(box.Min.X-jacketTo, box.Center().Y), Leads: leads}
	top := fan.Mouth.Y - slotPitch*float64(len(leads)-1)/2
	for i := range leads {
		fan.Slots = append(fan.Slots, scene.Pt(box.Max.X, top+slotPitch*float64(i)))
	}
	return fan
}

// The fan of a cable: pitch of the slots, and how far the jacket ends before
// them (library/README.md), mm.
const (
	slotPitch = 3.0
	jacketTo  = 10.0
)

// leadsOf lists the terminals that a pickup's cable ends in.
func (l *layout) leadsOf(u int) []int {
	use := &l.g.Loom.Uses[u]
	var out []int
	if len(use.Leads) > 0 {
		for k, lead := range use.Leads {
			ref := loom.Ref{Use: u, Terminal: -1, Lead: k}
			if len(lead.Ends) > 0 {
				ref.Terminal = lead.Ends[0]
			}
			if t := l.g.Ref(ref); l.g.Terms[t].Kind == "lead" {
				out = append(out, t)
			}
		}
		return out
	}
	for i, t := range use.Part.Terminals {
		if t.Kind == "lead" {
			out = append(out, l.g.Term(u, i))
		}
	}
	return out
}
