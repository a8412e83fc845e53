package bench

import (
	"io/fs"
	"strings"
	"testing"

	"loomwright/examples"
	"loomwright/internal/diagnosis"
)

func exampleText(t *testing.T, name string) string {
	t.Helper()
	data, err := fs.ReadFile(examples.Files, name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// TestStageReadings types what a right loom shows after each stage, and finds
// all right; then an open circuit where there is none: the loom is doubted and
// somewhere to look is named.
func TestStageReadings(t *testing.T) {
	d := NewDesk(New())
	ask := Ask{Name: "twin-coil-split.yaml", Text: exampleText(t, "twin-coil-split.yaml")}
	stages := len(d.Open(ask.Name, ask.Text).Plan.Stages)
	if stages < 2 {
		t.Fatalf("%d stages", stages)
	}
	readings := 0
	for ask.Run = range stages {
		ask.State = nil
		c, err := d.Stage(ask)
		if err != nil || c.Stage == "" || c.Says != "" {
			t.Fatalf("stage %d: %v %+v", ask.Run, err, c)
		}
		state := diagnosis.State{}
		for _, l := range c.Readings {
			state.Answers = append(state.Answers, diagnosis.Answer{Ask: l.Key, Said: l.Shows})
		}
		readings += len(state.Answers)
		ask.State = &state
		if c, err = d.Stage(ask); err != nil || len(c.Suspects) > 0 || len(c.Readings) > 0 && !strings.HasPrefix(c.Says, "Every reading") {
			t.Errorf("%s: %v %q", c.Stage, err, c.Says)
		}
		for _, l := range c.Readings {
			if l.Met != "yes" {
				t.Errorf("%s: %s shows %s: met %q %s", c.Stage, l.Do, l.Said, l.Met, l.Wrong)
			}
		}
	}
	if readings < stages-1 {
		t.Errorf("%d readings in %d stages", readings, stages)
	}
}

func TestStageReadingWrong(t *testing.T) {
	d := NewDesk(New())
	ask := Ask{Name: "twin-coil-split.yaml", Text: exampleText(t, "twin-coil-split.yaml")}
	named := 0
	for ask.Run = range d.Open(ask.Name, ask.Text).Plan.Stages {
		ask.State = nil
		c, err := d.Stage(ask)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range c.Readings {
			if l.Lo == "" || overWords[l.Lo] != "" {
				continue
			}
			ask.State = &diagnosis.State{Answers: []diagnosis.Answer{{Ask: l.Key, Said: "OL"}}}
			c, err := d.Stage(ask)
			if err != nil || !strings.Contains(c.Says, "not what a right loom shows") && len(c.Do) == 0 {
				t.Fatalf("%s: %v %+v", l.Do, err, c)
			}
			for _, s := range c.Suspects {
				if len(s.Faults) == 0 || len(s.Do) == 0 {
					t.Errorf("%s: a suspect without words: %+v", l.Do, s)
				}
				named++
			}
		}
	}
	if named == 0 {
		t.Error("no suspect was ever named")
	}
	ask.Run = 0
	c, _ := d.Stage(Ask{Name: ask.Name, Text: ask.Text})
	if len(c.Readings) > 0 {
		c, err := d.Stage(Ask{Name: ask.Name, Text: ask.Text, State: &diagnosis.State{Answers: []diagnosis.Answer{{Ask: c.Readings[0].Key, Said: "blue"}}}})
		if err != nil || c.Readings[0].Wrong == "" || c.Readings[0].Met != "" {
			t.Errorf("blue was read: %v %+v", err, c.Readings[0])
		}
	}
	if _, err := d.Stage(Ask{Name: ask.Name, Text: ask.Text, Run: 99}); err == nil {
		t.Error("stage 99 exists")
	}
}
