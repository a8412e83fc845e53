package drawing

import (
	"fmt"

	"loomwright/internal/route"
	"loomwright/internal/scene"
)

// Mark is a ground mark: the end of a wire that is drawn no farther, with the
// wire's step.
type Mark struct {
	Run, Step int
	Term      int
	At        scene.Point // where it is soldered
	Out       int         // heading in quarter turns clockwise from right
	To        string      // the other end
}

// Sizes of a mark, mm: the stem from the joint, the bars, the tag.
const (
	markStem  = 3.2
	markBars  = 2.2
	markWide  = 4.4
	markReach = markStem + markBars + 0.6 + tagHeight
)

// Box is the place that a mark takes, with its tag.
func (m *Mark) Box() scene.Rect {
	out, side := m.out(), m.out().Perp()
	half := max(markWide, m.tag().Box().Width()) / 2
	if m.Out%2 == 0 {
		half = max(markWide, tagHeight) / 2
	}
	reach := markReach
	if m.Out%2 == 0 {
		reach += m.tag().Box().Width() - tagHeight
	}
	return segmentBox(m.At.Add(side.Mul(half)), m.At.Add(out.Mul(reach)).Sub(side.Mul(half)))
}

func (m *Mark) out() scene.Point { return scene.Toward(90 * float64(m.Out)) }

// tag is the mark's step, beyond its bars.
func (m *Mark) tag() *Tag {
	t := &Tag{Step: fmt.Sprint(m.Step), Wire: -1}
	w, x := t.widths()
	reach := markStem + markBars + 0.6 + tagHeight/2
	if m.Out%2 == 0 {
		reach += (w + x - tagHeight) / 2
	}
	t.At = m.At.Add(m.out().Mul(reach))
	return t
}

// placeMarks finds room for the ground marks before wires are routed, and keeps
// wires and joints off them.
func (b *board) placeMarks() {
	d := b.d
	for i := range d.Plan.Strands {
		if !d.marked(i) {
			continue
		}
		s := &d.Plan.Strands[i]
		step := d.Options.Steps[s.Run]
		b.mark(Mark{Run: s.Run, Step: step, Term: s.A.Term, To: d.endName(s.B)})
		b.mark(Mark{Run: s.Run, Step: step, Term: s.B.Term, To: d.endName(s.A)})
	}
}

// mark puts one mark where it is least in the way.
func (b *board) mark(m Mark) {
	s := &b.d.Plan.Spots[m.Term]
	if s.Part < 0 {
		return
	}
	best, cost := m, 1e18
	for q := range 4 {
		if s.Exits&(1<<q) == 0 {
			continue
		}
		m.Out = q
		for k, at := range b.markPlaces(m.Term, q) {
			m.At = at
			if c := b.markCost(&m) + float64(k)*0.5; c < cost {
				best, cost = m, c
			}
		}
	}
	b.d.Marks = append(b.d.Marks, best)
	b.board.Labels = append(b.board.Labels, route.Label{Box: best.Box(), Hard: true})
	if z, ok := b.zone[m.Term]; ok {
		b.board.Zones[z].Holes = append(b.board.Zones[z].Holes, around(best.At, 1.7))
	}
}

// markPlaces lists where on a terminal a mark can be soldered: along the rim of
// a case, or at the lug.
func (b *board) markPlaces(term, q int) []scene.Point {
	s := &b.d.Plan.Spots[term]
	if !s.InCase {
		return []scene.Point{s.At}
	}
	z := &b.board.Zones[b.zone[term]]
	var places []scene.Point
	for _, side := range []float64{0, 3.4, -3.4, 6.8, -6.8} {
		if at, ok := z.Rim(route.Dir(q), side); ok {
			places = append(places, at)
		}
	}
	return places
}

// markCost weighs what a mark would lie on.
func (b *board) markCost(m *Mark) float64 {
	box := m.Box()
	cost := 0.0
	if !b.board.Box.Contains(box) {
		cost += 1000
	}
	for i := range b.d.Plan.Parts {
		p := &b.d.Plan.Parts[i]
		if i != b.d.Plan.Spots[m.Term].Part && p.Box.Grow(3).Overlaps(box) {
			cost += 400
		}
	}
	for _, l := range b.board.Labels {
		if l.Box.Grow(0.5).Overlaps(box) {
			cost += 300
		}
	}
	for t := range b.d.Plan.Spots {
		if s := &b.d.Plan.Spots[t]; t != m.Term && s.Part >= 0 && !s.InCase && around(s.At, 2.5).Overlaps(box) {
			cost += 300
		}
	}
	return cost + b.inTheWay(box)
}

// inTheWay counts strands whose straight line a mark would stand on.
func (b *board) inTheWay(box scene.Rect) float64 {
	n := 0.0
	for i := range b.d.Plan.Strands {
		s := &b.d.Plan.Strands[i]
		if s.Core >= 0 || b.d.marked(i) || s.A.Term < 0 || s.B.Term < 0 {
			continue
		}
		p, q := b.d.Plan.Spots[s.A.Term].At, b.d.Plan.Spots[s.B.Term].At
		for t := 0.0; t <= 1; t += 0.02 {
			if around(p.Lerp(q, t), 0.1).Overlaps(box) {
				n += 4
				break
			}
		}
	}
	return n
}

// paintMark is a ground sign (after IEC 60617-02-15-01, earth) on its joint.
func (d *Drawing) paintMark(i int) scene.Group {
	m := &d.Marks[i]
	g := scene.Group{ID: fmt.Sprintf("mark-%d", i+1), Class: "mark", Title: m.title(d),
		Data: map[string]string{"run": fmt.Sprint(m.Run), "step": fmt.Sprint(m.Step)}}
	out, side := m.out(), m.out().Perp()
	line := scene.Segment(m.At, m.At.Add(out.Mul(markStem)))
	for k, half := range []float64{2.1, 1.35, 0.6} {
		at := m.At.Add(out.Mul(markStem + float64(k)*markBars/2))
		line = append(line, scene.Segment(at.Sub(side.Mul(half)), at.Add(side.Mul(half)))...)
	}
	g.Items = append(g.Items, scene.Path{Outline: line, Stroke: pen(ink, 0.6)})
	g.Items = append(g.Items, solderDot(m.At)...)
	g.Items = append(g.Items, paintSleeve(m.tag(), m.tag().At))
	if d.Options.Setting != nil {
		g.Fade = fadeRest
	}
	return g
}

func (m *Mark) title(d *Drawing) string {
	name := d.Graph.Terms[m.Term].Name
	return fmt.Sprintf("ground wire from %s to %s, step %d", name, m.To, m.Step)
}
