package library_test

import (
	"testing"

	"loomwright/internal/part"
)

// checkOutline: every shape is whole, and terminals lie on what is drawn.
func checkOutline(t *testing.T, p *part.Part) {
	var lo, hi [2]float64
	grow := func(x, y float64) {
		lo[0], lo[1] = min(lo[0], x), min(lo[1], y)
		hi[0], hi[1] = max(hi[0], x), max(hi[1], y)
	}
	for i, s := range p.Outline {
		checkShape(t, i, s)
		grow(s.At[0]-s.Size[0]/2, s.At[1]-s.Size[1]/2)
		grow(s.At[0]+s.Size[0]/2, s.At[1]+s.Size[1]/2)
		for _, q := range s.Points {
			grow(q[0], q[1])
		}
	}
	const reach = 11 // mm that a pickup's leads fan out from its jacket
	for _, term := range p.Terminals {
		far := 0.5
		if term.Kind == "lead" && p.Class == "pickup" {
			far = reach
		}
		if term.At[0] < lo[0]-far || term.At[0] > hi[0]+far || term.At[1] < lo[1]-far || term.At[1] > hi[1]+far {
			t.Errorf("%s at %v lies off the outline %v to %v", term.Name, term.At, lo, hi)
		}
	}
}

func checkShape(t *testing.T, i int, s part.Shape) {
	ok := s.Fill != ""
	switch s.Shape {
	case "circle":
		ok = ok && s.Size[0] > 0 && s.Size[0] == s.Size[1]
	case "rect":
		ok = ok && s.Size[0] > 0 && s.Size[1] > 0 && s.Round <= min(s.Size[0], s.Size[1])/2
	case "path":
		ok = ok && len(s.Points) > 2
	case "line":
		ok = ok && len(s.Points) > 1
	case "text":
		ok = s.Text != "" && s.Fill == ""
	}
	if !ok {
		t.Errorf("shape %d of the outline is not whole: %+v", i+1, s)
	}
}
