package library_test

import (
	"slices"
	"strings"
	"testing"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/units"
)

// leadsOf reads a loom with one pickup of a code and writes what each lead is:
// "brown=north.start", "pink may be south.start or south.finish".
func leadsOf(t *testing.T, pickup, code string) (string, *loom.Use) {
	t.Helper()
	text := diag.NewText("test", "loomwright: 1\nparts:\n  p: {is: "+pickup+", code: "+code+"}\n  jack: {is: jack/mono}\n")
	l, list := loom.Read(text, shelf())
	if l == nil || list.HasErrors() {
		t.Fatalf("%s on %s: %v", code, pickup, list)
	}
	u := &l.Uses[0]
	names := func(terminals []int, sep string) string {
		var out []string
		for _, i := range terminals {
			out = append(out, u.Part.Terminals[i].Name)
		}
		return strings.Join(out, sep)
	}
	var rows []string
	for _, lead := range u.Leads {
		row := lead.Name
		if len(lead.Ends) > 0 {
			row += "=" + names(lead.Ends, "=")
		}
		if len(lead.May) > 0 {
			row += " may be " + names(lead.May, " or ")
		}
		rows = append(rows, row)
	}
	for _, group := range u.Inside {
		rows = append(rows, "inside "+names(group, "="))
	}
	return strings.Join(rows, "\n"), u
}

// TestCodes holds each invented code to what it means on an ordinary twin coil.
func TestCodes(t *testing.T) {
	for code, want := range map[string]string{
		"dunlin": `
			orange=north.start
			pink=north.finish
			blue=south.finish
			violet=south.start
			bare=shield`,
		"curlew": `
			brown=north.start
			grey=south.start
			bare=shield
			inside north.finish=south.finish`,
		"whimbrel": `
			yellow=north.start
			braid=south.start=shield
			inside north.finish=south.finish`,
		"knot": `
			turquoise=north.start
			brown=north.finish
			blue/yellow may be south.start or south.finish
			pink/grey may be south.start or south.finish
			bare=shield`,
	} {
		for _, pickup := range []string{"pickup/twin-coil", "pickup/twin-coil-covered"} {
			if got, _ := leadsOf(t, pickup, code); got != lines(want) {
				t.Errorf("%s on %s:\n%s\nwant\n%s", code, pickup, got, lines(want))
			}
		}
	}
	if got, _ := leadsOf(t, "pickup/stacked", "curlew"); !strings.Contains(got, "brown=upper.start\ngrey=lower.start") {
		t.Errorf("curlew on a stack:\n%s", got)
	}
}

// TestCodesAreColours: leads are named by colours that a reader knows, no two
// alike, and clear of red, green, white and black, so that nobody takes an
// invented code for a real chart.
func TestCodesAreColours(t *testing.T) {
	n := 0
	for _, id := range shelf().IDs() {
		name, isCode := strings.CutPrefix(id, "codes/")
		if !isCode {
			continue
		}
		c, list := shelf().Code(name)
		if c == nil || len(list) > 0 {
			t.Errorf("%s: %v", id, list)
			continue
		}
		if !strings.Contains(c.About, "Invented") {
			t.Errorf("%s does not say that it is invented", id)
		}
		for _, lead := range c.Leads {
			if lead.Name == "bare" || lead.Name == "braid" {
				continue
			}
			n++
			colour, err := units.ReadColour(lead.Name)
			if err != nil || colour.String() != lead.Name {
				t.Errorf("%s: %q is no colour: %v", id, lead.Name, err)
			}
			for _, usual := range []string{"red", "green", "white", "black"} {
				if slices.Contains([]string{colour.Base, colour.Stripe}, usual) {
					t.Errorf("%s: %s", id, lead.Name)
				}
			}
		}
	}
	if n < 10 {
		t.Errorf("only %d colours were looked at", n)
	}
}
