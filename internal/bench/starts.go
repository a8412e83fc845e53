package bench

import (
	"io/fs"
	"strings"

	"loomwright/starts"
)

// Start is a loom file to begin from.
type Start struct {
	Name string `json:"name"`
	Says string `json:"says"` // its first comment line
	Text string `json:"text"`
}

// Starts lists the loom files to begin from, by name.
func Starts() []Start {
	var out []Start
	names, _ := fs.Glob(starts.Files, "*.yaml")
	for _, name := range names {
		data, err := starts.Files.ReadFile(name)
		if err != nil {
			continue // cannot happen: the name comes from the same file system
		}
		first, _, _ := strings.Cut(string(data), "\n")
		out = append(out, Start{strings.TrimSuffix(name, ".yaml"), strings.TrimSpace(strings.TrimPrefix(first, "#")), string(data)})
	}
	return out
}
