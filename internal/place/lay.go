package place

import (
	"cmp"
	"slices"

	"loomwright/internal/diag"
	"loomwright/internal/wiring"
)

// Codes of this package's findings.
var Codes = []diag.Code{
	{Code: "place-overlap", Severity: diag.Warning, Says: "two parts are placed over one another", Notice: "the drawing shows one on top of the other"},
	{Code: "place-turn", Severity: diag.Warning, Says: "a part is placed with a turn that is no whole number of quarters", Notice: "the nearest quarter is drawn"},
}

// Options choose among layouts. The zero value is the usual.
type Options struct {
	Plans int                   // how many plans to return, best first; 0: sixteen, fewer of a large loom
	Keep  map[string][3]float64 // places from an earlier drawing: x, y, quarter turns
}

// Lay gives every part of a loom a place: by rule, but for those that the loom
// file places itself. It returns a few plans, the most promising first; the
// drawing keeps the one that is wired best.
func Lay(g *wiring.Graph, o Options) ([]Plan, diag.List) {
	base := newLayout(g)
	list := base.fix()
	base.keep(o.Keep)
	var done []*layout
	templates := base.templates()
	if base.settled() {
		templates = templates[:1]
	}
	for _, t := range templates {
		l := base.copy()
		l.template = t
		l.arrange(t)
		l.turnAll()
		l.arrange(t)
		l.turnAll()
		done = append(done, l)
	}
	rank(done)
	if pots := len(base.of(rolePot)); pots <= mostTurned {
		for _, l := range done[:min(len(done), varied)] {
			done = append(done, l.turned()...)
		}
		rank(done)
	}
	var plans []Plan
	for _, l := range done[:min(len(done), cmp.Or(o.Plans, base.usualPlans()))] {
		l.placeSmall()
		l.separate()
		plans = append(plans, l.plan())
	}
	slices.SortStableFunc(plans, func(a, b Plan) int { return cmp.Compare(a.Cost, b.Cost) })
	return plans, append(list, base.overlaps()...)
}

// usualPlans is how many plans are worth routing: fewer of a large loom.
func (l *layout) usualPlans() int { return min(max(400/max(len(l.links), 1), 1), 16) }

// rank sorts layouts, the most promising first.
func rank(all []*layout) {
	for _, l := range all {
		l.worth = l.total()
	}
	slices.SortStableFunc(all, func(a, b *layout) int { return cmp.Compare(a.worth, b.worth) })
}

// varied is of how many layouts the turns of pots are varied, mostTurned up to
// how many pots.
const (
	varied     = 2
	mostTurned = 8
)

// turned are layouts that differ from this one in the turn of one pot.
func (l *layout) turned() []*layout {
	var out []*layout
	for _, i := range l.of(rolePot) {
		for _, t := range l.items[i].turns {
			if t == l.items[i].turn {
				continue
			}
			v := l.copy()
			v.items[i].turn = t
			v.arrange(l.template)
			out = append(out, v)
		}
	}
	return out
}

// settled reports whether every part but small ones has its place already.
func (l *layout) settled() bool {
	for i := range l.items {
		if it := &l.items[i]; !it.fixed && it.solid() && it.role != roleGround {
			return false
		}
	}
	return true
}

func (l *layout) copy() *layout {
	out := *l
	out.items = slices.Clone(l.items)
	return &out
}

// total is the estimate with what does not fit on a page.
func (l *layout) total() float64 { return l.cost() + l.offPage() + l.untidy() }

// A page's room for the drawing, mm: A4 lying, or standing, less margins, title
// and legend.
const (
	pageLong  = 262.0
	pageShort = 158.0
	tallLong  = 232.0
	tallShort = 178.0
	perOff    = 6.0
)

func (l *layout) offPage() float64 {
	box := l.bounds()
	over := func(w, h float64) float64 {
		return perOff * (max(0, box.Width()-w) + max(0, box.Height()-h))
	}
	return min(over(pageLong, pageShort), over(tallShort, tallLong)+20)
}
