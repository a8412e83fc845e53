package diagnosis_test

import (
	"encoding/json"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/diagnosis"
	"loomwright/internal/fault"
	"loomwright/internal/meter"
)

// judged is Judge without an error.
func judged(t testing.TB, table *meter.Table, s diagnosis.State) diagnosis.Result {
	t.Helper()
	r, err := diagnosis.Judge(table, s)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// played follows the advice of a diagnosis on a bench to its end.
func played(t testing.TB, table *meter.Table, b *bench) (diagnosis.State, diagnosis.Result) {
	t.Helper()
	var s diagnosis.State
	for range 60 {
		r := judged(t, table, s)
		if r.Next == nil {
			return s, r
		}
		a, err := meter.Parse(table.Graph, r.Next.Key)
		if err != nil {
			t.Fatal(err)
		}
		s = s.With(diagnosis.Answer{Ask: r.Next.Key, Said: b.take(a)})
	}
	t.Fatal("no end of readings")
	return s, diagnosis.Result{}
}

func faultCalled(t testing.TB, table *meter.Table, words string) (fault.Fault, int) {
	t.Helper()
	for c := range table.Cases {
		for _, f := range table.Cases[c].Faults {
			if f.Words == words {
				return f, c
			}
		}
	}
	t.Fatalf("no fault is called %q", words)
	return fault.Fault{}, 0
}

// A fault is found, named in the loom's words, with what to do about it and how
// every reading fits.
func TestFoundInTheLoomsWords(t *testing.T) {
	table := tableOf(t, oneTwin, meter.Options{})
	words := "open joint of bridge.pink at volume.pull.a"
	f, _ := faultCalled(t, table, words)
	s, r := played(t, table, newBench(table.Graph, 11, f))
	if r.Verdict != diagnosis.Found || !strings.Contains(r.Says, words) || len(r.Suspects) != 1 {
		t.Fatalf("%s: %s", r.Verdict, r.Says)
	}
	if got := strings.Join(r.Do, " "); !strings.Contains(got, "Reflow the joint at volume.pull.a") || !strings.Contains(got, "take the readings again") {
		t.Errorf("what to do: %s", got)
	}
	strange := 0
	for _, fit := range r.Suspects[0].Fits {
		if fit.How == "no" || fit.Can == "" || fit.Right == "" {
			t.Errorf("%+v", fit)
		}
	}
	for _, a := range s.Answers {
		ask, _ := meter.Parse(table.Graph, a.Ask)
		seen, _ := meter.Seen(table.Options.Meter, ask.Kind, a.Said)
		if !table.Shown(&ask, 0).Fits(seen) {
			strange++
		}
	}
	if strange < 2 {
		t.Errorf("the fault rests on %d readings that a right loom cannot show", strange)
	}
	if place := r.Suspects[0].Runs; len(place) != 1 || len(r.Suspects[0].Terms) != 1 {
		t.Errorf("place for the drawing: terminals %v, runs %v", r.Suspects[0].Terms, place)
	}
}

// The texts of a diagnosis tell what to do at every step.
func TestTexts(t *testing.T) {
	table := tableOf(t, oneTwin, meter.Options{})
	f, _ := faultCalled(t, table, "bridge.north has shorted turns")
	b := newBench(table.Graph, 21, f)
	s, r := played(t, table, b)
	first := judged(t, table, diagnosis.State{})
	if text := first.Text(); !strings.Contains(text, first.Next.Do) || !strings.Contains(text, "a right loom: ") {
		t.Errorf("first text:\n%s", text)
	}
	if text := r.Text(); !strings.Contains(text, f.Words) || !strings.Contains(text, "Read bridge.north at its leads") {
		t.Errorf("last text:\n%s", text)
	}
	r = judged(t, table, s.With(diagnosis.Answer{Ask: "ohms strings.wire to jack.sleeve; volume pushed", Said: "OL"}))
	if text := r.Text(); !strings.Contains(text, "leaves unexplained:") || !strings.Contains(text, "Take this reading again") {
		t.Errorf("text of a contradiction:\n%s", text)
	}
}

// A right loom is called right, and what no reading shows is said.
func TestHealthyIsAnAnswer(t *testing.T) {
	for _, name := range []string{oneTwin, twoTwins} {
		table := tableOf(t, name, meter.Options{})
		b := newBench(table.Graph, 12)
		_, r := played(t, table, b)
		if r.Verdict != diagnosis.Healthy || r.Do != nil {
			t.Errorf("%s: %s: %s", name, r.Verdict, r.Says)
		}
		if !strings.Contains(r.Says, "no offered reading surely shows") {
			t.Errorf("%s: what stays hidden is not said: %s", name, r.Says)
		}
	}
}

// A reading that nothing explains is a contradiction that names it; the same
// reading with a doubt is not.
func TestContradictionAndDoubt(t *testing.T) {
	table := tableOf(t, oneTwin, meter.Options{})
	b := newBench(table.Graph, 13)
	var s diagnosis.State
	for _, l := range table.Proof().Lines {
		a, _ := meter.Parse(table.Graph, l.Key)
		s = s.With(diagnosis.Answer{Ask: l.Key, Said: b.take(a)})
	}
	wrong := diagnosis.Answer{Ask: "ohms jack.tip to jack.sleeve; volume pushed", Said: "1.23k"}
	r := judged(t, table, s.With(wrong))
	if r.Verdict != diagnosis.Contradiction || r.Next != nil {
		t.Fatalf("%s: %s", r.Verdict, r.Says)
	}
	if len(r.Misfits) == 0 || len(r.Misfits[0].Not) != 1 || r.Misfits[0].Not[0].Ask != wrong.Ask || len(r.Misfits[0].Faults) != 0 {
		t.Errorf("misfits %+v", r.Misfits)
	}
	if len(r.Do) == 0 || !strings.Contains(r.Do[0], wrong.Ask) {
		t.Errorf("what to do: %v", r.Do)
	}
	wrong.Doubt = true
	if r := judged(t, table, s.With(wrong)); r.Verdict != diagnosis.Healthy {
		t.Errorf("with a doubt: %s: %s", r.Verdict, r.Says)
	}
}

// Two faults that no single one explains are found as a pair by full search.
func TestPairsExplain(t *testing.T) {
	table := tableOf(t, oneTwin, meter.Options{})
	random := rand.New(rand.NewPCG(14, 15))
	found, tried, size := 0, 0, 0
	for tried < 12 {
		a, b := 1+random.IntN(len(table.Cases)-1), 1+random.IntN(len(table.Cases)-1)
		if a == b {
			continue
		}
		bench := newBench(table.Graph, random.Uint64(), table.Cases[a].Faults[0], table.Cases[b].Faults[0])
		var s diagnosis.State
		for _, i := range random.Perm(len(table.Asks))[:40] {
			ask := table.Asks[i]
			s = s.With(diagnosis.Answer{Ask: ask.Key(table.Graph), Said: bench.take(ask)})
		}
		r := judged(t, table, s)
		if r.Verdict != diagnosis.Contradiction {
			continue
		}
		tried++
		size += len(r.Pairs)
		is := func(words []string, c int) bool { return words[0] == table.Cases[c].Faults[0].Words }
		if slices.ContainsFunc(r.Pairs, func(p diagnosis.Pair) bool {
			return is(p.First, a) && is(p.Second, b) || is(p.First, b) && is(p.Second, a)
		}) {
			found++
		}
	}
	t.Logf("%d of %d true pairs are among those found; %.1f pairs on average", found, tried, float64(size)/float64(tried))
	if found < tried*2/3 {
		t.Errorf("only %d of %d pairs were found", found, tried)
	}
}

// The order of readings does not matter, and a state goes through JSON.
func TestStateIsAValue(t *testing.T) {
	table := tableOf(t, oneTwin, meter.Options{})
	f, _ := faultCalled(t, table, "bridge.orange and bridge.violet are swapped")
	s, want := played(t, table, newBench(table.Graph, 16, f))
	random := rand.New(rand.NewPCG(17, 18))
	random.Shuffle(len(s.Answers), func(i, j int) { s.Answers[i], s.Answers[j] = s.Answers[j], s.Answers[i] })
	data, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	var back diagnosis.State
	if err := json.Unmarshal(data, &back); err != nil {
		t.Fatal(err)
	}
	got := judged(t, table, back)
	if got.Verdict != want.Verdict || got.Says != want.Says || !reflect.DeepEqual(got.Do, want.Do) {
		t.Errorf("%s: %s\n%s: %s", got.Verdict, got.Says, want.Verdict, want.Says)
	}
	if _, err := json.Marshal(got); err != nil {
		t.Error(err)
	}
}

// Readings of one's own, ranges and skipped questions are taken.
func TestAnyReadingIsTaken(t *testing.T) {
	table := tableOf(t, oneTwin, meter.Options{})
	f, c := faultCalled(t, table, "the wiper of volume is lifted")
	var s diagnosis.State
	s = s.With(diagnosis.Answer{Ask: "ohms volume.cw to jack.tip; volume pushed; volume=3", Said: "OL"})
	s = s.With(diagnosis.Answer{Ask: "ohms jack.sleeve to jack.tip; volume pulled", Said: "OL"})
	s = s.With(diagnosis.Answer{Ask: "ohms volume.cw to jack.sleeve; volume pushed", Said: "7k..9k"})
	r := judged(t, table, s)
	if !slices.ContainsFunc(r.Suspects, func(x diagnosis.Suspect) bool { return slices.Contains(x.Faults, f.Words) }) {
		t.Errorf("case %d is not among %+v", c, r.Suspects)
	}
	if r.Next == nil {
		t.Fatal("nothing more to ask")
	}
	first := r.Next.Key
	s.Skip = append(s.Skip, first)
	if r = judged(t, table, s); r.Next == nil || r.Next.Key == first {
		t.Errorf("a skipped reading is asked for again: %+v", r.Next)
	}
	for _, bad := range []diagnosis.Answer{{Ask: "ohms here to there", Said: "1k"}, {Ask: first, Said: "lots"}} {
		if err := diagnosis.Understand(table, bad); err == nil {
			t.Errorf("%+v is understood", bad)
		}
		if _, err := diagnosis.Judge(table, s.With(bad)); err == nil {
			t.Errorf("%+v is judged", bad)
		}
	}
}

// What a player notices points at what makes it: the fault is among the
// likeliest twelve of 242 circuits, from the symptom alone.
func TestSymptomsPoint(t *testing.T) {
	table := tableOf(t, twoTwins, meter.Options{})
	for _, c := range []struct {
		says  []string
		fault string
		kind  fault.Kind
	}{
		{[]string{"thin: toggle middle"}, "", fault.LeadsSwapped},
		{[]string{"dead: toggle neck"}, "", fault.JointOpen},
		{[]string{"volume backwards: neck-volume"}, "the wires on the outer lugs of neck-volume are swapped", fault.PotEndsSwapped},
		{[]string{"tone does nothing: neck-tone"}, "", fault.JointOpen},
		{[]string{"touch worsens"}, "jack.tip and jack.sleeve are swapped", fault.JackSwapped},
		{[]string{"buzz", "touch nothing"}, "the string ground is not joined", fault.NoStringGround},
		{[]string{"crackle: bridge-volume"}, "the wiper of bridge-volume is lifted", fault.WiperOpen},
		{[]string{"hums: toggle neck", "thin: toggle neck"}, "", fault.LeadsSwapped},
		{[]string{"muffled: toggle bridge"}, "solder bridge between bridge-tone.wiper and bridge-tone.ccw", fault.Bridge},
	} {
		var s diagnosis.State
		for _, says := range c.says {
			x, err := diagnosis.ParseSymptom(table.Graph, says)
			if err != nil {
				t.Fatal(err)
			}
			s.Symptoms = append(s.Symptoms, x)
		}
		r := judged(t, table, s)
		if r.Suspects[0].Kinds == nil || len(r.Suspects[0].Faults) == 0 {
			t.Errorf("%v: likeliest is nothing wrong", c.says)
		}
		ok := slices.ContainsFunc(r.Suspects, func(x diagnosis.Suspect) bool {
			return slices.Contains(x.Kinds, string(c.kind)) && (c.fault == "" || slices.Contains(x.Faults, c.fault))
		})
		if !ok {
			t.Errorf("%v: %s %s is not among the likeliest; first is %v", c.says, c.kind, c.fault, r.Suspects[0].Faults)
		}
		t.Logf("%v: likeliest (%.0f %%) %s", c.says, 100*r.Suspects[0].Chance, r.Suspects[0].Faults[0])
	}
	if _, err := diagnosis.ParseSymptom(table.Graph, "sings: toggle neck"); err == nil {
		t.Error("an unknown symptom is taken")
	}
	if _, err := diagnosis.ParseSymptom(table.Graph, "dead: toggle sideways"); err == nil {
		t.Error("an unknown setting is taken")
	}
	if _, err := diagnosis.ParseSymptom(table.Graph, "crackle: treble"); err == nil {
		t.Error("an unknown knob is taken")
	}
}

// Readings that rule a fault out are not overruled by symptoms.
func TestReadingsOverruleSymptoms(t *testing.T) {
	table := tableOf(t, oneTwin, meter.Options{})
	b := newBench(table.Graph, 19)
	s, _ := played(t, table, b)
	x, err := diagnosis.ParseSymptom(table.Graph, "dead")
	if err != nil {
		t.Fatal(err)
	}
	s.Symptoms = append(s.Symptoms, x)
	r := judged(t, table, s)
	for _, suspect := range r.Suspects {
		if slices.Contains(suspect.Kinds, string(fault.JointOpen)) {
			t.Errorf("%v is a suspect again", suspect.Faults)
		}
	}
}
