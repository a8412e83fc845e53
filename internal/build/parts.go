package build

import (
	"strings"

	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// PartLine is a line of the parts list: parts of one kind and value.
type PartLine struct {
	Count   int       `json:"count"`
	Names   []string  `json:"names"` // in the loom
	Called  []string  `json:"called,omitempty"`
	ID      string    `json:"id"` // of the part file
	Class   string    `json:"class"`
	Part    string    `json:"part"`
	Value   string    `json:"value,omitempty"` // in words: "500 kΩ audio", "22 nF"
	Body    part.Body `json:"body"`
	Confirm string    `json:"confirm,omitempty"` // to confirm with the meter first
	Source  string    `json:"source,omitempty"`
}

// Parts lists the parts of a loom in file order, like ones together.
func Parts(g *wiring.Graph) []PartLine {
	var out []PartLine
	at := map[string]int{}
	for i := range g.Loom.Uses {
		u := &g.Loom.Uses[i]
		value := valueWords(u)
		key := u.Part.ID + "|" + value
		k, known := at[key]
		if !known {
			k = len(out)
			at[key] = k
			out = append(out, PartLine{ID: u.Part.ID, Class: u.Part.Class, Part: u.Part.Name, Value: value, Body: u.Part.Body, Confirm: u.Part.Confirm, Source: u.Part.Source})
		}
		l := &out[k]
		l.Count++
		l.Names = append(l.Names, u.Name)
		if u.Called != "" {
			l.Called = append(l.Called, u.Called)
		}
	}
	return out
}

// valueWords puts what the loom says of a part in words.
func valueWords(u *loom.Use) string {
	var words []string
	for _, t := range u.Part.Tracks {
		words = appendNew(words, trackWords(t.Value))
	}
	for _, c := range u.Part.Capacitors {
		words = appendNew(words, valueText(c.Value, units.FormatFarads))
	}
	for _, r := range u.Part.Resistors {
		words = appendNew(words, valueText(r.Value, units.FormatOhms))
	}
	words = append(words, coilWords(u)...)
	return strings.Join(words, ", ")
}

func trackWords(v units.TrackValue) string {
	if v.Ohms.X == 0 {
		return ""
	}
	return v.String()
}

func valueText(v units.Value, format func(float64) string) string {
	if v.X == 0 {
		return ""
	}
	return format(v.X)
}

// coilWords gives the ohms that were measured, and the leads.
func coilWords(u *loom.Use) []string {
	var out []string
	for _, c := range u.Part.Coils {
		if !c.Ohms.Known {
			continue
		}
		text := units.FormatOhms(units.Round(c.Ohms.Typical, 3))
		if len(u.Part.Coils) > 1 {
			text = c.Name + " " + text
		}
		out = append(out, text)
	}
	if len(u.Leads) > 0 {
		var names []string
		for _, l := range u.Leads {
			names = append(names, l.Name)
		}
		out = append(out, "leads "+strings.Join(names, ", "))
	}
	return out
}

func appendNew(words []string, w string) []string {
	if w == "" {
		return words
	}
	for _, have := range words {
		if have == w {
			return words
		}
	}
	return append(words, w)
}

// Place says where a terminal is, in plain words and with the view they belong
// to: "left lug, met at full clockwise turn (back, lugs down)"; "" for a braid.
func Place(g *wiring.Graph, term int) string {
	t := &g.Terms[term]
	u := use(g, term)
	if u == nil || t.Terminal < 0 {
		return ""
	}
	pt := &u.Part.Terminals[t.Terminal]
	if pt.View == "" || pt.Words == "" {
		return pt.Words
	}
	return pt.Words + " (" + pt.View + ")"
}
