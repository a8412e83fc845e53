package library_test

import (
	"io/fs"
	"math"
	"path"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/part"
	"loomwright/library"
)

func shelf() *part.Library {
	return part.NewLibrary(part.Shelf{Name: "library", FS: library.Files})
}

// get reads a part that must be without findings.
func get(t *testing.T, id string) *part.Part {
	t.Helper()
	p, list := shelf().Part(id)
	if p == nil || len(list) > 0 {
		t.Fatalf("%s: %v", id, list)
	}
	return p
}

// parts reads every part of the library.
func parts(t *testing.T) []*part.Part {
	t.Helper()
	lib := shelf()
	var out []*part.Part
	for _, id := range lib.IDs() {
		if strings.HasPrefix(id, "codes/") {
			continue
		}
		p, list := lib.Part(id)
		if p == nil || len(list) > 0 {
			t.Errorf("%s: %v", id, list)
			continue
		}
		out = append(out, p)
	}
	return out
}

func terminal(t *testing.T, p *part.Part, name string) part.Terminal {
	t.Helper()
	i, ok := p.Terminal(name)
	if !ok {
		t.Fatalf("%s has no terminal %q", p.ID, name)
	}
	return p.Terminals[i]
}

// shipped is what the library must hold: every part that examples and users count on.
const shipped = `
bleed/capacitor bleed/parallel bleed/series capacitor/ceramic capacitor/film
codes/curlew codes/dunlin codes/knot codes/whimbrel
ground/plate ground/string jack/mono jack/stereo jack/switched output/tails
pickup/points-single pickup/points-twin pickup/single-coil pickup/single-coil-covered pickup/split-bass pickup/stacked
pickup/tapped-coil pickup/three-coil pickup/twin-coil pickup/twin-coil-covered
pot/blend pot/concentric pot/dual-gang pot/mini pot/no-load pot/push-pull-lugs pot/push-pull-pads pot/push-push-lugs
pot/push-push-pads pot/standard resistor/quarter-watt splice/joint splice/strip-4
switch/4pdt switch/dpdt-on-off-on switch/dpdt-on-on switch/dpdt-on-on-on switch/dpdt-on-on-on-mirrored
switch/lever-3way switch/lever-3way-2pole switch/lever-4p5t switch/lever-4way switch/lever-5way switch/lever-5way-inline
switch/rotary-1p3 switch/rotary-1p4 switch/rotary-1p5 switch/rotary-1p6 switch/rotary-2p3 switch/rotary-2p4
switch/rotary-2p5 switch/rotary-2p6 switch/rotary-3p3 switch/rotary-3p4 switch/rotary-3p5 switch/rotary-3p6
switch/rotary-4p3 switch/rotary-4p4 switch/rotary-4p5 switch/rotary-4p6
switch/slide-dpdt switch/spdt-on-off-on switch/spdt-on-on switch/spst switch/toggle-3way switch/toggle-3way-separate`

func TestShipped(t *testing.T) {
	have := shelf().IDs()
	for _, id := range strings.Fields(shipped) {
		if !slices.Contains(have, id) {
			t.Errorf("%s is missing", id)
		}
	}
}

// TestEmbedded holds the embedding to the folder: a file that lies deeper or
// has another ending would be lost without a word.
func TestEmbedded(t *testing.T) {
	n := 0
	err := fs.WalkDir(library.Files, ".", func(p string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			n++
			if path.Ext(p) != ".yaml" || strings.Count(p, "/") != 1 {
				t.Errorf("%s is not <folder>/<name>.yaml", p)
			}
		}
		return err
	})
	if err != nil || n < len(strings.Fields(shipped)) {
		t.Errorf("%d files, %v", n, err)
	}
}

// TestEveryPart holds what is true of each part file.
func TestEveryPart(t *testing.T) {
	for _, p := range parts(t) {
		t.Run(p.ID, func(t *testing.T) {
			folder, _ := path.Split(p.ID)
			if folder != p.Class+"/" && p.Class != "points" {
				t.Errorf("class %s lies in %s", p.Class, folder)
			}
			if !strings.Contains(p.Source, "from memory") && !strings.Contains(p.Source, "common practice") {
				t.Errorf("source %q does not say where the facts come from", p.Source)
			}
			if len(p.Switches) > 0 && p.Confirm == "" {
				t.Error("which contacts meet is from memory, and nothing says to confirm it with the meter")
			}
			checkPlaces(t, p)
			checkUse(t, p)
			checkPoles(t, p)
			checkOutline(t, p)
		})
	}
}

