package bench

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"loomwright/internal/electrics"
	"loomwright/internal/setting"
	"loomwright/internal/units"
)

// Reference is a loom that the one on the bench is compared with, and a setting
// of it; With empty: the one that answers to the chosen setting.
type Reference struct {
	Name string `json:"name"`
	Text string `json:"text"`
	With string `json:"with"`
}

// Compared is a loom beside a reference, setting by setting.
type Compared struct {
	Title    string         `json:"title"`           // of the reference
	Settings []string       `json:"settings"`        // of the reference
	Lines    []ComparedLine `json:"lines"`           // by setting of the loom on the bench
	Curve    *Traced        `json:"curve,omitempty"` // of the reference beside the chosen setting
	Note     string         `json:"note,omitempty"`  // what the figures do not say
}

// ComparedLine is one setting beside the one of the reference that answers to
// it.
type ComparedLine struct {
	Other string        `json:"other"` // setting of the reference; "": none answers
	Heard string        `json:"heard"` // there
	Hum   string        `json:"hum"`   // there
	Row   electrics.Row `json:"row"`   // there; its level is over the loom on the bench in this setting
	Says  []string      `json:"says"`  // how this one differs from that one
}

// Compare holds the loom on the bench, with its knobs as they stand, against a
// reference with its knobs at rest. The error is in a user's words.
func (d *Desk) Compare(a Ask) (Compared, error) {
	if a.Other == nil {
		return Compared{}, errors.New("choose what to compare with")
	}
	if d.other == nil || d.other.bench != d.bench {
		d.other = NewDesk(d.bench)
	}
	mine, err := d.side(a.Name, a.Text, a.Knobs)
	if err != nil {
		return Compared{}, err
	}
	theirs, err := d.other.side(a.Other.Name, a.Other.Text, nil)
	if err != nil {
		return Compared{}, fmt.Errorf("the other loom: %w", err)
	}
	out := Compared{Title: theirs.page.Title, Note: differentPickups(mine, theirs)}
	for _, r := range theirs.page.Rows {
		out.Settings = append(out.Settings, r.Name)
	}
	for i := range mine.rows {
		at := answers(mine, theirs, i)
		chosen := mine.page.Rows[i].Name == a.With
		if j := slices.Index(out.Settings, a.Other.With); chosen && j >= 0 {
			at = j
		}
		if at < 0 {
			out.Lines = append(out.Lines, ComparedLine{Says: []string{"no setting there answers to this one"}})
			continue
		}
		out.Lines = append(out.Lines, besides(mine, theirs, i, at))
		if chosen {
			t, err := d.other.Trace(a.Other.Name, a.Other.Text, Stand{With: out.Settings[at]}, false)
			if err != nil {
				return out, err
			}
			out.Curve = &t
		}
	}
	return out, nil
}

// side is one of the two looms, proved and in numbers.
type side struct {
	page OpenLoom
	rows []electrics.Row
}

func (d *Desk) side(name, data string, knobs map[string]float64) (side, error) {
	m := d.modelFor(name, data)
	if m == nil || len(d.page.Rows) > maxFigures {
		return side{}, errors.New("it cannot be worked out as it is: mend its errors first")
	}
	turn, err := setting.Knobs(m.Graph(), knobs)
	if err != nil {
		return side{}, err
	}
	s := side{page: d.page}
	at := make([]setting.Setting, len(d.page.Rows))
	for i := range d.page.Rows {
		at[i] = d.page.Rows[i].Setting
	}
	s.rows = m.Table(at, turn, -1)
	return s, nil
}

// answers finds the setting of the other loom that answers to one of this: of
// the same name, or where the same is heard; −1 where there is none.
func answers(mine, theirs side, i int) int {
	if j := slices.IndexFunc(theirs.page.Lines, func(l SettingLine) bool { return l.Setting == mine.page.Lines[i].Setting }); j >= 0 {
		return j
	}
	return slices.IndexFunc(theirs.page.Lines, func(l SettingLine) bool { return l.Heard == mine.page.Lines[i].Heard })
}

