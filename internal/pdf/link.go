package pdf

import (
	"fmt"
	"strings"

	"loomwright/internal/scene"
)

// link makes the box of a group clickable (12.5.6.5). Links to a scene's own
// groups are for pages and are left out.
func (p *painter) link(g scene.Group, st state) {
	if g.Link == "" || g.Link[0] == '#' {
		return
	}
	box := st.place.ApplyRect(g.Bounds())
	min, max := p.point(box.Min), p.point(box.Max)
	p.links = append(p.links, p.doc.add("<</Type /Annot /Subtype /Link /Border [0 0 0] /Rect [%.3f %.3f %.3f %.3f] /A <</S /URI /URI (%s)>>>>",
		min.X, max.Y, max.X, min.Y, address(g.Link)))
}

// address is a link in ASCII as a literal string takes it (7.3.4.2).
func address(link string) string {
	var out strings.Builder
	for _, c := range []byte(link) {
		switch {
		case c == '(' || c == ')' || c == '\\':
			out.Write([]byte{'\\', c})
		case c <= ' ' || c >= 0x7f:
			fmt.Fprintf(&out, "%%%02X", c)
		default:
			out.WriteByte(c)
		}
	}
	return out.String()
}
