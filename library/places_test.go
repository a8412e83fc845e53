package library_test

import (
	"fmt"
	"strings"
	"testing"
)

// TestToggleIsOpposite: a toggle closes the lugs opposite its lever, a slide
// those on the side it moves to (common practice, no source). y runs down.
func TestToggleIsOpposite(t *testing.T) {
	toggles := 0
	for _, p := range parts(t) {
		for _, term := range p.Terminals {
			pole, up := strings.CutSuffix(term.Name, ".up")
			if !up {
				continue
			}
			toggles++
			below := term.At[1] > terminal(t, p, pole).At[1]
			if toggle := p.ID != "switch/slide-dpdt"; below != toggle {
				t.Errorf("%s: %s below its common: %v", p.ID, term.Name, below)
			}
			if word := strings.Contains(term.Words, "lower"); word != below {
				t.Errorf("%s: %s is called %q", p.ID, term.Name, term.Words)
			}
			if i, ok := p.Terminal(pole + ".down"); ok && (p.Terminals[i].At[1] < terminal(t, p, pole).At[1]) != below {
				t.Errorf("%s: both lugs of pole %s lie on one side of its common", p.ID, pole)
			}
		}
	}
	if toggles < 10 {
		t.Errorf("only %d poles were looked at", toggles)
	}
}

// TestPullIsASlide: pulling moves the slide toward the shaft, so that the lugs
// nearest the shaft are met with the knob pulled (from memory).
func TestPullIsASlide(t *testing.T) {
	for _, id := range []string{"pot/push-pull-lugs", "pot/push-push-lugs"} {
		p := get(t, id)
		for _, pole := range []string{"pull.a", "pull.b"} {
			if w := terminal(t, p, pole+".pulled").Words; !strings.Contains(w, "nearest the shaft") {
				t.Errorf("%s: %s.pulled is the %q", id, pole, w)
			}
			if w := terminal(t, p, pole+".pushed").Words; !strings.Contains(w, "farthest from the shaft") {
				t.Errorf("%s: %s.pushed is the %q", id, pole, w)
			}
		}
	}
}

// TestPadsConfirm: board pads differ between makers, and a pin is beside its pad.
func TestPadsConfirm(t *testing.T) {
	for _, id := range []string{"pot/push-pull-pads", "pot/push-push-pads"} {
		p := get(t, id)
		if !strings.Contains(p.Confirm, "meter") || !strings.Contains(p.Source, "differ") {
			t.Errorf("%s asks for no reading", id)
		}
		for _, term := range p.Terminals {
			onSlide := strings.HasPrefix(term.Name, "pull.")
			if term.HasPin != onSlide || onSlide && (term.Pin[1] != term.At[1] || term.Kind != "pad") {
				t.Errorf("%s: %s has its pin at %v, pad at %v", id, term.Name, term.Pin, term.At)
			}
		}
	}
}

// TestPotLugs: seen from the back with the lugs down the lugs are cw, wiper,
// ccw from left to right, and the case is in the middle.
func TestPotLugs(t *testing.T) {
	for _, p := range parts(t) {
		if p.Class != "pot" {
			continue
		}
		for _, tr := range p.Tracks {
			cw, wiper, ccw := p.Terminals[tr.CW].At, p.Terminals[tr.Wiper].At, p.Terminals[tr.CCW].At
			if !(cw[0] < wiper[0] && wiper[0] < ccw[0]) || cw[1] <= 0 || cw[1] != wiper[1] || cw[1] != ccw[1] {
				t.Errorf("%s, track %s: cw %v, wiper %v, ccw %v", p.ID, tr.Name, cw, wiper, ccw)
			}
		}
		if c := terminal(t, p, "case"); c.At != [2]float64{} || c.Kind != "case" || len(p.Grounds) != 1 {
			t.Errorf("%s: case %+v, grounds %v", p.ID, c, p.Grounds)
		}
	}
}

// TestThrowOrder: throws of a lever run from the bridge end (right) to the
// left; throws of a rotary run anticlockwise seen from the back.
func TestThrowOrder(t *testing.T) {
	for _, p := range parts(t) {
		lever, rotary := strings.HasPrefix(p.ID, "switch/lever"), strings.HasPrefix(p.ID, "switch/rotary")
		if !lever && !rotary {
			continue
		}
		for _, pole := range p.Switches[0].Poles {
			for k := 1; ; k++ {
				i, more := p.Terminal(fmt.Sprintf("%s.%d", pole.Name, k+1))
				if !more {
					break
				}
				a, b := terminal(t, p, fmt.Sprintf("%s.%d", pole.Name, k)).At, p.Terminals[i].At
				if rotary && a[0]*b[1]-a[1]*b[0] >= 0 {
					t.Errorf("%s: throw %d of pole %s is not anticlockwise of throw %d", p.ID, k+1, pole.Name, k)
				}
				if lever && p.ID != "switch/lever-5way-inline" && b[0] >= a[0] {
					t.Errorf("%s: throw %d of pole %s is not left of throw %d", p.ID, k+1, pole.Name, k)
				}
			}
		}
	}
}
