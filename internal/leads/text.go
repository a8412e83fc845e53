package leads

import (
	"fmt"
	"slices"
	"strings"
)

// Text is what was found, for a terminal.
func (f *Found) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", f.Says)
	var names []string
	for lead := range f.Ends {
		names = append(names, lead)
	}
	slices.Sort(names)
	for _, lead := range names {
		what := strings.Join(f.Ends[lead], " and ")
		if what == "" {
			what = "unknown"
		}
		fmt.Fprintf(&b, "  %s: %s\n", lead, what)
	}
	for _, n := range f.Notes {
		fmt.Fprintf(&b, "- %s\n", n)
	}
	return b.String()
}

// Text is what was found, for a terminal: the lugs that meet, by position.
func (f *FoundSwitch) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", f.Says)
	for _, position := range f.state.Positions {
		var groups []string
		for _, g := range f.Groups[position] {
			groups = append(groups, strings.Join(g, " - "))
		}
		if len(groups) == 0 {
			groups = []string{"nothing meets"}
		}
		fmt.Fprintf(&b, "  %s: %s\n", position, strings.Join(groups, "; "))
	}
	return b.String()
}
