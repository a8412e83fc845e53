// Package drawing turns a placed loom into a drawing that can be soldered from:
// every wire routed in a lane of its own, with its colour and solder step at
// both ends, on parts drawn to scale from the solder side.
package drawing

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"loomwright/internal/diag"
	"loomwright/internal/place"
	"loomwright/internal/proof"
	"loomwright/internal/route"
	"loomwright/internal/scene"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// Codes of this package's findings.
var Codes = []diag.Code{
	{Code: "draw-lane", Severity: diag.Warning, Says: "the drawing found no free lane for a wire", Notice: "two wires are drawn too near one another, or one is left out"},
}

// Grounds says how ground is drawn.
type Grounds int

// Ground as the wires that are soldered; or wires from a lug to its own case and
// from pickups, and marks for the rest.
const (
	AsWires Grounds = iota
	AsMarks
)

// Page is the sheet that a drawing is put on.
type Page int

// The pages: as large as the drawing needs; A4 or Letter, lying or standing as
// the drawing does.
const (
	Fit Page = iota
	A4
	Letter
)

// Options choose what is drawn. The zero value is the whole loom as wired.
type Options struct {
	Setting  *setting.Setting // whose live path is lit; nil: none
	LiveRuns []int            // runs that carry the sound in that setting
	Steps    []int            // solder step of each run; nil: file order from 1
	Grounds  Grounds
	Previous *Saved // an earlier drawing of the loom: what can stay, stays
	Front    bool   // mirrored, as seen through the guitar from the front
	Page     Page
	Rows     []proof.Row // settings whose chains of coils stand under the drawing; nil: none
}

// Drawing is a loom drawn. Coordinates are mm of the plan, before it is put on
// a page.
type Drawing struct {
	Graph     *wiring.Graph
	Plan      *place.Plan
	Wires     []Wire
	Marks     []Mark
	Touches   []Touch
	Tags      []Tag
	Crossings []Crossing
	Options   Options
	Cost      float64
	Box       scene.Rect // of all that is drawn, with a little room
	effort    int
	joints    []Joint
	soldered  setting.Nets
	names     [][]place.Line // of parts
	labels    map[int]label  // of lugs, by terminal
	tails     map[tail]int   // steps that join what an earlier one left free
	flows     map[int]flow   // by strand, when a setting is shown
}

// Wire is one piece of wire in its lane.
type Wire struct {
	Run, Step int
	Strand    int
	Look      Look
	A, B      string        // what it joins, in the loom's words
	Points    []scene.Point // corners of its lane, from A to B
	lane      []scene.Point // as the router has it: without eased jogs
	Mouth     *scene.Point  // of a pickup's lead: where it leaves its jacket
	Root      *scene.Point  // of a component's lead: where it leaves the body, short of its bend
	Tap       [2]bool       // its ends that lie on a cable
	Outline   scene.Outline
	box       scene.Rect // of its lane
	Length    float64    // mm as drawn
	Clean     bool       // it has its lane to itself
	far       bool       // the far tail of a pair's second wire
	with      int        // of a pair's first wire: strand of the second; −1
	bared     [2]float64 // of a screened cable: of a pair: mm to where its tails part
	stub      bool
}

// Crossing is where one wire passes over another.
type Crossing struct {
	At          scene.Point
	Over, Under int // wires
}

// Draw routes the wires of a loom on the most promising plans and keeps the best.
func Draw(g *wiring.Graph, plans []place.Plan, o Options) (Drawing, diag.List) {
	if o.Steps == nil {
		o.Steps = fileOrder(len(g.Runs))
	}
	best := bestDrawing(g, plans, o)
	if best == nil {
		return Drawing{}, nil
	}
	return *best, best.findings()
}

// careful is how many plans are routed with care, mostCareful while the best
// has flaws, and secondChance how much dearer one may look in a quick routing
// for that.
const (
	careful      = 3
	mostCareful  = 6
	secondChance = 1.8
	quickEffort  = 600_000
	mostEffort   = 3_000_000
)

// bestDrawing routes all plans quickly, and with care those that came out best,
// at each of the router's prices.
func bestDrawing(g *wiring.Graph, plans []place.Plan, o Options) *Drawing {
	if len(plans) == 1 && o.Previous != nil {
		d := newDrawing(g, &plans[0], o, route.Options{})
		d.finish()
		return d
	}
	var best *Drawing
	spent, least := 0, math.Inf(1)
	for i, p := range promising(g, plans, o) {
		if i >= careful && least < best.Cost+perFlaw {
			break
		}
		for _, prices := range []route.Prices{route.Usual, route.Detours} {
			if best != nil && spent > mostEffort {
				return best
			}
			d := newDrawing(g, p, o, route.Options{Prices: prices})
			spent += d.effort
			if d.Cost >= least {
				continue // flaws would only add to it
			}
			if cost := d.finish(); cost < least {
				best, least = d, cost
			}
		}
	}
	return best
}

