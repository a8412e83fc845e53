package build

import (
	"fmt"
	"strings"

	"loomwright/internal/loom"
	"loomwright/internal/wiring"
)

// describe puts a step in words.
func (o *order) describe(s *Step) {
	r := &o.g.Runs[s.Run]
	from, to := o.g.Terms[r.A].Name, o.g.Terms[r.B].Name
	switch {
	case r.Wire.Kind == loom.Touching:
		s.Do = fmt.Sprintf("Seat %s so that its metal touches %s.", from, to)
	case o.small(s.Run):
		s.Do = fmt.Sprintf("Lead of %s to %s.", o.smallName(r), o.bigEnd(r))
	case o.g.Terms[r.A].Kind == "lead":
		s.Do = fmt.Sprintf("Lead %s to %s.", from, to)
	case o.g.Terms[r.B].Kind == "lead":
		s.Do = fmt.Sprintf("Lead %s to %s.", to, from)
	default:
		s.Do = fmt.Sprintf("%s from %s to %s.", wireWords(r.Wire), from, to)
	}
	s.Do += o.endWords(s)
	s.Notes = o.notes(s, r)
}

// wireWords names a wire at the start of a sentence.
func wireWords(w loom.Wire) string {
	words := []string{}
	if w.Colour != "" {
		words = append(words, w.Colour)
	}
	switch w.Kind {
	case loom.Bare:
		words = append(words, "bare wire")
	case loom.Screened:
		words = append(words, "screened wire")
	default:
		words = append(words, "wire")
	}
	if w.Size.Text != "" {
		words = append(words, w.Size.Text)
	}
	s := strings.Join(words, " ")
	return strings.ToUpper(s[:1]) + s[1:]
}

func (o *order) smallName(r *wiring.Run) string {
	for _, t := range []int{r.A, r.B} {
		if isSmall(o.use(t)) {
			return o.g.Terms[t].Name
		}
	}
	return ""
}

func (o *order) bigEnd(r *wiring.Run) string {
	if isSmall(o.use(r.A)) {
		return o.g.Terms[r.B].Name
	}
	return o.g.Terms[r.A].Name
}

func isSmall(u *loom.Use) bool {
	return u != nil && (u.Part.Class == "capacitor" || u.Part.Class == "resistor" || u.Part.Class == "bleed")
}

// endWords says what is done at each end that is not simply soldered.
func (o *order) endWords(s *Step) string {
	var words []string
	for _, e := range s.Ends {
		name := o.g.Terms[e.Term].Name
		switch e.Work {
		case Hook:
			words = append(words, fmt.Sprintf("Hook it through %s and leave that joint: another wire comes there.", name))
		case Again:
			words = append(words, fmt.Sprintf("%s is heated a second time: be quick, hold the first wire still.", name))
		}
	}
	if len(words) == 0 {
		return ""
	}
	return " " + strings.Join(words, " ")
}

// notes tell what to mind (common practice, no source).
func (o *order) notes(s *Step, r *wiring.Run) []string {
	var out []string
	for _, e := range s.Ends {
		if e.Work == Case {
			out = append(out, "Scuff the case, tin it with a big hot tip, then join; a few seconds, and let the part cool.")
			break
		}
	}
	if o.small(s.Run) {
		out = append(out, "Clip something cold on the lead between joint and body: heat hurts capacitors.")
	}
	if r.Wire.Sleeved || r.Wire.Kind == loom.Bare && !o.onCase(s.Run) {
		out = append(out, "Slip the sleeving on before the second end.")
	}
	if r.Wire.Kind == loom.Screened {
		out = append(out, o.braidNote(r))
	}
	return out
}

func (o *order) braidNote(r *wiring.Run) string {
	var ends []string
	for _, l := range o.g.Links {
		if r.Braid >= 0 && (l.A == r.Braid || l.B == r.Braid) {
			ends = append(ends, o.g.Terms[l.A+l.B-r.Braid].Name)
		}
	}
	switch len(ends) {
	case 0:
		return "Cut the braid back at both ends; no strand may touch the core."
	case 1:
		return fmt.Sprintf("Solder the braid to %s, cut it back at the other end; no strand may touch the core.", ends[0])
	}
	return fmt.Sprintf("Solder the braid to %s; no strand may touch the core.", strings.Join(ends, " and "))
}
