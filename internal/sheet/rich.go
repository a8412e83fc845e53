package sheet

import (
	"strings"

	"loomwright/internal/scene"
)

// Sizes of print in mm (the em), and the height of a line in ems.
const (
	bodySize    = 3.15
	smallSize   = 2.65
	titleSize   = 7.2
	headSize1   = 5.2
	headSize2   = 4.0
	headSize3   = 3.4
	lineHeight  = 1.38
	smallLeader = 1.32
)

// Inks of the page: all print in black and white.
var (
	ink  = scene.RGB(0x1c2127)
	soft = scene.RGB(0x5b6067)
	rule = scene.RGB(0xa9adb1)
	wash = scene.RGB(0xf1f2f2)
)

// span is a stretch of text in one weight.
type span struct {
	text string
	bold bool
}

// spans reads **bold** words out of a text.
func spans(text string) []span {
	var out []span
	for i, piece := range strings.Split(text, "**") {
		if piece != "" {
			out = append(out, span{piece, i%2 == 1})
		}
	}
	return out
}

// plain is a text without its marks.
func plain(text string) string { return strings.ReplaceAll(text, "**", "") }

// word is what lines are made of; free: a line may end behind it.
type word struct {
	span
	free bool
}

// words cuts spans into words that keep the space behind them.
func words(all []span) []word {
	var out []word
	for _, s := range all {
		for _, w := range strings.SplitAfter(s.text, " ") {
			if w != "" {
				out = append(out, word{span{w, s.bold}, strings.HasSuffix(w, " ")})
			}
		}
	}
	return out
}

// wrap breaks a text into lines of spans, none wider than width mm, but for
// single words that are.
func wrap(text string, width, size float64) [][]span {
	var lines [][]span
	for paragraph := range strings.SplitSeq(text, "\n") {
		lines = append(lines, wrapOne(paragraph, width, size)...)
	}
	return lines
}

func wrapOne(text string, width, size float64) [][]span {
	var lines [][]span
	var line []span
	used, free := 0.0, true
	for _, w := range fitting(words(spans(text)), width, size) {
		style := scene.Style{Bold: w.bold}
		need := scene.TextWidth(strings.TrimRight(w.text, " "), size, style)
		if used+need > width && len(line) > 0 && free {
			lines = append(lines, line)
			line, used = nil, 0
		}
		line = appendSpan(line, w.span)
		used += scene.TextWidth(w.text, size, style)
		free = w.free
	}
	return append(lines, line)
}

// fitting cuts words that are wider than a line, after a mark where there is
// one.
func fitting(all []word, width, size float64) []word {
	var out []word
	for _, w := range all {
		fits := func(s string) bool {
			return scene.TextWidth(strings.TrimRight(s, " "), size, scene.Style{Bold: w.bold}) <= width
		}
		for !fits(w.text) {
			cut := cutAt(w.text, fits)
			if cut == len(w.text) {
				break
			}
			out = append(out, word{span{w.text[:cut], w.bold}, true})
			w.text = w.text[cut:]
		}
		out = append(out, w)
	}
	return out
}

// cutAt is where a word is cut: the longest start that fits, up to a mark in its
// second half if there is one; one rune at least.
func cutAt(word string, fits func(string) bool) int {
	longest, marked := 0, 0
	for i, r := range word {
		end := i + len(string(r))
		if longest > 0 && !fits(word[:end]) {
			break
		}
		longest = end
		if strings.ContainsRune(".-_/:,", r) {
			marked = end
		}
	}
	if marked > longest/2 {
		return marked
	}
	return longest
}

// appendSpan adds a word, to the span before it where the weight is the same.
func appendSpan(line []span, w span) []span {
	if n := len(line); n > 0 && line[n-1].bold == w.bold {
		line[n-1].text += w.text
		return line
	}
	return append(line, w)
}

// setLines sets lines from a top left corner; it returns the height used.
func setLines(lines [][]span, at scene.Point, size, leading float64, color scene.Color) ([]scene.Item, float64) {
	var items []scene.Item
	step := size * leading
	for i, line := range lines {
		x, y := at.X, at.Y+step*float64(i)+(step-size*scene.CapHeight)/2
		for _, s := range line {
			style := scene.Style{Bold: s.bold}
			items = append(items, scene.Text{At: scene.Pt(x, y), Content: s.text, Size: size, Style: style, Baseline: scene.CapTop, Color: color})
			x += scene.TextWidth(s.text, size, style)
		}
	}
	return items, step * float64(len(lines))
}
