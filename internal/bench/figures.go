package bench

import (
	"fmt"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/electrics"
	"loomwright/internal/proof"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// Stand is where the switches and knobs of a loom stand, in a user's words.
type Stand struct {
	With  string             // positions: "lever middle, volume pulled"; a switch left out stands anywhere
	Knobs map[string]float64 // marks 0 to 10; the others are at 10, blends in the middle
}

// stood is a stand found in a graph.
type stood struct {
	settings []setting.Setting
	turn     setting.Turn
}

func stand(g *wiring.Graph, s Stand) (stood, error) {
	settings, err := setting.Match(g, s.With)
	if err != nil {
		return stood{}, err
	}
	turn, err := setting.Knobs(g, s.Knobs)
	return stood{settings, turn}, err
}

// CannotTell is the output of a setting that depends on leads which nobody has
// told apart.
const CannotTell electrics.Output = "cannot tell"

// unsureRows marks the settings whose sound depends on which lead is which.
func unsureRows(g *wiring.Graph) map[int]bool {
	out := map[int]bool{}
	if len(g.Unknown) == 0 {
		return out
	}
	for _, r := range proof.Prove(g).Rows {
		if r.Unsure {
			out[r.Setting.Index] = true
		}
	}
	return out
}

// modelOf reads a loom file and fills in its values. The error is a usage error
// of the caller's; what is wrong with the file is in the findings.
func (b *Bench) modelOf(text *diag.Text, opts electrics.Options) (*electrics.Model, diag.List) {
	g, _, list := b.graph(text)
	if g == nil {
		return nil, list
	}
	if setting.Count(g) > setting.Max {
		list.Add(diag.Diagnostic{Code: "loom-limit", Severity: diag.Error, Span: text.Span(1, 1, 1),
			Message: fmt.Sprintf("the switches of this loom have more than %d settings together", setting.Max)})
		return nil, list
	}
	m, more := electrics.New(firstReading(g), opts)
	return m, append(list, more...)
}

// firstReading takes the unknown leads in the first way they can be; where that
// matters the answer is CannotTell.
func firstReading(g *wiring.Graph) *wiring.Graph {
	readings, _ := wiring.Readings(g)
	return g.With(readings[0])
}

// Levels is the table of settings in numbers.
type Levels struct {
	Version  int                 `json:"loomwright"`
	File     string              `json:"file"`
	Title    string              `json:"title,omitempty"`
	Over     string              `json:"over"` // the setting that levels are over
	Rows     []electrics.Row     `json:"settings"`
	Bands    []electrics.RowBand `json:"bands,omitempty"`  // where the figures can lie, for all that is not known exactly; only when asked for
	Notes    []electrics.Note    `json:"notes,omitempty"`  // what the figures are easily misread as
	Splits   []electrics.Split   `json:"splits,omitempty"` // shorting a coupled coil against opening it
	Assumed  string              `json:"assumed"`          // what the figures rest on beside what the file states
	Findings diag.List           `json:"findings"`
}

// Level works out level, brightness, resonance and hum of settings. Levels are
// over the setting that over names in words, or the first that sounds.
func (b *Bench) Level(name, data string, s Stand, over string, bands bool, opts electrics.Options) (Levels, error) {
	text := diag.NewText(name, data)
	out := Levels{Version: Version, File: name, Rows: []electrics.Row{}, Findings: diag.List{}}
	m, list := b.modelOf(text, opts)
	out.Findings = append(out.Findings, list...)
	if m == nil {
		return out, nil
	}
	out.Title, out.Assumed = m.Graph().Loom.Title, Assumed(m.Graph())
	at, err := stand(m.Graph(), s)
	if err != nil {
		return out, err
	}
	ref, err := reference(m, at, over)
	if err != nil {
		return out, err
	}
	out.Rows = m.Table(at.settings, at.turn, ref)
	if ref >= 0 {
		out.Over = at.settings[ref].Name
	}
	unsure := unsureRows(m.Graph())
	for i := range out.Rows {
		if unsure[out.Rows[i].Index] {
			out.Rows[i] = electrics.Row{Index: out.Rows[i].Index, Setting: out.Rows[i].Setting, Output: CannotTell, Ohms: electrics.Reading{Verdict: electrics.Verdict(CannotTell)}}
		}
	}
	out.Notes, out.Splits = m.Notes(at.settings, out.Rows, at.turn), m.Splits(at.settings, at.turn)
	if bands {
		out.Bands = m.TableBand(at.settings, at.turn, ref)
	}
	return out, nil
}

// levelTable is the table of settings in numbers, over the first that sounds.
func levelTable(m *electrics.Model, at stood) (rows []electrics.Row, over string) {
	ref := firstSounding(m, at)
	if ref >= 0 {
		over = at.settings[ref].Name
	}
	return m.Table(at.settings, at.turn, ref), over
}

// firstSounding is the place of the first setting that sounds, or −1.
func firstSounding(m *electrics.Model, at stood) int {
	unsure := unsureRows(m.Graph())
	for i, s := range at.settings {
		if !unsure[s.Index] && m.Table([]setting.Setting{s}, at.turn, -1)[0].Output == electrics.Sounding {
			return i
		}
	}
	return -1
}

// reference finds the row that levels are over: the one named, or the first
// that sounds.
func reference(m *electrics.Model, at stood, over string) (int, error) {
	if over == "" {
		return firstSounding(m, at), nil
	}
	match, err := setting.Match(m.Graph(), over)
	if err != nil {
		return -1, err
	}
	for i, s := range at.settings {
		if len(match) > 0 && s.Index == match[0].Index {
			return i, nil
		}
	}
	return -1, fmt.Errorf("the setting that levels are to be over (%s) is not among those asked for", over)
}

// Measured is what lies between two terminals, in every setting asked for.
type Measured struct {
	Version  int            `json:"loomwright"`
	File     string         `json:"file"`
	Rows     []MeasuredLine `json:"settings"`
	Findings diag.List      `json:"findings"`
}

// MeasuredLine is one setting of Measured.
type MeasuredLine struct {
	Setting string            `json:"setting"`
	Reading electrics.Reading `json:"reading"`
	Shown   electrics.Shown   `json:"shown"`
}

// Ohms says what a meter reads between two terminals.
func (b *Bench) Ohms(name, data string, s Stand, from, to string, meter electrics.Meter, opts electrics.Options) (Measured, error) {
	out := Measured{Version: Version, File: name, Rows: []MeasuredLine{}, Findings: diag.List{}}
	m, list := b.modelOf(diag.NewText(name, data), opts)
	out.Findings = append(out.Findings, list...)
	if m == nil {
		return out, nil
	}
	at, err := stand(m.Graph(), s)
	if err != nil {
		return out, err
	}
	probes := [2]int{}
	for i, word := range []string{from, to} {
		t, ok := m.Graph().Find(word)
		if !ok {
			return out, fmt.Errorf("this loom has no terminal %q%s", word, nearestTerm(m.Graph(), word))
		}
		probes[i] = t
	}
	others := otherReadings(m, opts)
	for _, st := range at.settings {
		r := m.DC(st.At, at.turn).Ohms(probes[0], probes[1])
		line := MeasuredLine{st.Name, r, meter.Shows(r)}
		for _, o := range others {
			line.or(meter, o.DC(st.At, at.turn).Ohms(probes[0], probes[1]))
		}
		out.Rows = append(out.Rows, line)
	}
	return out, nil
}

// otherReadings are the models of all other ways in which unknown leads can be.
func otherReadings(m *electrics.Model, opts electrics.Options) []*electrics.Model {
	var out []*electrics.Model
	readings, _ := wiring.Readings(m.Graph())
	for _, pairs := range readings[1:] {
		if o, _ := electrics.New(m.Graph().Without(readings[0]).With(pairs), opts); o != nil {
			out = append(out, o)
		}
	}
	return out
}

// or takes in another thing that the meter may show, while leads are unknown.
func (l *MeasuredLine) or(meter electrics.Meter, r electrics.Reading) {
	shown := meter.Shows(r)
	if shown.Digits == l.Shown.Digits && shown.Range == l.Shown.Range {
		return
	}
	if l.Reading.Verdict != electrics.Verdict(CannotTell) {
		l.Shown.Words = "cannot tell while leads are unknown: " + l.Shown.Digits + " " + l.Shown.Unit
		l.Reading.Verdict = electrics.Verdict(CannotTell)
	}
	if also := " or " + shown.Digits + " " + shown.Unit; !strings.Contains(l.Shown.Words, also) {
		l.Shown.Words += also
	}
	l.Reading.Lo, l.Reading.Hi = min(l.Reading.Lo, r.Lo), max(l.Reading.Hi, r.Hi)
	l.Reading.Words = l.Shown.Words
}

func nearestTerm(g *wiring.Graph, word string) string {
	var names []string
	for _, t := range g.Terms {
		names = append(names, t.Name)
		if t.Other != "" {
			names = append(names, t.Other)
		}
	}
	if near := diag.Nearest(word, names); near != "" {
		return ": did you mean " + near + "?"
	}
	return ""
}
