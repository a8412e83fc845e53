package leads

import (
	"fmt"
	"math"
	"slices"
)

// State is a pickup and all that was answered about it so far: a value, the same
// state gives the same next step. Believed is a lead code to check: coil ends by
// lead, as a lead code names them.
type State struct {
	Pickup   Pickup              `json:"pickup"`
	Answers  []Answer            `json:"answers"`
	Believed map[string][]string `json:"believed,omitempty"`
	Skip     []string            `json:"skip,omitempty"` // questions that cannot be answered here, by key
}

// Answer is one question answered.
type Answer struct {
	Ask  string `json:"ask"`
	Said string `json:"said"`
}

// With returns the state with one answer more.
func (s State) With(ask, said string) State {
	out := s
	out.Answers = slices.DeleteFunc(slices.Clone(s.Answers), func(a Answer) bool { return a.Ask == ask })
	out.Answers = append(out.Answers, Answer{ask, said})
	return out
}

// Step is what comes next: a question, or else what has been found.
type Step struct {
	Question *Question `json:"question,omitempty"`
	Found    *Found    `json:"found,omitempty"`
	Left     int       `json:"left"` // ways in which the leads can still be
}

// Question is one thing to do at the bench. Answers is empty where ohms are read.
type Question struct {
	Key     string   `json:"key"`
	Do      string   `json:"do"`
	Answers []string `json:"answers,omitempty"`
	Why     string   `json:"why"`
	Safety  bool     `json:"safety,omitempty"` // tells no lead from another, but would show what is wrong
}

// Next works out the next step. The error is about a pickup that cannot be as
// described, or an answer that cannot be understood.
func Next(s State) (Step, error) {
	w, err := newWizard(s)
	if err != nil {
		return Step{}, err
	}
	return w.next(), nil
}

// wizard is a state understood.
type wizard struct {
	s       State
	d       design
	answers []answered
	asks    []ask // all that can be asked
	sound   []guess
	amiss   []guess
	any     bool // some answer speaks against every sound pickup
}

type answered struct {
	ask
	said Answer
	is   outcome
	ohms float64
}

func newWizard(s State) (*wizard, error) {
	if err := s.Pickup.check(); err != nil {
		return nil, err
	}
	w := &wizard{s: s, d: s.Pickup.design()}
	for _, a := range s.Answers {
		k, err := parse(&s.Pickup, a.Ask)
		if err != nil {
			return nil, err
		}
		x := answered{ask: k, said: a}
		if x.is, x.ohms, err = k.read(a.Said); err != nil {
			return nil, err
		}
		w.answers = append(w.answers, x)
	}
	w.asks = w.all()
	if w.sound = w.fitting(healthy(&s.Pickup)); len(w.sound) == 0 {
		w.any = true
		w.amiss = w.fitting(unsound(&s.Pickup))
	}
	return w, nil
}

// all lists what can be asked of the leads.
func (w *wizard) all() []ask {
	var out []ask
	n := len(w.s.Pickup.probes())
	for a := range n {
		for b := a + 1; b < n; b++ {
			out = append(out, ask{kind: ohms, a: a, b: b})
		}
	}
	for c := range w.d.coils {
		for a := range len(w.s.Pickup.Leads) {
			for b := a + 1; b < len(w.s.Pickup.Leads); b++ {
				if !w.d.stacked || c == 0 {
					out = append(out, ask{kind: tap, a: a, b: b, coil: c})
				}
			}
		}
	}
	return slices.DeleteFunc(out, func(k ask) bool { return slices.Contains(w.s.Skip, k.key(&w.s.Pickup)) })
}

// fitting keeps the guesses that all answers fit.
func (w *wizard) fitting(list []guess) []guess {
	var out []guess
	for _, g := range list {
		if w.fits(&g) {
			out = append(out, g)
		}
	}
	return out
}

func (w *wizard) fits(g *guess) bool {
	for _, a := range w.answers {
		if a.kind != compass && w.d.predict(g, a.ask) != a.is {
			return false
		}
	}
	return w.addsUp(g)
}

// tolerance of sums of readings: a meter's error and warming copper.
const sumsWithin = 0.06

