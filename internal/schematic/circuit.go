package schematic

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/loom"
	"loomwright/internal/scene"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// Circuit is a circuit diagram as a scene in mm, as large as it needs to be.
// Notes are what the picture leaves to words.
type Circuit struct {
	Scene scene.Scene
	Notes []string
	Lost  int // pins whose wire found no way: they carry the net's name instead
}

// Whole draws the circuit of the whole loom, its switches as contacts that
// stand at a setting. A loom without output gives an empty diagram.
func Whole(g *wiring.Graph, at setting.Setting) Circuit {
	if g.Hot < 0 {
		return Circuit{}
	}
	l, r, lost := lay(whole(g, at.At))
	c := l.draw(r, lost, fmt.Sprintf("Circuit: %s", title(g)))
	if len(g.Switches) > 0 {
		c.Notes = append(c.Notes, "Drawn with "+at.Name+".")
	}
	c.Notes = append(c.Notes, l.positions()...)
	c.Notes = append(c.Notes, l.linkNotes()...)
	c.Notes = append(c.Notes, l.screened(), l.leftOut(), l.untold(), l.metal())
	c.Notes = slices.DeleteFunc(c.Notes, func(s string) bool { return s == "" })
	return c
}

// Setting draws what one setting leaves of the circuit: what lies between hot
// and ground, closed contacts as wire.
func Setting(g *wiring.Graph, at setting.Setting) Circuit {
	if g.Hot < 0 {
		return Circuit{}
	}
	n := only(g, at.At)
	in := n.inCircuit()
	var out []string
	var kept []*symbol
	for i, s := range n.symbols {
		if in[i] || s.kind == jackSymbol {
			kept = append(kept, s)
		} else {
			out = append(out, s.title)
		}
	}
	n.symbols = kept
	l, r, lost := lay(n)
	c := l.draw(r, lost, fmt.Sprintf("Circuit with %s: %s", at.Name, title(g)))
	if len(out) > 0 {
		c.Notes = append(c.Notes, "No part in it: "+strings.Join(out, ", ")+".")
	}
	return c
}

func title(g *wiring.Graph) string {
	if g.Loom.Title == "" {
		return "a loom without a title"
	}
	return g.Loom.Title
}

// lay places the symbols and routes the wires, farther apart where a wire finds
// no way; in the end what is too much is taken out. It returns the pins whose
// wire found no way even so.
func lay(n *netlist) (*layout, *router, []int) {
	for clear := 2; ; clear += 2 {
		l := place(n, clear)
		r := newRouter(l)
		lost := r.route(l)
		l.unlinked = r.link(l)
		if len(lost)+len(l.unlinked) == 0 || clear > 6 {
			r, lost = r.squeeze(l, lost)
			return l, r, lost
		}
	}
}

// draw paints everything.
func (l *layout) draw(r *router, lost []int, title string) Circuit {
	items := r.paintWires(l)
	for i := range l.linked {
		items = append(items, r.paintLink(&l.linked[i]))
	}
	for _, s := range l.symbols {
		for i, p := range s.pins {
			if p.net == l.ground {
				items = append(items, groundMark(s.at(i), s.out(i)))
			}
		}
	}
	for _, s := range l.symbols {
		items = append(items, s.paint(l))
	}
	for _, s := range l.symbols {
		for i, p := range s.pins {
			if slices.Contains(lost, r.node(s.at(i))) {
				items = append(items, flag(s.at(i), s.out(i), p.net))
			}
		}
	}
	return crop(title, items, len(lost))
}

// flag names the net of a pin whose wire found no way, beyond the pin.
func flag(at, out gp, net int) scene.Item {
	d := scene.Pt(float64(out.x), float64(out.y))
	t := words(fmt.Sprintf("net %d", net), at.mm().Add(d.Mul(0.5)).Add(scene.Pt(0, d.Y)), pinSize, scene.Middle)
	switch out {
	case left:
		t.Anchor = scene.End
	case right:
		t.Anchor = scene.Start
	}
	t.Halo = scene.Halo{Color: scene.White, Width: 0.4}
	return t
}

// crop makes the scene as large as what is on it.
func crop(title string, items []scene.Item, lost int) Circuit {
	const margin = 1
	box := scene.Bounds(items).Grow(margin)
	return Circuit{Lost: lost, Scene: scene.Scene{Width: box.Width(), Height: box.Height(), Title: title,
		Items: []scene.Item{scene.Group{Place: scene.Moved(-box.Min.X, -box.Min.Y), Items: items}}}}
}

// positions lists the positions of every switch by number.
func (l *layout) positions() []string {
	var out []string
	for i := range l.g.Switches {
		sw := &l.g.Switches[i]
		if !slices.ContainsFunc(l.symbols, func(s *symbol) bool { return s.kind == poleSymbol && s.use == sw.Use }) {
			continue
		}
		var names []string
		for k, p := range sw.Positions {
			if number := fmt.Sprint(k + 1); p.Name == number {
				names = append(names, number)
			} else {
				names = append(names, number+" "+p.Name)
			}
		}
		out = append(out, fmt.Sprintf("%s: %s.", sw.Name, strings.Join(names, ", ")))
	}
	if len(out) > 0 {
		out = append(out, "The numbers in brackets are the positions in which a lug meets its common.")
	}
	return out
}

// screened lists the runs of screened cable.
func (l *layout) screened() string {
	var runs []string
	for i := range l.g.Runs {
		if r := &l.g.Runs[i]; r.Wire.Kind == loom.Screened {
			runs = append(runs, l.g.Terms[r.A].Name+" to "+l.g.Terms[r.B].Name)
		}
	}
	if len(runs) == 0 {
		return ""
	}
	return "Screened cable: " + strings.Join(runs, ", ") + "."
}

// leftOut names the poles, gangs and parts that are joined to nothing.
func (l *layout) leftOut() string {
	if len(l.unused) == 0 {
		return ""
	}
	return "Joined to nothing: " + strings.Join(l.unused, ", ") + "."
}

// untold names the leads of which nobody has told which coil end they are.
func (l *layout) untold() string {
	var names []string
	for _, u := range l.g.Unknown {
		names = append(names, l.g.Terms[u.Term].Name)
	}
	if len(names) == 0 {
		return ""
	}
	return "Not drawn, since nobody has told which coil ends they are: " + strings.Join(names, ", ") + "."
}

// metal lists the cases, shields and plates that lie on ground.
func (l *layout) metal() string {
	var names []string
	for _, t := range l.g.Grounds {
		if l.nets.Of[t] == l.ground && l.g.Terms[t].Use >= 0 {
			names = append(names, l.g.Terms[t].Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "On ground as well: " + strings.Join(names, ", ") + "."
}
