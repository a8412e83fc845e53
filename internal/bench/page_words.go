//go:build !js || paper

package bench

import (
	"regexp"
	"slices"
	"strings"

	"loomwright/internal/part"
)

// Worded is what was understood of a maker's wording.
type Worded struct {
	LeadNotes
	Left []string `json:"left"` // stretches that were not understood
}

// coilWords are words for a coil of a pickup of several, by its place in the
// part file. Screws on the south coil: from memory, common practice.
var coilWords = []string{"slug slugs stud studs first inner upper top", "screw screws adjustable second outer lower bottom"}

// endWords are words for what a lead is.
var endWords = map[string]string{
	"start": "start begin begins beginning", "finish": "finish finishes end ends", "shield": "shield screen braid case chassis cover baseplate",
	"hot": "hot live signal output", "ground": "ground earth grounded negative minus", "link": "link linked series together taped", "unknown": "unknown unsure",
}

// idle are words between a lead and what it is.
const idle = "is are the a an of its it's it and or wire wires lead leads coil coils to on at goes go for with as both joined join solder soldered " +
	"connect connects connected this these other pickup winding each not in"

var clauses = regexp.MustCompile(`[,;.\n]+`)

// Wording reads how a maker describes a pickup's leads, in plain words: "orange
// is the start of the screw coil, pink its finish; bare is ground". "Its" is the
// coil named last.
func (b *Bench) Wording(id, text string) Worded {
	out := Worded{LeadNotes{Leads: []LeadEnd{}}, []string{}}
	p, _ := b.Library.Part(id)
	if p == nil || len(p.Coils) == 0 {
		return out
	}
	coil := -1
	for _, said := range clauses.Split(strings.ToLower(text), -1) {
		c := readClause(p, said, coil)
		coil = c.coil
		out.add(p, strings.TrimSpace(said), c)
	}
	out.twoLeads(p)
	return out
}

// clause is one clause read: the leads it names, and what they are.
type clause struct {
	leads []string
	end   string // "" where no word says it
	coil  int
	bare  bool // the lead is a bare wire, shield or braid
}

func readClause(p *part.Part, said string, coil int) clause {
	c := clause{coil: coil}
	for _, w := range strings.FieldsFunc(said, func(r rune) bool { return strings.ContainsRune(" \t:=()\"'", r) }) {
		w = strings.Trim(w, "-–—→")
		end := endOf(w)
		switch named := coilOf(p, w); {
		case w == "" || among(idle, w):
		case named >= 0:
			c.coil = named
		case w == "bare" || end == "shield" && len(c.leads) == 0 && c.end == "":
			c.leads, c.bare = append(c.leads, w), true
		case end == "":
			c.leads = append(c.leads, w)
		case c.end == "" || end != "link":
			c.end = end
		}
	}
	return c
}

// add notes what a clause says of its leads.
func (w *Worded) add(p *part.Part, said string, c clause) {
	if said == "" {
		return
	}
	ends := c.ends(p)
	if len(c.leads) == 0 || len(ends) == 0 && c.end != "unknown" {
		w.Left = append(w.Left, said)
		return
	}
	for _, lead := range c.leads {
		w.Leads = slices.DeleteFunc(w.Leads, func(l LeadEnd) bool { return l.Lead == lead })
		w.Leads = append(w.Leads, LeadEnd{lead, ends})
	}
}

// ends are the ends of a part that a clause means.
func (c *clause) ends(p *part.Part) []string {
	_, shielded := p.Terminal("shield")
	coil := c.coil
	if len(p.Coils) == 1 {
		coil = 0
	}
	switch {
	case shielded && (c.end == "shield" || c.bare):
		return []string{"shield"}
	case (c.end == "start" || c.end == "finish") && coil >= 0 && coil < len(p.Coils):
		at := p.Coils[coil].Start
		if c.end == "finish" {
			at = p.Coils[coil].Finish
		}
		return []string{p.Terminals[at].Name}
	case c.end == "hot" || c.end == "ground" || c.end == "link" && len(p.Coils) == 2:
		return []string{c.end}
	}
	return []string{}
}

// twoLeads completes a pickup whose coils are joined inside: of hot and a braid
// the braid is ground as well.
func (w *Worded) twoLeads(p *part.Part) {
	is := func(end string) int {
		return slices.IndexFunc(w.Leads, func(l LeadEnd) bool { return slices.Contains(l.Ends, end) })
	}
	if is("hot") < 0 || len(p.Coils) != 2 || is("link") >= 0 {
		return
	}
	if shield := is("shield"); is("ground") < 0 && shield >= 0 {
		w.Leads[shield].Ends = []string{"ground", "shield"}
	}
	w.Inside = [][]string{{"link"}}
}

func among(words, word string) bool { return slices.Contains(strings.Fields(words), word) }

func endOf(word string) string {
	for end, words := range endWords {
		if among(words, word) {
			return end
		}
	}
	return ""
}

// coilOf is the coil that a word names, or −1.
func coilOf(p *part.Part, word string) int {
	if i := p.CoilIndex(word); i >= 0 || len(p.Coils) != 2 {
		return i
	}
	return slices.IndexFunc(coilWords, func(words string) bool { return among(words, word) })
}