// besides is one setting beside another.
func besides(mine, theirs side, i, j int) ComparedLine {
	a, b := mine.rows[i], theirs.rows[j]
	heard := [2]string{mine.page.Lines[i].Heard, theirs.page.Lines[j].Heard}
	out := ComparedLine{Other: theirs.page.Rows[j].Name, Heard: heard[1], Hum: theirs.page.Lines[j].Hum, Row: b, Says: []string{}}
	if heard[0] != heard[1] {
		out.Says = append(out.Says, fmt.Sprintf("here %s, there %s", heard[0], heard[1]))
	}
	if mine.page.Rows[i].Unsure || theirs.page.Rows[j].Unsure {
		out.Says = append(out.Says, "in numbers it cannot be told before the leads are known")
		return out
	}
	if a.Output == electrics.Sounding && b.Output == electrics.Sounding {
		out.Says = append(out.Says, louder(a, b), brighter(a, b))
	}
	out.Row.Level, out.Row.LevelLo, out.Row.LevelHi = b.Level-a.Level, b.LevelLo-a.Level, b.LevelHi-a.Level
	out.Says = append(out.Says, humBeside(mine.page.Lines[i].Hum, theirs.page.Lines[j].Hum))
	out.Says = slices.DeleteFunc(out.Says, func(s string) bool { return s == "" })
	return out
}

// least is the difference in dB below which two settings are called alike
// (common practice, no source: about what an ear tells apart side by side).
const least = 0.5

// louder says how loud a is beside b. Halving the volts is 6 dB, which an ear
// does not call half as loud.
func louder(a, b electrics.Row) string {
	if a.LevelHi-a.LevelLo > least || b.LevelHi-b.LevelLo > least {
		return "which is louder cannot be told before winding and poles are known"
	}
	by := a.Level - b.Level
	word := "louder"
	if by < 0 {
		word = "quieter"
	}
	switch x := math.Abs(by); {
	case x < least:
		return "about as loud"
	case x > 5.5 && x < 6.5:
		times := map[string]string{"louder": "twice", "quieter": "half"}[word]
		return fmt.Sprintf("%.1f dB %s: %s the volts, and to the ear less than that", x, word, times)
	default:
		return fmt.Sprintf("%.1f dB %s", x, word)
	}
}

// brighter says how bright a is beside b, and where the two resonate.
func brighter(a, b electrics.Row) string {
	by := a.Brightness - b.Brightness
	word := "as bright"
	switch {
	case by >= least:
		word = fmt.Sprintf("brighter, by %.1f dB above 2 kHz", by)
	case by <= -least:
		word = fmt.Sprintf("darker, by %.1f dB above 2 kHz", -by)
	}
	here, there := resonance(a.Peak), resonance(b.Peak)
	if here == there {
		return word + ", with " + here
	}
	return fmt.Sprintf("%s: %s here, %s there", word, here, there)
}

func resonance(p *electrics.Peak) string {
	if p == nil {
		return "no resonance"
	}
	return "resonance at " + units.FormatHertz(units.Round(p.Hz, 2))
}

func humBeside(here, there string) string {
	switch {
	case here == there && here == "":
		return ""
	case here == there:
		return "hum: " + here + " in both"
	}
	return fmt.Sprintf("hum: %s here, %s there", orNone(here), orNone(there))
}

func orNone(s string) string {
	if s == "" {
		return "none to hear"
	}
	return s
}

// differentPickups says what levels of looms with other pickups leave open.
func differentPickups(mine, theirs side) string {
	if slices.Equal(coilsOf(mine), coilsOf(theirs)) {
		return ""
	}
	return "The pickups differ. Each loom's levels are over a coil of its own average: what the wiring does shows, which pickup is louder by itself does not."
}

// coilsOf lists what decides a loom's average coil: the coils' inductances.
func coilsOf(s side) []string {
	var out []string
	for _, c := range s.page.Graph.Coils {
		out = append(out, fmt.Sprint(c.Name, c.Henries))
	}
	slices.Sort(out)
	return out
}
