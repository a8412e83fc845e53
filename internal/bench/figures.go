package bench

import (
	"fmt"

	"loomwright/internal/diag"
	"loomwright/internal/electrics"
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
	m, more := electrics.New(g, opts)
	return m, append(list, more...)
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
	out.Title = m.Graph().Loom.Title
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
	for i, s := range at.settings {
		if m.Table([]setting.Setting{s}, at.turn, -1)[0].Output == electrics.Sounding {
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
	for _, st := range at.settings {
		r := m.DC(st.At, at.turn).Ohms(probes[0], probes[1])
		out.Rows = append(out.Rows, MeasuredLine{st.Name, r, meter.Shows(r)})
	}
	return out, nil
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
