package drawing

import (
	"slices"
	"testing"

	"loomwright/internal/scene"
)

// TestLintFindsHarm: a clean drawing that is harmed in one way has that flaw.
func TestLintFindsHarm(t *testing.T) {
	plain := drawn(t, graphOf(t, "b", exampleFiles(t)["b-two-twin-coils"]), Options{})
	for rule, harm := range map[string]func(d *Drawing){
		"missing":  func(d *Drawing) { d.Wires, d.Tags, d.Crossings, d.joints = d.Wires[1:], nil, nil, nil },
		"conflict": func(d *Drawing) { d.Wires[3].Clean = false },
		"end":      func(d *Drawing) { d.Wires[0].Points[0] = d.Wires[0].Points[0].Add(scene.Pt(0.5, 0)) },
		"spacing":  func(d *Drawing) { shift(d, "neck.bare", "neck.yellow", 1.2) },
		"body":     func(d *Drawing) { moveWire(d, 0, d.Plan.Parts[7].At) },
		"order":    func(d *Drawing) { c := &d.Crossings[0]; c.Over, c.Under = c.Under, c.Over },
		"tag":      func(d *Drawing) { d.Tags[0].At = d.Tags[5].At },
		"step": func(d *Drawing) {
			run := d.Wires[3].Run
			d.Tags = slices.DeleteFunc(slices.Clone(d.Tags), func(t Tag) bool { return d.Wires[t.Wire].Run == run })
		},
		"page":  func(d *Drawing) { d.Tags[2].At = scene.Pt(-500, 0) },
		"words": func(d *Drawing) { d.names[0][0].At = d.Wires[0].Points[0] },
	} {
		d := redrawn(plain, Options{})
		if flaws := Lint(d); len(flaws) > 0 {
			t.Fatalf("the drawing has flaws before any harm: %v", flaws)
		}
		d.names = slices.Clone(d.names)
		d.names[0] = slices.Clone(d.names[0])
		harm(d)
		if !slices.ContainsFunc(Lint(d), func(f Flaw) bool { return f.Rule == rule }) {
			t.Errorf("no flaw %q after that harm", rule)
		}
	}
}

// shift lays one wire beside another at a distance.
func shift(d *Drawing, a, b string, by float64) {
	from, to := 0, 0
	for i := range d.Wires {
		switch d.Wires[i].A {
		case a:
			from = i
		case b:
			to = i
		}
	}
	var points []scene.Point
	for _, p := range d.Wires[to].Points {
		points = append(points, p.Add(scene.Pt(by/2, by)))
	}
	d.Wires[from].Points = points
	d.Wires[from].shape()
}

// moveWire sends a wire through a place.
func moveWire(d *Drawing, i int, through scene.Point) {
	p := d.Wires[i].Points
	d.Wires[i].Points = []scene.Point{p[0], through, p[len(p)-1]}
	d.Wires[i].shape()
}

// worst is what the drawings of random looms may have at most, in all of them.
var worst = map[string]int{"missing": 0, "end": 0, "order": 0, "page": 0, "look": 0, "body": 1}

// TestRandomLooms draws looms of random joins, more crowded than any guitar's,
// and counts flaws: the hard ones must not be there, of the others few.
func TestRandomLooms(t *testing.T) { lintRandom(t, 8, 0.5) }

// lintRandom draws n random looms; soft flaws may be so many a loom.
func lintRandom(t *testing.T, n int, soft float64) {
	count, all, clean := map[string]int{}, 0, 0
	for seed := range uint64(n) {
		d := drawn(t, graphOf(t, "random", randomLoom(seed)), Options{})
		flaws := Lint(d)
		for _, f := range flaws {
			count[f.Rule]++
			all++
		}
		if len(flaws) == 0 {
			clean++
		}
	}
	t.Logf("%d of %d looms without a flaw; flaws %v", clean, n, count)
	for rule, limit := range worst {
		if count[rule] > limit {
			t.Errorf("%d flaws %q in %d looms", count[rule], rule, n)
		}
	}
	if float64(all) > soft*float64(n) {
		t.Errorf("%d flaws in %d looms", all, n)
	}
}
