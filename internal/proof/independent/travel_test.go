package independent_test

import (
	"fmt"
	"slices"
	"sort"
)

var moments = []string{"smooth", "gap", "mute", "pop"}

var momentOf = map[string]string{"sounding": "smooth", "held": "gap", "shorted": "mute", "open": "pop"}

// passage is the worst moment while one switch moves between two positions.
func (w *world) passage(at []int, sw, to int, readings []reading, memo map[string]string) string {
	s := w.switches[sw]
	var still [][]int
	for i, o := range w.switches {
		if i != sw {
			for _, pole := range o.poles {
				still = append(still, pole[at[i]]...)
			}
		}
	}
	worst := 0
	try := func(groups [][]int) {
		for _, r := range readings {
			worst = max(worst, slices.Index(moments, w.moment(groups, r, memo)))
		}
	}
	steps := s.stepsOf(at[sw], to)
	if !s.skew || len(s.poles) > 4 {
		for k := range steps[0] {
			groups := slices.Clone(still)
			for p := range steps {
				groups = append(groups, steps[p][k]...)
			}
			try(groups)
		}
		return moments[worst]
	}
	total := 1
	for _, st := range steps {
		total *= len(st)
	}
	for mix := range total {
		groups := slices.Clone(still)
		for rest, p := mix, 0; p < len(steps); p++ {
			groups = append(groups, steps[p][rest%len(steps[p])]...)
			rest /= len(steps[p])
		}
		try(groups)
	}
	return moments[worst]
}

// stepsOf lists for each pole the contacts that it goes through.
func (s lever) stepsOf(from, to int) [][][][]int {
	var out [][][][]int
	for _, pole := range s.poles {
		var both [][]int
		for _, a := range pole[from] {
			for _, b := range pole[to] {
				in := slices.DeleteFunc(slices.Clone(a), func(t int) bool { return !slices.Contains(b, t) })
				both = append(both, in)
			}
		}
		either := append(slices.Clone(pole[from]), pole[to]...)
		switch s.travel {
		case "break first":
			out = append(out, [][][]int{pole[from], both, pole[to]})
		case "make first":
			out = append(out, [][][]int{pole[from], either, pole[to]})
		default:
			out = append(out, [][][]int{pole[from], both, either, pole[to]})
		}
	}
	return out
}

func (w *world) moment(groups [][]int, r reading, memo map[string]string) string {
	piece, _ := flood(r.count, w.graph(groups, w.fullUp(), r))
	key := make([]byte, len(piece), len(piece)+1)
	for i, p := range piece {
		key[i] = byte(p)
	}
	key = append(key, byte(r.number))
	m, ok := memo[string(key)]
	if !ok {
		m = momentOf[w.circuit(groups, w.fullUp(), r).output()]
		memo[string(key)] = m
	}
	return m
}

// passages lists "switch to setting: moment" for the ways out of a setting.
func (w *world) passages(at []int, readings []reading, memo map[string]string) []string {
	var out []string
	for sw, s := range w.switches {
		if s.proved >= 0 {
			continue
		}
		for to := range s.positions {
			step := to - at[sw]
			ring := s.around && len(s.positions) > 2 && (step == len(s.positions)-1 || step == 1-len(s.positions))
			if step == 1 || step == -1 || ring {
				there := slices.Clone(at)
				there[sw] = to
				way := fmt.Sprint(min(to, at[sw]), max(to, at[sw]), sw, at[:sw], at[sw+1:]) // the same both ways
				if memo[way] == "" {
					memo[way] = w.passage(at, sw, to, readings, memo)
				}
				out = append(out, s.name+" to "+w.settingName(there)+": "+memo[way])
			}
		}
	}
	sort.Strings(out)
	return out
}