// addsUp reports whether the ohms that were read go together: a way through two
// coils is the sum of both, a way through the same coils the same.
func (w *wizard) addsUp(g *guess) bool {
	byCoil := map[int]float64{}
	for pass := range 2 {
		for _, a := range w.answers {
			if a.is != coilful {
				continue
			}
			coils, _ := w.d.between(g, g.node[a.a], g.node[a.b])
			if pass == 0 && len(coils) == 1 {
				if old, ok := byCoil[coils[0]]; ok && !near(old, a.ohms) {
					return false
				}
				byCoil[coils[0]] = a.ohms
			}
			if sum, whole := sumOf(byCoil, coils); pass == 1 && whole && !near(sum, a.ohms) {
				return false
			}
		}
	}
	return true
}

func sumOf(byCoil map[int]float64, coils []int) (float64, bool) {
	sum := 0.0
	for _, c := range coils {
		x, ok := byCoil[c]
		if !ok {
			return 0, false
		}
		sum += x
	}
	return sum, len(coils) > 0
}

func near(a, b float64) bool { return math.Abs(a-b) <= sumsWithin*max(a, b) }

// asked reports whether a question was answered, either way round.
func (w *wizard) asked(k ask) bool {
	for _, a := range w.answers {
		if a.kind == k.kind && a.coil == k.coil && (a.a == k.a && a.b == k.b || a.a == k.b && a.b == k.a) {
			return true
		}
	}
	return false
}

func (w *wizard) next() Step {
	guesses := w.sound
	if w.any {
		guesses = w.amiss
	}
	step := Step{Left: len(guesses)}
	switch {
	case len(guesses) == 0:
		step.Found = w.contradicted()
	case w.believedNext(guesses, &step):
	case w.needed(&step):
	case w.split(guesses, &step):
	case w.safety(guesses, &step):
	case w.poles(&step):
	default:
		step.Found = w.found(guesses)
	}
	return step
}

// needed asks for what must be read in any case: all three ohms of a tapped
// coil, which tell its ends from its tap.
func (w *wizard) needed(step *Step) bool {
	if w.s.Pickup.Make != Tapped || w.any {
		return false
	}
	for _, k := range w.asks {
		if k.kind == ohms && k.b < len(w.s.Pickup.Leads) && !w.asked(k) {
			step.Question = w.question(k, "the largest of the three readings is from end to end, and the sum of the other two", false)
			return true
		}
	}
	return false
}

// split asks what tells most about which lead is which.
func (w *wizard) split(guesses []guess, step *Step) bool {
	k, ok := w.best(guesses)
	if !ok {
		return false
	}
	why := "which leads are one coil"
	if k.kind == tap {
		why = "which coil this is, and which of its ends goes up"
	}
	step.Question = w.question(k, why, false)
	return true
}

// poles asks for the compass, where one is at hand.
func (w *wizard) poles(step *Step) bool {
	if !w.s.Pickup.Compass {
		return false
	}
	for c := range w.d.coils {
		k := ask{kind: compass, coil: c}
		if w.d.stacked && c > 0 || w.asked(k) || slices.Contains(w.s.Skip, k.key(&w.s.Pickup)) {
			continue
		}
		step.Question = w.question(k, "a tap tells winding times magnet; the pole tells the two apart", false)
		return true
	}
	return false
}

func (w *wizard) question(k ask, why string, safety bool) *Question {
	p := &w.s.Pickup
	q := &Question{Key: k.key(p), Why: why, Safety: safety}
	names := p.probes()
	switch k.kind {
	case ohms:
		q.Do = fmt.Sprintf("Read ohms between %s and %s (a coil is a few kΩ; OL is open).", names[k.a], names[k.b])
	case tap:
		q.Do = fmt.Sprintf("Meter on its lowest volts range, red on %s, black on %s. Touch steel (a screwdriver's tip) to the poles of %s: "+
			"which way does it move as the steel touches?", names[k.a], names[k.b], p.coilWords(k.coil))
		q.Answers = []string{string(up), string(down), string(nothing)}
	case compass:
		q.Do = fmt.Sprintf("Hold a small compass over the poles of %s. Its needle's north end goes to a south pole, its south end to a north "+
			"pole. Which pole does this coil show?", p.coilWords(k.coil))
		q.Answers = []string{string(north), string(south)}
	}
	return q
}