// least is the least distance of two places where an iron goes, in mm.
const least = 2.0

type place struct {
	name string
	at   [2]float64
}

func places(p *part.Part) []place {
	var out []place
	for _, t := range p.Terminals {
		out = append(out, place{t.Name, t.At})
		if t.HasPin {
			out = append(out, place{t.Name + " (pin)", t.Pin})
		}
	}
	return out
}

func checkPlaces(t *testing.T, p *part.Part) {
	for _, term := range p.Terminals {
		if !term.Placed || term.Words == "" || len(term.Exit) == 0 {
			t.Errorf("%s: a place, words and an exit are wanted", term.Name)
		}
		for _, e := range term.Exit {
			if !slices.Contains([]string{"up", "down", "left", "right"}, e) {
				t.Errorf("%s: exit %q", term.Name, e)
			}
		}
		if sided(term.Words) && term.View == "" {
			t.Errorf("%s: %q belongs to no view", term.Name, term.Words)
		}
	}
	all := places(p)
	for i, a := range all {
		for _, b := range all[:i] {
			if d := math.Hypot(a.at[0]-b.at[0], a.at[1]-b.at[1]); d < least {
				t.Errorf("%s and %s are %.2f mm apart", a.name, b.name, d)
			}
		}
	}
}

// sided tells words that mean something only from one side of the part.
func sided(words string) bool {
	for _, w := range strings.FieldsFunc(words, func(r rune) bool { return r == ' ' || r == ',' }) {
		if slices.Contains([]string{"left", "right", "clockwise", "anticlockwise"}, w) && !strings.Contains(words, "turn") {
			return true
		}
	}
	return false
}

// checkUse finds terminals that nothing in the part mentions: a slip of the pen.
func checkUse(t *testing.T, p *part.Part) {
	if p.Class == "splice" || p.Class == "ground" {
		return
	}
	used := map[int]bool{}
	mark := func(terminals ...int) {
		for _, i := range terminals {
			used[i] = true
		}
	}
	for _, c := range p.Coils {
		mark(c.Start, c.Finish)
	}
	for _, tr := range p.Tracks {
		mark(tr.CW, tr.Wiper, tr.CCW)
	}
	for _, x := range append(slices.Clone(p.Capacitors), p.Resistors...) {
		mark(x.A, x.B)
	}
	for _, s := range p.Switches {
		for _, pole := range s.Poles {
			mark(poleTerminals(pole)...)
		}
	}
	if p.Output != nil {
		mark(p.Output.Hot, p.Output.Ground)
	}
	mark(p.Grounds...)
	for i, term := range p.Terminals {
		if !used[i] && !(p.ID == "jack/stereo" && term.Name == "ring") {
			t.Errorf("nothing uses the terminal %s", term.Name)
		}
	}
}

// poleTerminals lists the terminals that a pole joins in any position.
func poleTerminals(pole part.Pole) []int {
	var out []int
	for _, groups := range pole.Contacts {
		for _, g := range groups {
			out = append(out, g...)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// checkPoles: no two poles share a terminal, every contact of a pole holds its
// common, and two positions that join the same would be one.
func checkPoles(t *testing.T, p *part.Part) {
	owner := map[int]string{}
	for si, s := range p.Switches {
		for _, pole := range s.Poles {
			for _, i := range poleTerminals(pole) {
				if other, taken := owner[i]; taken {
					t.Errorf("poles %s and %s share %s", other, pole.Name, p.Terminals[i].Name)
				}
				owner[i] = pole.Name
			}
			for _, groups := range pole.Contacts {
				if len(groups) > 1 || len(groups) == 1 && !slices.Contains(groups[0], pole.Common) {
					t.Errorf("pole %s joins terminals without its common", pole.Name)
				}
			}
		}
		for i := range s.Positions {
			for j := range i {
				if joined(p, si, i) == joined(p, si, j) {
					t.Errorf("positions %s and %s join the same", s.Positions[i].Name, s.Positions[j].Name)
				}
			}
			if s.Positions[i].Words == "" {
				t.Errorf("position %s has no words", s.Positions[i].Name)
			}
		}
	}
}
