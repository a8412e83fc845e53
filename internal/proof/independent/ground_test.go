package independent_test

import (
	"slices"
	"strings"
)

// view is what one setting looks like to the checks of whole looms.
type view struct {
	name   string
	c      *circuit
	output string
	coils  map[string]string
	knobs  []knobAnswer
	unsure bool
}

// findings says what is wrong with a loom: settings by code.
func (w *world) findings(views []view) map[string][]string {
	out := map[string][]string{}
	add := func(code string, bad []string) {
		if len(bad) > 0 {
			out[code] = append(out[code], strings.Join(bad, "; "))
		}
	}
	where := func(holds func(v view) bool) []string {
		var names []string
		for _, v := range views {
			if holds(v) {
				names = append(names, v.name)
			}
		}
		return names
	}
	all := where(func(view) bool { return true })
	add("hot-open", where(func(v view) bool { return v.output == "open" && !v.unsure }))
	sounding := len(where(func(v view) bool { return v.output == "sounding" })) > 0
	unused, hanging := map[string]bool{}, map[string]bool{}
	for _, k := range w.coils {
		pickup, _, _ := strings.Cut(k.name, ".")
		hangs := strings.Join(where(func(v view) bool { return v.coils[k.name] == "hanging" && !v.unsure }), "; ")
		if hangs != "" && !hanging[pickup+hangs] { // once for a pickup
			hanging[pickup+hangs] = true
			out["coil-hanging"] = append(out["coil-hanging"], hangs)
		}
		heard := where(func(v view) bool { return v.coils[k.name] == "heard" || v.unsure })
		if sounding && len(heard) == 0 && !unused[pickup] {
			unused[pickup] = true
			add("coil-unused", all)
		}
	}
	for _, name := range w.knobs {
		acts := where(func(v view) bool {
			return v.output == "shorted" || v.unsure || slices.ContainsFunc(v.knobs, func(a knobAnswer) bool { return a.knob == name })
		})
		if sounding && len(acts) == 0 {
			add("knob-dead", all)
		}
	}
	w.groundFindings(views, where, add)
	w.loose(func() { add("lead-loose", all) })
	return out
}

// groundFindings looks at each piece of metal that belongs on ground.
func (w *world) groundFindings(views []view, where func(func(view) bool) []string, add func(string, []string)) {
	solid := append(append(slices.Clone(w.metal), w.wires...), w.braids...)
	piece, _ := flood(len(w.names), solid)
	inside, _ := flood(len(w.names), w.metal)
	tied, soldered := map[int]int{}, w.soldered() // the first tied terminal of a piece
	var order []int
	for _, g := range w.grounds {
		if !slices.Contains(order, piece[g]) {
			order = append(order, piece[g])
		}
		for _, k := range w.coils {
			if inside[g] == inside[k.start] || inside[g] == inside[k.finish] {
				if _, seen := tied[piece[g]]; !seen {
					tied[piece[g]] = g
				}
			}
		}
	}
	for _, p := range order {
		t := slices.Index(piece, p)
		on := where(func(v view) bool { return v.c.piece[t] == v.c.piece[w.gnd] })
		hot := where(func(v view) bool { return v.c.piece[t] == v.c.piece[w.hot] && v.c.hot != v.c.gnd })
		off := where(func(v view) bool {
			return v.c.piece[t] != v.c.piece[w.gnd] && v.c.piece[t] != v.c.piece[w.hot]
		})
		lifted := where(func(v view) bool { return v.c.piece[t] != v.c.piece[w.gnd] })
		if g, tied := tied[p]; tied {
			if soldered[g] {
				add("cover-lifted", lifted)
			}
		} else {
			if len(on)+len(hot) == 0 {
				add("ground-missing", where(func(view) bool { return true }))
			}
			if len(on) > 0 && len(off) > 0 {
				add("ground-lost", off)
			}
			if len(hot) > 0 {
				add("ground-hot", hot)
			}
		}
	}
}

// soldered tells of each terminal whether something leads away from its metal
// inside the part: a run, an unknown lead, or a second coil.
func (w *world) soldered() []bool {
	inside, count := flood(len(w.names), w.metal)
	used, ends := make([]bool, count), make([]int, count)
	for _, pairs := range [][][2]int{w.wires, w.braids} {
		for _, p := range pairs {
			used[inside[p[0]]], used[inside[p[1]]] = true, true
		}
	}
	for _, m := range w.unknown {
		for _, t := range m.may {
			used[inside[t]] = true
		}
	}
	for _, k := range w.coils {
		ends[inside[k.start]]++
		ends[inside[k.finish]]++
	}
	out := make([]bool, len(w.names))
	for t, p := range inside {
		out[t] = used[p] || ends[p] > 1
	}
	return out
}

// loose finds coils of which one end alone is soldered.
func (w *world) loose(add func()) {
	soldered := w.soldered()
	for _, k := range w.coils {
		if soldered[k.start] != soldered[k.finish] {
			add()
		}
	}
}
