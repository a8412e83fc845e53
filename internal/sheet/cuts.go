package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loomwright/internal/loom"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// Cut is one piece of wire to cut from the reel.
type Cut struct {
	Step    int
	Kind    loom.WireKind
	Colour  string
	Sleeved bool
	Size    units.WireSize // as the loom file states it; zero: not stated
	From    string
	To      string
	Drawn   float64 // mm along the drawing; 0: not drawn
	Length  float64 // mm with slack; 0: to be measured
	Strip   string  // what to take off each end
	Tail    bool    // its far end goes to the jack or to what the customer has
}

// Slack of a cut: a share of the drawn length for the way over and under other
// wires and an end for each hand to hold (common practice, no source).
const (
	slackShare = 0.15
	slackEnds  = 20.0 // mm
	cutStep    = 5.0  // mm: lengths are rounded up to it
)

// Cuts lists the pieces of wire of a loom in order of their steps. A part's own
// lead is no cut.
func Cuts(in *Input) []Cut {
	var out []Cut
	seen := map[int]bool{}
	for _, s := range in.Plan.Steps {
		if seen[s.Run] {
			continue
		}
		seen[s.Run] = true
		if c, ok := cutOf(in, s.Run); ok {
			c.Step = s.Number
			out = append(out, c)
		}
	}
	return out
}

func cutOf(in *Input, run int) (Cut, bool) {
	g := in.Graph
	r := &g.Runs[run]
	if r.Wire.Kind == loom.Touching || r.Wire.Kind == loom.OwnLead || ownLead(g, r) {
		return Cut{}, false
	}
	c := Cut{Kind: r.Wire.Kind, Colour: colourOf(in, run), Sleeved: r.Wire.Sleeved, Size: r.Wire.Size,
		From: g.Terms[r.A].Name, To: g.Terms[r.B].Name, Drawn: drawnLength(in, run)}
	if c.Drawn > 0 {
		c.Length = math.Ceil((c.Drawn*(1+slackShare)+slackEnds)/cutStep) * cutStep
	}
	c.Tail = tailEnd(g, r.A) || tailEnd(g, r.B)
	c.Strip = stripWords(c.Kind)
	return c, true
}

// ownLead reports whether a run is the lead of a pickup, a component or the
// string ground, which is there already.
func ownLead(g *wiring.Graph, r *wiring.Run) bool {
	for _, t := range []int{r.A, r.B} {
		if g.Terms[t].Kind == "lead" || classOf(g, t) == "ground" && g.Terms[t].Kind == "point" {
			return true
		}
	}
	return false
}

func classOf(g *wiring.Graph, term int) string {
	if u := g.Terms[term].Use; u >= 0 {
		return g.Loom.Uses[u].Part.Class
	}
	return ""
}

func tailEnd(g *wiring.Graph, term int) bool {
	return slices.Contains([]string{"jack", "points", "output"}, classOf(g, term))
}

// colourOf is the colour of a run's wire: the loom file's, else the drawing's.
func colourOf(in *Input, run int) string {
	w := in.Graph.Runs[run].Wire
	if w.Colour != "" || w.Kind == loom.Bare || in.Drawing == nil {
		return w.Colour
	}
	for i := range in.Drawing.Wires {
		if d := &in.Drawing.Wires[i]; d.Run == run && d.Look.Colour.Base != "" {
			return d.Look.Colour.String()
		}
	}
	return ""
}

// drawnLength is the length of a run along its lane in the drawing, its braid
// left out.
func drawnLength(in *Input, run int) float64 {
	if in.Drawing == nil {
		return 0
	}
	return in.Drawing.RunLength(run)
}

// stripWords is what comes off each end (common practice, no source).
func stripWords(k loom.WireKind) string {
	switch k {
	case loom.Bare:
		return "–"
	case loom.Screened:
		return "jacket 20, core 5"
	}
	return "5, or push back 6"
}

// Total is the wire of one kind and colour.
type Total struct {
	Kind   loom.WireKind
	Colour string
	Size   string
	Pieces int
	Length float64 // mm
}

// Totals adds cuts up by kind, colour and size, in order of their first cut.
func Totals(cuts []Cut) []Total {
	var out []Total
	for _, c := range cuts {
		k := slices.IndexFunc(out, func(t Total) bool { return t.Kind == c.Kind && t.Colour == c.Colour && t.Size == c.Size.Text })
		if k < 0 {
			k = len(out)
			out = append(out, Total{Kind: c.Kind, Colour: c.Colour, Size: c.Size.Text})
		}
		out[k].Pieces++
		out[k].Length += c.Length
	}
	return out
}

// kindWords names a kind of wire.
func kindWords(k loom.WireKind) string {
	switch k {
	case loom.Bare:
		return "bare"
	case loom.Screened:
		return "screened cable"
	}
	return "hookup"
}

// cutList is the list of cuts with totals and sizes.
func cutList(in *Input) []Block {
	cuts := Cuts(in)
	if len(cuts) == 0 {
		return nil
	}
	t := Table{Name: "cut list", Heads: []string{"step", "kind", "colour", "from", "to", "cut, mm", "strip each end, mm", "cut"},
		Shares: []float64{10, 26, 22, 36, 36, 16, 30, 9}}
	for _, c := range cuts {
		kind := kindWords(c.Kind)
		if c.Sleeved {
			kind += ", sleeved"
		}
		t.Rows = append(t.Rows, []Cell{{Text: fmt.Sprint(c.Step), Bold: true}, {Text: kind}, {Text: colourWords(c.Colour)}, {Text: c.From}, {Text: c.To},
			{Text: c.lengthWords()}, {Text: c.Strip}, {Tick: true}})
	}
	note := "Lengths are those of the drawing and 15 % and 20 mm more, rounded up to 5 mm. Lay a wire before you cut it: cavities differ."
	if slices.ContainsFunc(cuts, func(c Cut) bool { return c.Tail }) {
		note += " A length with + goes to the jack or to the customer's parts: measure that way in the guitar."
	}
	return append([]Block{Heading{Text: "Cut list", Level: 1}, t, Paragraph{Text: note, Small: true}, totals(cuts)}, sizes(in)...)
}

// colourWords is a colour with its letters after IEC 60757, as tags in the
// drawing show them where room is short.
func colourWords(s string) string {
	c, err := units.ReadColour(s)
	if err != nil {
		return "–"
	}
	return c.String() + " " + c.Letters()
}

func (c *Cut) lengthWords() string {
	switch {
	case c.Length == 0:
		return "measure"
	case c.Tail:
		return fmt.Sprintf("%.0f +", c.Length)
	}
	return fmt.Sprintf("%.0f", c.Length)
}

// totals is the wire to have on the bench.
func totals(cuts []Cut) Table {
	t := Table{Name: "wire in all", Heads: []string{"wire in all", "pieces", "length"}, Shares: []float64{90, 40, 50}}
	for _, w := range Totals(cuts) {
		length := fmt.Sprintf("%.2f m", w.Length/1000)
		if w.Length == 0 {
			length = "measure"
		}
		name := strings.Join(nonEmpty(w.Colour, kindWords(w.Kind), w.Size), " ")
		t.Rows = append(t.Rows, []Cell{{Text: capital(name)}, {Text: fmt.Sprint(w.Pieces)}, {Text: length, Bold: true}})
	}
	return t
}
