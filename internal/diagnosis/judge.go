package diagnosis

import (
	"cmp"
	"fmt"
	"slices"

	"loomwright/internal/fault"
	"loomwright/internal/meter"
)

// Verdict is where a diagnosis stands.
type Verdict string

// The verdicts. Alike: several faults are left which no offered reading surely
// tells apart. Contradiction: no single fault explains all readings.
const (
	Asking        Verdict = "asking"
	Healthy       Verdict = "nothing wrong is found"
	Found         Verdict = "found"
	AlikeLeft     Verdict = "several left"
	Contradiction Verdict = "contradiction"
)

// Result is what a state says of a loom.
type Result struct {
	Verdict  Verdict   `json:"verdict"`
	Says     string    `json:"says"`               // in a sentence or two
	Suspects []Suspect `json:"suspects"`           // likeliest first, at most maxSuspects
	Left     int       `json:"left"`               // circuits that explain everything, the whole loom among them
	Next     *Next     `json:"next,omitempty"`     // the reading that tells most
	Do       []string  `json:"do,omitempty"`       // what to do now
	Misfits  []Misfit  `json:"misfits,omitempty"`  // contradiction: single faults, and what each leaves unexplained
	Pairs    []Pair    `json:"pairs,omitempty"`    // contradiction: two faults that explain everything
	Harmless []string  `json:"harmless,omitempty"` // left out of it: faults that change nothing
}

const (
	maxSuspects = 12
	maxMisfits  = 5
)

// Suspect is one circuit that explains all readings: one fault, or several that
// are the same to every probe. No faults: the loom is right.
type Suspect struct {
	Faults []string `json:"faults"`
	Kinds  []string `json:"kinds"`
	Chance float64  `json:"chance"` // among what is left
	Fits   []Fit    `json:"fits"`
	Do     []string `json:"do"`
	Terms  []int    `json:"terms"` // where, for a drawing
	Runs   []int    `json:"runs"`
	at     int      // case of the table
}

// Fit is how an answer goes with a suspect.
type Fit struct {
	Ask   string `json:"ask"`
	Said  string `json:"said"`
	Can   string `json:"can"`   // what the suspect can show
	How   string `json:"how"`   // well, at the edge, no
	Right string `json:"right"` // what a right loom shows
}

// Next is the reading to take next.
type Next struct {
	meter.Line
	Bits float64 `json:"bits"` // what it is expected to tell
	Why  string  `json:"why"`
}

// Misfit is a single fault that explains all but some readings.
type Misfit struct {
	Faults []string `json:"faults"`
	Not    []Fit    `json:"not"`
}

// Judge says what a state means. The same table and state give the same result.
// The error is about an answer or symptom that cannot be understood.
func Judge(t *meter.Table, s State) (Result, error) {
	j, err := newJudge(t, s)
	if err != nil {
		return Result{}, err
	}
	return j.result(), nil
}

type judge struct {
	b       *belief
	answers []taken
}

func newJudge(t *meter.Table, s State) (*judge, error) {
	j := &judge{b: newBelief(t)}
	for _, a := range s.Answers {
		x, err := understand(t, a)
		if err != nil {
			return nil, err
		}
		j.answers = append(j.answers, x)
		j.b.see(&x.ask, x.seen, x.Doubt)
	}
	for _, x := range s.Symptoms {
		if err := j.b.feel(x); err != nil {
			return nil, err
		}
	}
	for _, key := range s.Skip {
		if ask, err := meter.Parse(t.Graph, key); err == nil {
			if at := t.Find(&ask); at >= 0 {
				j.b.done[at] = true
			}
		}
	}
	return j, nil
}

func (j *judge) result() Result {
	left := j.b.left()
	out := Result{Left: len(left), Suspects: j.suspects(left)}
	for _, h := range j.b.t.Harmless {
		out.Harmless = append(out.Harmless, h.Words)
	}
	if len(left) == 0 {
		j.contradiction(&out)
		return out
	}
	if at, bits := j.next(left); at >= 0 {
		out.Verdict, out.Next = Asking, j.asked(at, bits)
		out.Says = fmt.Sprintf("%d of %d circuits that this loom can be explain what was seen; likeliest: %s.",
			len(left), len(j.b.t.Cases), out.Suspects[0].words())
		return out
	}
	j.concluded(&out, left)
	return out
}

