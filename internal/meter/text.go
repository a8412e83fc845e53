package meter

import (
	"fmt"
	"strings"
)

// fewNamed is how many faults a line of text names before it only counts.
const fewNamed = 3

// Text is a proof for a terminal or a sheet, a paragraph for each reading.
func (p *Proof) Text() string {
	var b strings.Builder
	if p.Name != "" {
		fmt.Fprintf(&b, "%s\n\n", upper(p.Name))
	}
	for _, s := range p.Before {
		fmt.Fprintf(&b, "- %s\n", s)
	}
	for i := range p.Lines {
		l := &p.Lines[i]
		fmt.Fprintf(&b, "\n%d. %s\n   Right: %s.\n   Rules out %s.\n", i+1, l.Do, l.Right(), counted(l.RulesOut))
	}
	fmt.Fprintf(&b, "\n%s\n", p.summary())
	for _, m := range p.Missed {
		fmt.Fprintf(&b, "- not shown: %s: %s\n", m.Fault, m.Why)
	}
	return b.String()
}

// Right says what a right loom shows.
func (l *Line) Right() string {
	switch l.Lo {
	case "":
		return l.Shows
	case l.Hi:
		return l.Lo
	}
	return fmt.Sprintf("%s to %s, most likely %s", l.Lo, l.Hi, l.Shows)
}

// counted names some faults and counts the rest.
func counted(faults []string) string {
	if len(faults) == 0 {
		return "nothing new"
	}
	text := strings.Join(faults[:min(len(faults), fewNamed)], "; ")
	if more := len(faults) - fewNamed; more > 0 {
		text += fmt.Sprintf("; and %d more", more)
	}
	return text
}

func (p *Proof) summary() string {
	s := fmt.Sprintf("These %d readings show %d of the %d faults that can be", len(p.Lines), p.Shown, p.Faults)
	if p.Shortest {
		s += "; no shorter list shows as many"
	}
	s += "."
	if len(p.Harmless) > 0 {
		s += fmt.Sprintf(" %d more change nothing.", len(p.Harmless))
	}
	return s
}
