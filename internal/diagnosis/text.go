package diagnosis

import (
	"fmt"
	"strings"
)

// fewListed is how many suspects a text lists.
const fewListed = 4

// Text is a result for a terminal: where things stand, then the next reading or
// what to do.
func (r *Result) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", r.Says)
	if r.Verdict == Asking || r.Verdict == AlikeLeft {
		for i := range r.Suspects[:min(len(r.Suspects), fewListed)] {
			s := &r.Suspects[i]
			fmt.Fprintf(&b, "  %3.0f %%  %s\n", 100*s.Chance, s.words())
		}
	}
	for _, m := range r.Misfits[:min(len(r.Misfits), fewListed)] {
		fmt.Fprintf(&b, "  %s leaves unexplained:", orRight(m.Faults))
		for _, f := range m.Not {
			fmt.Fprintf(&b, " %s (read %s, could show %s);", f.Ask, f.Said, f.Can)
		}
		b.WriteString("\n")
	}
	for i := range r.Pairs[:min(len(r.Pairs), fewListed)] {
		fmt.Fprintf(&b, "  together: %s\n", r.Pairs[i].words())
	}
	if r.Next != nil {
		fmt.Fprintf(&b, "\n%s\n  (%s; a right loom: %s)\n", r.Next.Do, r.Next.Why, r.Next.Right())
	}
	for _, do := range r.Do {
		fmt.Fprintf(&b, "- %s\n", do)
	}
	return b.String()
}
