package drawing

import (
	"loomwright/internal/place"
	"loomwright/internal/units"
)

// reel is the colours of hookup wire in the order in which they are taken; the
// first is the hot wire's, and black is ground's (common practice, no source).
var reel = []string{"white", "yellow", "blue", "orange", "green", "red", "violet", "brown", "grey", "pink", "turquoise"}

// dress gives every wire its look. What the loom file says stands; ground is
// black; every other net gets a colour that no net or lead on the same parts
// has, as long as there are colours.
func (d *Drawing) dress() {
	colours := d.netColours()
	nets := d.nets()
	for i := range d.Wires {
		w := &d.Wires[i]
		if w.Strand < 0 {
			continue
		}
		s := &d.Plan.Strands[w.Strand]
		switch {
		case s.Core >= 0:
			w.Look = Look{Kind: BareWire, Word: "braid", Letters: "braid"}
		case s.Lead >= 0 && s.Wire.Colour == "":
			w.Look = d.leadLook(s.Lead)
			w.Look.Sleeved = s.Wire.Sleeved
		case s.Wire.Colour != "":
			c, _ := units.ReadColour(s.Wire.Colour)
			w.Look = wireLook(s.Wire, c)
		default:
			w.Look = wireLook(s.Wire, units.Colour{Base: colours[nets.Of[d.netTerm(s)]]})
		}
	}
}

// netTerm is a terminal that tells a strand's net.
func (d *Drawing) netTerm(s *place.Strand) int { return d.Graph.Runs[s.Run].A }

// netColours colours nets greedily, hot first, then in file order.
func (d *Drawing) netColours() map[int]string {
	nets := d.nets()
	out, taken := map[int]string{}, d.takenColours()
	order := []int{}
	if d.Graph.Hot >= 0 {
		order = append(order, nets.Of[d.Graph.Hot])
	}
	for _, r := range d.Graph.Runs {
		order = append(order, nets.Of[r.A])
	}
	for _, n := range order {
		if _, done := out[n]; done {
			continue
		}
		if d.Graph.Ground >= 0 && n == nets.Of[d.Graph.Ground] {
			out[n] = "black"
			continue
		}
		out[n] = d.freeColour(n, taken)
		for _, part := range d.partsOf(n) {
			taken[part][out[n]]++
		}
	}
	return out
}

// takenColours counts, for each part, the colours of leads and of wires that the
// file colours there.
func (d *Drawing) takenColours() []map[string]int {
	taken := make([]map[string]int, len(d.Plan.Parts))
	for i := range taken {
		taken[i] = map[string]int{}
	}
	for i := range d.Plan.Strands {
		s := &d.Plan.Strands[i]
		base := ""
		if s.Lead >= 0 && d.Plan.Spots[s.Lead].InFan {
			base = d.leadLook(s.Lead).Colour.Base
		} else if c, err := units.ReadColour(s.Wire.Colour); err == nil {
			base = c.Base
		}
		for _, e := range []place.End{s.A, s.B} {
			if base != "" && e.Term >= 0 && d.Plan.Spots[e.Term].Part >= 0 {
				taken[d.Plan.Spots[e.Term].Part][base]++
			}
		}
	}
	return taken
}

// How much a colour is against the picking of it: used on a part of the net; the
// colour of a pickup's lead anywhere in the loom.
const (
	onSamePart = 4
	asLead     = 3
)

// leadColours are the colours of all pickups' leads.
func (d *Drawing) leadColours() map[string]bool {
	out := map[string]bool{}
	for t := range d.Plan.Spots {
		if d.Plan.Spots[t].InFan {
			out[d.leadLook(t).Colour.Base] = true
		}
	}
	delete(out, "")
	return out
}

// freeColour is the colour that is used least on the parts of a net and is no
// lead's, the first of the reel among equals.
func (d *Drawing) freeColour(net int, taken []map[string]int) string {
	best, least := reel[0], 1<<30
	leads := d.leadColours()
	for _, c := range reel {
		n := 0
		for _, part := range d.partsOf(net) {
			n += taken[part][c] * onSamePart
		}
		if leads[c] {
			n += asLead
		}
		if n < least {
			best, least = c, n
		}
	}
	return best
}

// partsOf lists the parts that wires of a net go to.
func (d *Drawing) partsOf(net int) []int {
	nets := d.nets()
	seen := map[int]bool{}
	var out []int
	for _, r := range d.Graph.Runs {
		for _, t := range []int{r.A, r.B} {
			if p := d.Plan.Spots[t].Part; nets.Of[t] == net && p >= 0 && !seen[p] {
				seen[p] = true
				out = append(out, p)
			}
		}
	}
	return out
}
