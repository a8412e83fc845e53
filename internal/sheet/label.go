package sheet

import "loomwright/internal/scene"

// label is a few centred lines under something, the first ones bold.
type label struct {
	lines []string
	bold  int // lines that are bold
	size  float64
	mid   float64 // x of its middle
	top   float64
}

const (
	labelStep = 1.25 // height of its lines, in sizes
	labelHalo = 0.5  // mm
)

// newLabel breaks a name, and words under it, into lines of a width.
func newLabel(name, words string, width, size float64, under scene.Point) label {
	l := label{size: size, mid: under.X, top: under.Y}
	add := func(text string, bold bool) {
		for _, line := range wrap(text, width, size) {
			content := ""
			for _, s := range line {
				content += s.text
			}
			if content == "" {
				continue
			}
			l.lines = append(l.lines, content)
			if bold {
				l.bold++
			}
		}
	}
	add("**"+name+"**", true)
	add(words, false)
	return l
}

func (l *label) box() scene.Rect {
	w := 0.0
	for i, t := range l.lines {
		w = max(w, scene.TextWidth(t, l.size, scene.Style{Bold: i < l.bold}))
	}
	return scene.Box(l.mid-w/2, l.top, w, l.size*labelStep*float64(len(l.lines)))
}

func (l *label) paint() []scene.Item {
	var items []scene.Item
	for i, t := range l.lines {
		items = append(items, scene.Text{At: scene.Pt(l.mid, l.top+l.size*labelStep*float64(i)), Content: t, Size: l.size, Style: scene.Style{Bold: i < l.bold},
			Anchor: scene.Middle, Baseline: scene.CapTop, Color: ink, Halo: scene.Halo{Color: scene.White, Width: labelHalo}})
	}
	return items
}

// settle moves labels sideways into a range and down until each lies apart from
// the others and from bodies but its own; it returns the lowest edge.
func settle(labels []label, bodies []scene.Rect, from, to float64) float64 {
	lowest := 0.0
	for i := range labels {
		l := &labels[i]
		half := l.box().Width() / 2
		l.mid = min(max(l.mid, from+half), max(to-half, from+half))
		for !free(l.box().Grow(2*labelHalo+0.1), i, labels[:i], bodies) {
			l.top += 0.5
		}
		lowest = max(lowest, l.box().Max.Y)
	}
	return lowest
}

func free(box scene.Rect, own int, labels []label, bodies []scene.Rect) bool {
	for i := range labels {
		if labels[i].box().Overlaps(box) {
			return false
		}
	}
	for i, b := range bodies {
		if i != own && b.Overlaps(box) {
			return false
		}
	}
	return true
}
