package place

import (
	"cmp"
	"slices"
)

// template is one usual way to arrange controls: how many rows the pots stand
// in, and where the switches are.
type template struct {
	rows     int
	switches side
}

type side int

const (
	above side = iota
	before
	after
)

// Room between parts, mm. channel is between the pickups and the controls, and
// grows with the wires in it.
const (
	gapAcross   = 13.0
	perLink     = 1.5 // more for each link of the busier of two neighbours
	gapDown     = 21.0
	gapPickups  = 9.0
	gapOut      = 17.0
	channelBase = 13.0
	channelLane = 1.3  // more for each lead
	channelMore = 14.0 // more where leads are joined to one another
)

// templates lists the ways that fit this loom.
func (l *layout) templates() []template {
	pots, switches := len(l.of(rolePot)), len(l.of(roleSwitch))
	rows := []int{1}
	switch {
	case pots > 8:
		rows = []int{(pots + 4) / 5, (pots + 3) / 4}
	case pots > 3:
		rows = []int{2, 1}
	case pots == 3:
		rows = []int{1, 2}
	}
	sides := []side{after}
	if switches > 0 {
		sides = []side{above, before, after}
	}
	var out []template
	for _, r := range rows {
		for _, s := range sides {
			out = append(out, template{r, s})
		}
	}
	return out
}

// of lists the items of a role that the loom file does not place, in its order;
// pickups from the neck to the bridge where their places are known.
func (l *layout) of(r role) []int {
	var out []int
	for i := range l.items {
		if l.items[i].role == r && !l.items[i].fixed {
			out = append(out, i)
		}
	}
	if r == rolePickup {
		slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(l.fromBridge(b), l.fromBridge(a)) })
	}
	return out
}

func (l *layout) fromBridge(i int) float64 { return l.g.Loom.Uses[l.items[i].use].FromBridge }

// arrange gives pickups, controls and outputs their places by a template.
func (l *layout) arrange(t template) {
	order := l.of(rolePot)
	best, cost := slices.Clone(order), 1e18
	for p := range permutations(order) {
		l.set(t, p)
		if c := l.total(); c < cost-1e-9 {
			best, cost = slices.Clone(p), c
		}
	}
	l.set(t, best)
}

// permutations yields the orders to try: all of up to five, else the one given.
func permutations(order []int) func(func([]int) bool) {
	return func(yield func([]int) bool) {
		if len(order) > 5 || len(order) < 4 {
			yield(order)
			return
		}
		permute(slices.Clone(order), 0, yield)
	}
}

func permute(p []int, k int, yield func([]int) bool) bool {
	if k == len(p) {
		return yield(p)
	}
	for i := k; i < len(p); i++ {
		rotate(p[k : i+1])
		ok := permute(p, k+1, yield)
		rotateBack(p[k : i+1])
		if !ok {
			return false
		}
	}
	return true
}

// rotate moves the last to the front, rotateBack undoes it: orders come out
// in the order of a dictionary.
func rotate(p []int) {
	last := p[len(p)-1]
	copy(p[1:], p)
	p[0] = last
}

func rotateBack(p []int) {
	first := p[0]
	copy(p, p[1:])
	p[len(p)-1] = first
}
