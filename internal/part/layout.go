package part

import "loomwright/internal/source"

// Layout is the one canonical layout of part files and lead codes.
func Layout() source.Style {
	return source.Style{Width: 160, Layout: func(path []string) source.Layout {
		switch {
		case len(path) == 0:
			return source.Layout{Flow: source.Block}
		case len(path) == 1 && (path[0] == "terminals" || path[0] == "leads"):
			return source.Layout{Flow: source.Block, Align: true}
		}
		return source.Layout{}
	}}
}
