package proof

import (
	"slices"

	"loomwright/internal/part"
	"loomwright/internal/setting"
)

// Passage is what the output does while one switch travels to a neighbouring
// position.
type Passage struct {
	To       string `json:"to"`                 // the neighbouring setting
	Switch   string `json:"switch"`             // the switch that moves
	Quiet    Moment `json:"moment"`             // the worst moment
	Together bool   `json:"together,omitempty"` // only proved for poles that move together
}

// Moment is the worst that happens in travel, mildest first.
type Moment string

// The moments. Gap: no coil, but a track holds the output. Mute: hot is
// shorted. Pop: hot hangs in the air.
const (
	Smooth Moment = "smooth"
	Gap    Moment = "gap"
	Mute   Moment = "mute"
	Pop    Moment = "pop"
)

var momentOrder = []Moment{Smooth, Gap, Mute, Pop}

// maxSkewPoles bounds the mixes of poles that are tried one by one: 3^4 = 81.
const maxSkewPoles = 4

// travel fills in the passages between all neighbouring settings.
func (p *prover) travel() {
	for i := range p.rows {
		for sw := range p.g.Switches {
			p.passages(i, sw)
		}
	}
}

// passages proves the way from a row to its neighbours along one switch. The
// way back is the same, so the earlier row's result serves the later one.
func (p *prover) passages(row, sw int) {
	s := &p.g.Switches[sw]
	if s.Proved >= 0 {
		return
	}
	at := p.rows[row].Setting.At
	last := len(s.Positions) - 1
	next := at[sw] + 1
	if next > last {
		if !s.Around || last < 2 {
			return
		}
		next = 0
	}
	there := slices.Clone(at)
	there[sw] = next
	other := setting.Index(p.g, there)
	worst, together := p.passage(at, there, sw)
	p.addPassage(row, Passage{p.rows[other].Name, s.Name, worst, together})
	p.addPassage(other, Passage{p.rows[row].Name, s.Name, worst, together})
}

func (p *prover) addPassage(row int, way Passage) {
	p.rows[row].Travel = append(p.rows[row].Travel, way)
}

// passage returns the worst moment on the way between two positions of a
// switch, over every mix of poles that have not yet moved, are between, and
// have moved.
func (p *prover) passage(from, to []int, sw int) (Moment, bool) {
	still := p.stillGroups(from, sw)
	poles := movingPoles(p.g.Switches[sw].Contacts, from[sw], to[sw])
	stages := poleStages(p.g.Switches[sw].Travel, poles)
	worst := Smooth
	try := func(groups [][]int) { worst = Worse(worst, p.moment(groups)) }
	if skew := p.g.Switches[sw].Skew; !skew || len(poles) > maxSkewPoles {
		for k := range stages.count() {
			try(stages.together(slices.Clone(still), k))
		}
		return worst, skew
	}
	stages.mixes(still, try)
	return worst, false
}

// Worse returns the worse of two moments; the empty moment is the mildest.
func Worse(a, b Moment) Moment {
	if slices.Index(momentOrder, b) > slices.Index(momentOrder, a) {
		return b
	}
	return a
}

// moment is the worst that the output can do with these contacts closed,
// whatever the unknown leads are.
func (p *prover) moment(groups [][]int) Moment {
	worst := Smooth
	for _, leads := range p.readings {
		n := p.draw(&p.spare[0], slices.Values(groups), p.full, leads)
		worst = Worse(worst, momentOf[n.output()])
	}
	return worst
}

var momentOf = map[Output]Moment{Sounding: Smooth, Shorted: Mute, Held: Gap, Open: Pop}

// stillGroups are the contacts of all other switches.
func (p *prover) stillGroups(at []int, moving int) [][]int {
	var out [][]int
	for i := range p.g.Switches {
		if i == moving {
			continue
		}
		for _, pole := range p.g.Switches[i].Contacts {
			out = append(out, pole[at[i]]...)
		}
	}
	return out
}

// poleWay is one pole's contacts before, between and after.
type poleWay struct{ from, to [][]int }

func movingPoles(contacts [][][][]int, from, to int) []poleWay {
	out := make([]poleWay, len(contacts))
	for i, pole := range contacts {
		out[i] = poleWay{pole[from], pole[to]}
	}
	return out
}

// stageList holds, for each pole, the contacts in each stage of its way: first
// where it was, last where it goes, between them what its travel makes of it.
type stageList [][][][]int

func poleStages(t part.Travel, poles []poleWay) stageList {
	out := make(stageList, len(poles))
	for i, w := range poles {
		out[i] = append(out[i], w.from)
		if sameGroups(w.from, w.to) {
			continue // this pole stands still
		}
		if t != part.MakeFirst {
			out[i] = append(out[i], common(w.from, w.to))
		}
		if t != part.BreakFirst {
			out[i] = append(out[i], append(slices.Clone(w.from), w.to...))
		}
		out[i] = append(out[i], w.to)
	}
	return out
}

func sameGroups(a, b [][]int) bool { return slices.EqualFunc(a, b, slices.Equal[[]int]) }

// count is the number of stages of the poles that move.
func (s stageList) count() int {
	n := 0
	for _, pole := range s {
		n = max(n, len(pole))
	}
	return n
}

// together closes the contacts of all poles in the same stage.
func (s stageList) together(groups [][]int, stage int) [][]int {
	for _, pole := range s {
		groups = append(groups, pole[min(stage, len(pole)-1)]...)
	}
	return groups
}

// mixes tries every combination of the poles' stages; try keeps no groups.
func (s stageList) mixes(groups [][]int, try func([][]int)) {
	if len(s) == 0 {
		try(groups)
		return
	}
	for _, stage := range s[0] {
		s[1:].mixes(append(groups, stage...), try)
	}
}

// common is what stays joined while contacts break before they make: the
// terminals that both positions join.
func common(from, to [][]int) [][]int {
	var out [][]int
	for _, a := range from {
		for _, b := range to {
			var both []int
			for _, t := range a {
				if slices.Contains(b, t) {
					both = append(both, t)
				}
			}
			if len(both) > 1 {
				out = append(out, both)
			}
		}
	}
	return out
}