// next is the reading to take, or −1 when there is no more to ask: none splits
// what is left, and no fault is named on the strength of one strange reading.
func (j *judge) next(left []int) (int, float64) {
	if len(left) > 1 {
		if at, bits := j.b.advice(); at >= 0 {
			return at, bits
		}
	}
	top := j.likeliest(left)
	if top == 0 || j.strange() >= 2 {
		return -1, 0
	}
	return j.b.confirm(top), 0
}

func (j *judge) likeliest(left []int) int {
	return slices.MaxFunc(left, func(a, b int) int { return cmp.Compare(j.b.p[a], j.b.p[b]) })
}

// strange counts the readings that a right loom cannot show.
func (j *judge) strange() int {
	n := 0
	for i := range j.answers {
		a := &j.answers[i]
		if !j.b.can(&a.ask, j.b.t.Find(&a.ask), 0).Fits(a.seen) {
			n++
		}
	}
	return n
}

func (j *judge) asked(at int, bits float64) *Next {
	n := &Next{Line: j.b.t.Line(&j.b.t.Asks[at]), Bits: bits}
	n.Why = fmt.Sprintf("of all readings offered it tells most: about %.1f bits", bits)
	if bits == 0 {
		n.Why = "a second reading that a right loom cannot show: no fault is named on the strength of one"
	}
	return n
}

func (j *judge) suspects(left []int) []Suspect {
	order := slices.Clone(left)
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(j.b.p[b], j.b.p[a]) })
	var out []Suspect
	for _, c := range order[:min(len(order), maxSuspects)] {
		s := Suspect{at: c, Chance: j.b.p[c], Fits: j.fits(c, j.answers), Faults: []string{}, Kinds: []string{}, Do: []string{}, Terms: []int{}, Runs: []int{}}
		for i := range j.b.t.Cases[c].Faults {
			s.add(&j.b.t.Cases[c].Faults[i], j.b.t)
		}
		out = append(out, s)
	}
	return out
}

func (s *Suspect) add(f *fault.Fault, t *meter.Table) {
	s.Faults = append(s.Faults, f.Words)
	if !slices.Contains(s.Kinds, string(f.Kind)) {
		s.Kinds = append(s.Kinds, string(f.Kind))
	}
	if do := f.Remedy(t.Graph); !slices.Contains(s.Do, do) {
		s.Do = append(s.Do, do)
	}
	terms, runs := f.Places(t.Graph)
	for _, x := range terms {
		if x < len(t.Graph.Terms) && !slices.Contains(s.Terms, x) {
			s.Terms = append(s.Terms, x)
		}
	}
	for _, x := range runs {
		if !slices.Contains(s.Runs, x) {
			s.Runs = append(s.Runs, x)
		}
	}
}

func (j *judge) fits(c int, answers []taken) []Fit {
	out := []Fit{}
	for i := range answers {
		a := &answers[i]
		at := j.b.t.Find(&a.ask)
		can := j.b.can(&a.ask, at, c)
		out = append(out, Fit{a.Ask, a.Said, words(a.ask.Kind, can), how(a.ask.Kind, can, a.seen), words(a.ask.Kind, j.b.can(&a.ask, at, 0))})
	}
	return out
}

// how well a reading goes with what can be shown: at the edge is its outer
// tenth.
func how(k meter.Kind, can, seen meter.Shown) string {
	if !can.Fits(seen) {
		return "no"
	}
	if can.May != 0 {
		return "well"
	}
	s := stretchOf(k, can)
	x := meter.Place(k, (seen.Lo+min(seen.Hi, 1e9))/2)
	if edge := (s.hi - s.lo) / 10; s.hi-s.lo > 2*leastWidth && (x < s.lo+edge || x > s.hi-edge) {
		return "at the edge"
	}
	return "well"
}
