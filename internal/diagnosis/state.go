package diagnosis

import (
	"fmt"

	"loomwright/internal/meter"
)

// State is all that has been seen of a loom so far. It is a value: written as
// JSON, carried anywhere, judged again to the same result.
type State struct {
	Answers  []Answer  `json:"answers"`
	Symptoms []Symptom `json:"symptoms,omitempty"`
	Skip     []string  `json:"skip,omitempty"` // readings that cannot be taken here, by key
}

// Answer is one reading taken: which (meter.Parse reads Ask), and what was read
// off (meter.Seen reads Said). A doubted one weighs less and excludes nothing.
type Answer struct {
	Ask   string `json:"ask"`
	Said  string `json:"said"`
	Doubt bool   `json:"doubt,omitempty"`
}

// taken is an answer understood.
type taken struct {
	Answer
	ask  meter.Ask
	seen meter.Shown
}

// Understand checks an answer against a loom; the error is for whoever typed it.
func Understand(t *meter.Table, a Answer) error {
	_, err := understand(t, a)
	return err
}

func understand(t *meter.Table, a Answer) (taken, error) {
	ask, err := meter.Parse(t.Graph, a.Ask)
	if err != nil {
		return taken{}, err
	}
	seen, err := meter.Seen(t.Options.Meter, ask.Kind, a.Said)
	if err != nil {
		return taken{}, fmt.Errorf("%s: %w", a.Ask, err)
	}
	return taken{a, ask, seen}, nil
}

// With returns the state with one answer more; an earlier one to the same
// reading is replaced.
func (s State) With(a Answer) State {
	out := s
	out.Answers = nil
	for _, old := range s.Answers {
		if old.Ask != a.Ask {
			out.Answers = append(out.Answers, old)
		}
	}
	out.Answers = append(out.Answers, a)
	return out
}
