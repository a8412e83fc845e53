package loom

import (
	"strings"

	"loomwright/internal/source"
)

// Layout is the one canonical layout of a loom file.
func Layout() source.Style {
	return source.Style{Width: 100, Layout: layoutOf}
}

var (
	topKeys = []string{"loomwright", "title", "note", "hand", "scale", "into", "codes", "own", "parts", "scheme", "joins", "free", "sounds", "place"}
	useKeys = []string{"is", "called", "code", "leads", "inside", "ohms", "henries", "farads", "winding", "pole", "sensitivity", "coupling",
		"from-bridge", "track", "value", "capacitor", "resistor", "tolerance", "travel", "note"}
	soundKeys = []string{"with", "hear", "phase", "hum"}
)

func layoutOf(path []string) source.Layout {
	switch {
	case len(path) == 0:
		return source.Layout{Keys: topKeys, Flow: source.Block}
	case path[0] == "parts" && len(path) == 1, path[0] == "place" && len(path) == 1:
		return source.Layout{Flow: source.Block, Align: true}
	case path[0] == "parts" && len(path) == 2:
		return source.Layout{Keys: useKeys, Flow: source.Fit}
	case path[0] == "joins":
		return joinLayout(path)
	case path[0] == "sounds" && len(path) == 1, path[0] == "codes" && len(path) == 1, path[0] == "own" && len(path) < 3:
		return source.Layout{Flow: source.Block}
	case path[0] == "sounds" && len(path) == 2:
		return source.Layout{Keys: soundKeys, Flow: source.Fit}
	}
	return source.Layout{Flow: source.Fit}
}

func joinLayout(path []string) source.Layout {
	if len(path) == 1 {
		return source.Layout{Flow: source.Block, Column: "--"}
	}
	return source.Layout{Flow: source.Block, Text: spaced, KeyText: spaced}
}

// spaced puts one space around -- and after commas in a join.
func spaced(text string) string {
	sides := strings.Split(text, "--")
	for i, side := range sides {
		terms := strings.Split(side, ",")
		for k := range terms {
			terms[k] = strings.TrimSpace(terms[k])
		}
		sides[i] = strings.Join(terms, ", ")
	}
	return strings.TrimSpace(strings.Join(sides, " -- "))
}
