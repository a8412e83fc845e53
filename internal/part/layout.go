package part

import "loomwright/internal/source"

// Layout is the one canonical layout of part files and lead codes.
func Layout() source.Style {
	return source.Style{Width: 400, Layout: func(path []string) source.Layout {
		if len(path) == 0 {
			return source.Layout{Flow: source.Block}
		}
		return source.Layout{Align: true}
	}}
}
