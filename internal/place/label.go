package place

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"loomwright/internal/scene"
)

// Label is a lug's name in its place: a line, or two where it is long.
type Label struct {
	At      scene.Point // its middle
	Lines   []string
	Upright bool // read from the right
	Dark    bool // stands on dark ground
	cost    float64
}

// LabelPitch is from one line of a label to the next, mm.
const LabelPitch = labelSize * 1.12

// LabelSize is the size of a lug's name, mm.
const LabelSize = labelSize

// Box is the place that a label takes.
func (w Label) Box() scene.Rect {
	x, y := w.size()
	return scene.Box(w.At.X-x/2, w.At.Y-y/2, x, y)
}

func (w Label) size() (x, y float64) {
	for _, s := range w.Lines {
		x = max(x, scene.TextWidth(s, labelSize, scene.Regular))
	}
	y = labelSize*0.92 + float64(len(w.Lines)-1)*LabelPitch
	if w.Upright {
		return y, x
	}
	return x, y
}

// Metal is the place that a lug takes, with its solder.
func (s *Spot) Metal() scene.Rect { return around2(s.At, s.Far).Grow(metalHalf) }

// metalHalf is half of what a lug's metal is wide, mm.
const metalHalf = 1.2

// Where a label may stand beside its lug: how far from its metal and moved
// along it, mm; what each costs beside the other.
var (
	labelGaps  = []float64{0.35, 0.9, 1.6, 2.4}
	labelMoves = []float64{0, -0.9, 0.9, -1.8, 1.8, -2.7, 2.7, -3.6, 3.6}
)

const (
	perGap    = 2.2
	perMove   = 0.9
	besideLug = 2.0 // at the side of a lug, not behind it
	beforeLug = 4.0
	twoLines  = 1.6
	upright   = 3.2
)

// Labels are the places for a lug's name beside it, the best first: behind the
// lug, then at its sides.
func (s *Spot) Labels() []Label {
	words := s.wordings()
	out := make([]Label, 0, len(words)*4*len(labelGaps)*len(labelMoves))
	for _, w := range words {
		for q := range 4 {
			out = s.labelsAt(out, w, scene.Toward(90*float64(q)))
		}
	}
	order := make([]int, len(out))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Or(cmp.Compare(out[a].cost, out[b].cost), a-b) })
	sorted := make([]Label, len(out))
	for i, k := range order {
		sorted[i] = out[k]
	}
	return sorted
}

// labelsAt adds the places of a wording at one side of the lug that are still
// beside it.
func (s *Spot) labelsAt(out []Label, w Label, side scene.Point) []Label {
	x, y := w.size()
	m := s.Metal()
	c, cost := m.Center(), w.cost+s.sideCost(side)
	reach := abs(side.X)*(m.Width()+x)/2 + abs(side.Y)*(m.Height()+y)/2
	along := abs(side.Y)*(m.Width()+x)/2 + abs(side.X)*(m.Height()+y)/2
	for _, gap := range labelGaps {
		for _, move := range labelMoves {
			if abs(move) < along-0.4 {
				w.At = c.Add(side.Mul(reach + gap)).Add(side.Perp().Mul(move))
				w.cost = cost + gap*perGap + abs(move)*perMove
				out = append(out, w)
			}
		}
	}
	return out
}

// wordings are the label in one line and in two, level and upright.
func (s *Spot) wordings() []Label {
	out := []Label{{Lines: []string{s.Label}}, {Lines: []string{s.Label}, Upright: true, cost: upright}}
	if words := strings.Fields(s.Label); len(words) == 2 && len(s.Label) > 3 {
		out = append(out, Label{Lines: words, cost: twoLines}, Label{Lines: words, Upright: true, cost: twoLines + upright})
	}
	return out
}

// sideCost is what a side of the lug costs: nothing behind it.
func (s *Spot) sideCost(side scene.Point) float64 {
	in := s.Far.Sub(s.At).Unit()
	switch in.X*side.X + in.Y*side.Y {
	case 1:
		return 0
	case -1:
		return beforeLug
	}
	return besideLug
}

// Gap is how far two boxes are apart, mm.
func Gap(a, b scene.Rect) float64 {
	return math.Hypot(max(0, a.Min.X-b.Max.X, b.Min.X-a.Max.X), max(0, a.Min.Y-b.Max.Y, b.Min.Y-a.Max.Y))
}

// nearer is by how much a label stands nearer to its lug than to others, mm.
const nearer = 0.3

// Nearest reports whether a label is nearer to its own lug than to any other.
func (p *Plan) Nearest(term int, box scene.Rect) bool {
	own := Gap(box, p.Spots[term].Metal())
	for t := range p.Spots {
		s := &p.Spots[t]
		if t == term || s.Part < 0 || s.InFan || s.InCase || s.Label == "" {
			continue
		}
		if Gap(box, s.Metal()) < own+nearer {
			return false
		}
	}
	return true
}
