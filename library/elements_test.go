package library_test

import (
	"fmt"
	"strings"
	"testing"

	"loomwright/internal/part"
)

// elements writes what a part has between its terminals, and its output and grounds.
func elements(p *part.Part) string {
	name := func(i int) string { return p.Terminals[i].Name }
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	for _, c := range p.Coils {
		add("coil %s %s-%s", c.Name, name(c.Start), name(c.Finish))
	}
	for _, t := range p.Tracks {
		add("track %s-%s-%s", name(t.CW), name(t.Wiper), name(t.CCW))
	}
	for _, c := range p.Capacitors {
		add("capacitor %s-%s", name(c.A), name(c.B))
	}
	for _, c := range p.Resistors {
		add("resistor %s-%s", name(c.A), name(c.B))
	}
	if p.Output != nil {
		add("hot %s, ground %s", name(p.Output.Hot), name(p.Output.Ground))
	}
	for _, g := range p.Grounds {
		add("grounded %s", name(g))
	}
	return strings.Join(out, "; ")
}

// TestElements holds the parts to what is between their terminals.
func TestElements(t *testing.T) {
	const twin = "coil north north.start-north.finish; coil south south.start-south.finish"
	for id, want := range map[string]string{
		"pickup/single-coil":          "coil coil coil.start-coil.finish",
		"pickup/single-coil-covered":  "coil coil coil.start-coil.finish; grounded cover",
		"pickup/tapped-coil":          "coil lower start-tap; coil upper tap-finish",
		"pickup/twin-coil":            twin + "; grounded shield; grounded baseplate",
		"pickup/twin-coil-covered":    twin + "; grounded shield; grounded baseplate; grounded cover",
		"pickup/three-coil":           twin + "; coil single single.start-single.finish; grounded shield; grounded baseplate",
		"pickup/stacked":              "coil upper upper.start-upper.finish; coil lower lower.start-lower.finish; grounded shield",
		"pickup/split-bass":           "coil low low.start-low.finish; coil high high.start-high.finish",
		"pickup/points-single":        "coil coil coil.start-coil.finish; grounded shield",
		"pickup/points-twin":          twin + "; grounded shield",
		"pot/standard":                "track cw-wiper-ccw; grounded case",
		"pot/blend":                   "track front.cw-front.wiper-front.ccw; track rear.cw-rear.wiper-rear.ccw; grounded case",
		"pot/concentric":              "track lower.cw-lower.wiper-lower.ccw; track upper.cw-upper.wiper-upper.ccw; grounded case",
		"pot/push-pull-pads":          "track cw-wiper-ccw; grounded case",
		"jack/mono":                   "hot tip, ground sleeve",
		"jack/stereo":                 "hot tip, ground sleeve",
		"jack/switched":               "hot tip, ground sleeve",
		"output/tails":                "hot hot, ground ground",
		"capacitor/film":              "capacitor a-b",
		"capacitor/ceramic":           "capacitor a-b",
		"resistor/quarter-watt":       "resistor a-b",
		"bleed/capacitor":             "capacitor a-b",
		"bleed/series":                "capacitor a-middle; resistor middle-b",
		"bleed/parallel":              "capacitor a-b; resistor a-b",
		"ground/string":               "grounded wire",
		"ground/plate":                "grounded plate",
		"splice/joint":                "",
		"splice/strip-4":              "grounded ground",
		"switch/toggle-3way":          "grounded case",
		"switch/toggle-3way-separate": "grounded case",
	} {
		if got := elements(get(t, id)); got != want {
			t.Errorf("%s: %s\nwant %s", id, got, want)
		}
	}
}
