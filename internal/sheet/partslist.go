package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"loomwright/internal/build"
)

// partsList is what to have on the bench, and what to confirm of it.
func partsList(in *Input) []Block {
	t := Table{Name: "parts", Heads: []string{"", "part", "value", "in the loom", "body, mm", "depth", "shaft and thread", "hole"},
		Shares: []float64{7, 33, 28, 30, 25, 14, 31, 18}}
	var confirm []string
	deepest, deep := "", 0.0
	for _, l := range build.Parts(in.Graph) {
		names := strings.Join(append(slices.Clone(l.Names), l.Called...), ", ")
		shaft := strings.Join(nonEmpty(l.Body.Shaft, l.Body.Thread), "; ")
		t.Rows = append(t.Rows, []Cell{{Text: fmt.Sprint(l.Count), Bold: true}, {Text: l.Part}, {Text: l.Value}, {Text: names},
			{Text: times(l.Body.Size)}, {Text: l.Body.Depth}, {Text: times(shaft)}, {Text: times(l.Body.Hole)}})
		if l.Confirm != "" {
			confirm = append(confirm, fmt.Sprintf("**%s** (%s): %s.", l.Part, strings.Join(l.Names, ", "), strings.TrimSuffix(l.Confirm, ".")))
		}
		if d := leadingNumber(l.Body.Depth); d > deep {
			deep, deepest = d, l.Part
		}
	}
	out := []Block{Heading{Text: "Parts", Level: 1}, t}
	note := "Dimensions are typical, from memory, unless your own part file says otherwise: measure before you drill."
	if deep > 0 {
		note = fmt.Sprintf("The deepest is the %s: the cavity must be at least %g mm deep below the plate, and a little more for wires. ", deepest, deep) + note
	}
	out = append(out, Paragraph{Text: note, Small: true})
	if len(confirm) > 0 {
		out = append(out, Heading{Text: "Confirm with the meter before soldering", Level: 3}, List{Items: confirm, Ticks: true})
	}
	return out
}

// times writes the x of dimensions as a sign.
func times(s string) string { return strings.ReplaceAll(s, " x ", " × ") }

func nonEmpty(words ...string) []string {
	return slices.DeleteFunc(words, func(w string) bool { return w == "" })
}

// leadingNumber is the number that a text starts with; 0 for none.
func leadingNumber(s string) float64 {
	n := strings.IndexFunc(s, func(r rune) bool { return (r < '0' || r > '9') && r != '.' })
	if n < 0 {
		n = len(s)
	}
	x, _ := strconv.ParseFloat(s[:n], 64)
	return x
}