// promising are the plans that come out best in a quick routing.
func promising(g *wiring.Graph, plans []place.Plan, o Options) []*place.Plan {
	if len(plans) == 1 {
		return []*place.Plan{&plans[0]}
	}
	quick := make([]*Drawing, len(plans))
	for i := range plans {
		quick[i] = newDrawing(g, &plans[i], o, route.Options{Quick: true, Effort: quickEffort})
	}
	slices.SortStableFunc(quick, func(a, b *Drawing) int { return cmp.Compare(a.Cost, b.Cost) })
	var out []*place.Plan
	for i, q := range quick {
		if i < mostCareful && (i == 0 || q.Cost <= quick[0].Cost*secondChance) {
			out = append(out, q.Plan)
		}
	}
	return out
}

func fileOrder(n int) []int {
	steps := make([]int, n)
	for i := range steps {
		steps[i] = i + 1
	}
	return steps
}

// newDrawing routes one plan.
func newDrawing(g *wiring.Graph, p *place.Plan, o Options, effort route.Options) *Drawing {
	d := &Drawing{Graph: g, Plan: p, Options: o}
	b := newBoard(d)
	res := route.Route(&b.board, b.wires, effort)
	d.effort = res.Effort
	d.Cost = res.Cost + float64(res.Conflicts)*200 + float64(res.Crossings)*perCrossing + p.Awkward
	d.collect(b, res)
	return d
}

// What a drawing's readers pay for, beyond what the router counts, in mm.
const (
	perCrossing = 400
	perFlaw     = 10_000
)

// finish gives the wires their looks, and everything its words. It returns what
// the drawing costs its readers.
func (d *Drawing) finish() float64 {
	d.dress()
	d.tails = tailsOf(d.Graph, d.Options.Steps)
	slices.SortStableFunc(d.Wires, func(a, b Wire) int { return cmp.Compare(a.Step, b.Step) })
	d.bareCables()
	d.findCrossings()
	d.findJoints()
	d.placeNames()
	d.placeLabels()
	d.findFlows()
	d.findTouches()
	d.placeTouches()
	d.placeTags()
	d.crop()
	return d.Cost + perFlaw*float64(len(Lint(d)))
}

// cropRoom is left around the drawing, mm.
const cropRoom = 3

// crop finds how much of the plan the drawing takes.
func (d *Drawing) crop() {
	var r scene.Rect
	for i := range d.Plan.Parts {
		p := &d.Plan.Parts[i]
		r = r.Union(p.Box)
		for _, n := range d.names[i] {
			r = r.Union(n.Box())
		}
	}
	for _, p := range d.Plan.Panels {
		r = r.Union(p.Box).Union(d.panelLabel(p).Bounds())
	}
	for i := range d.Wires {
		r = r.Union(d.Wires[i].Outline.Bounds().Grow(halfWire))
	}
	for k := range d.Tags {
		r = r.Union(d.Tags[k].Box())
	}
	for k := range d.Marks {
		r = r.Union(d.Marks[k].Box())
	}
	for k := range d.Touches {
		r = r.Union(d.Touches[k].Tag.Box())
	}
	d.Box = r.Grow(cropRoom)
}

// findings reports wires without a lane.
func (d *Drawing) findings() diag.List {
	var list diag.List
	drawn := map[int]bool{}
	for _, w := range d.Wires {
		drawn[w.Strand] = true
		if !w.Clean {
			list.Add(diag.Diagnostic{Code: "draw-lane", Severity: diag.Warning, Span: d.Graph.Runs[w.Run].Span,
				Message: fmt.Sprintf("there is no free lane for the wire from %s to %s: it is drawn too near another", w.A, w.B)})
		}
	}
	for i, s := range d.Plan.Strands {
		if !drawn[i] && !d.marked(i) {
			list.Add(diag.Diagnostic{Code: "draw-lane", Severity: diag.Warning, Span: d.Graph.Runs[s.Run].Span,
				Message: "there is no lane for this wire: the drawing leaves it out", Hint: "place the parts farther apart with place:"})
		}
	}
	return list
}
