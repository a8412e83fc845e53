package meter

import (
	"fmt"
	"strings"

	"loomwright/internal/fault"
	"loomwright/internal/units"
)

// Proof is the shortest list of readings that shows every fault which any
// offered reading shows, and what none can show.
type Proof struct {
	Name     string   `json:"name,omitempty"` // of the stage of work
	Before   []string `json:"before"`         // what comes before any reading
	Lines    []Line   `json:"lines"`
	Shortest bool     `json:"shortest"` // proved: no shorter list shows as much
	Shown    int      `json:"shown"`    // faults that the list shows
	Faults   int      `json:"faults"`   // of so many that can be
	Missed   []Missed `json:"missed,omitempty"`
	Harmless []Missed `json:"harmless,omitempty"` // change nothing, proved
}

// Missed is a fault that no offered reading shows, and why.
type Missed struct {
	Fault string `json:"fault"`
	Why   string `json:"why"`
}

// Alike are faults that no offered reading surely tells apart, and why.
type Alike struct {
	Faults []string `json:"faults"`
	Why    string   `json:"why"`
}

// Proof works the list out.
func (t *Table) Proof() Proof { return t.ProofOf(func(*fault.Fault) bool { return true }) }

// ProofOf is Proof for some of the faults.
func (t *Table) ProofOf(want func(*fault.Fault) bool) Proof {
	out := Proof{Before: Preparations(t.Options)}
	shows := t.shows(false)
	need := newSet(len(t.Cases))
	for c := 1; c < len(t.Cases); c++ {
		wanted := false
		for i := range t.Cases[c].Faults {
			wanted = wanted || want(&t.Cases[c].Faults[i])
		}
		if wanted {
			t.sort(c, shown(shows, c), need, &out)
		}
	}
	chosen, proved := cover(shows, need)
	out.Shortest = proved
	for _, i := range chosen {
		l := t.Line(&t.Asks[i])
		l.RulesOut = t.rulesOut(shows[i], need)
		need = need.without(shows[i])
		out.Lines = append(out.Lines, l)
	}
	for _, h := range t.Harmless {
		out.Harmless = append(out.Harmless, Missed{h.Words, h.Why})
	}
	return out
}

// sort puts a case among those to show, those that cannot be shown, or those
// that need not be.
func (t *Table) sort(c int, shown bool, need set, out *Proof) {
	faults := t.Cases[c].Faults
	switch {
	case shown:
		need.add(c)
		out.Faults += len(faults)
		out.Shown += len(faults)
	case t.Cases[c].Idle:
		for _, f := range faults {
			out.Harmless = append(out.Harmless, Missed{f.Words, fault.SameWork})
		}
	default:
		out.Faults += len(faults)
		out.Missed = append(out.Missed, t.missed(c)...)
	}
}

// rulesOut names what a reading shows that those before it did not.
func (t *Table) rulesOut(shows, left set) []string {
	var out []string
	for c := range t.Cases {
		if shows.has(c) && left.has(c) {
			for _, f := range t.Cases[c].Faults {
				out = append(out, f.Words)
			}
		}
	}
	return out
}

func shown(shows []set, c int) bool {
	for _, s := range shows {
		if s.has(c) {
			return true
		}
	}
	return false
}

// shows lists for every ask the cases that it shows: what it reads cannot be
// read on a right loom. What is listened to is worked out for every case, or
// only for those that nothing else shows.
func (t *Table) shows(every bool) []set {
	out := make([]set, len(t.Asks))
	for i := range t.Asks {
		out[i] = newSet(len(t.Cases))
		if t.Asks[i].Kind == Darkens {
			continue
		}
		col := &t.columns[i]
		whole := col.Shown(0)
		for c := range t.Cases {
			if !whole.Fits(col.Shown(c)) {
				out[i].add(c)
			}
		}
	}
	for c := 1; c < len(t.Cases); c++ {
		if !every && shown(out, c) {
			continue
		}
		for i := range t.Asks {
			if t.Asks[i].Kind == Darkens && !t.Shown(&t.Asks[i], 0).Fits(t.Shown(&t.Asks[i], c)) {
				out[i].add(c)
			}
		}
	}
	return out
}

// missed explains why no reading shows a case.
func (t *Table) missed(c int) []Missed {
	best, least := -1, 1.0
	for i := range t.Asks {
		if k := t.Asks[i].Kind; k != Ohms && k != Farads {
			continue
		}
		if o := overlap(t.Asks[i].Kind, t.columns[i].Shown(0), t.columns[i].Shown(c)); o < least-1e-9 {
			best, least = i, o
		}
	}
	why := "no reading that is offered changes with it"
	if best >= 0 && least < 0.98 {
		whole, faulty := t.columns[best].Shown(0), t.columns[best].Shown(c)
		why = fmt.Sprintf("the reading that changes most (%s) shows %s on a right loom and %s with it: these overlap",
			t.Asks[best].Key(t.Graph), span(whole), span(faulty))
	}
	var out []Missed
	for _, f := range t.Cases[c].Faults {
		out = append(out, Missed{f.Words, why})
	}
	return out
}

// overlap is the part of two stretches together that both share.
func overlap(k Kind, a, b Shown) float64 {
	lo, hi := max(Place(k, a.Lo), Place(k, b.Lo)), min(Place(k, a.Hi), Place(k, b.Hi))
	all := max(Place(k, a.Hi), Place(k, b.Hi)) - min(Place(k, a.Lo), Place(k, b.Lo))
	return (hi - lo) / max(all, 1e-9)
}

func span(s Shown) string {
	if s.May != 0 {
		return strings.Join(s.May.Words(), " or ")
	}
	text := func(x float64) string {
		if x > 1e8 {
			return "open"
		}
		return units.FormatOhms(units.Round(x, 3))
	}
	return text(s.Lo) + " to " + text(s.Hi)
}
