//go:build !js || paper

package bench

import (
	"strings"

	"loomwright/internal/part"
	"loomwright/internal/synthesis"
	"loomwright/schemes"
)

// Choices are the parts, lead codes and control schemes that a new loom can be
// put together from.
type Choices struct {
	Parts   []Choice       `json:"parts"`
	Codes   []CodeChoice   `json:"codes"`
	Schemes []SchemeChoice `json:"schemes"`
}

// Choice is one part to pick, with what tells it from others.
type Choice struct {
	ID        string       `json:"id"`
	Class     string       `json:"class"`
	Name      string       `json:"name"`
	About     string       `json:"about"`
	Shapes    []part.Shape `json:"shapes"`    // what it looks like, mm
	Coils     []string     `json:"coils"`     // of a pickup
	Ends      []string     `json:"ends"`      // what a lead of a pickup can be
	Positions []string     `json:"positions"` // of a switch, "position: what the player sees"
	Poles     int          `json:"poles"`
	Tracks    int          `json:"tracks"`
}

// CodeChoice is a lead code, and the pickups that it fits.
type CodeChoice struct {
	Name  string    `json:"name"`
	About string    `json:"about"`
	Leads []LeadEnd `json:"leads"`
	Fits  []string  `json:"fits"`
}

// SchemeChoice is a control scheme: its roles once for each pickup, and once
// behind the switches.
type SchemeChoice struct {
	Name  string       `json:"name"`
	About string       `json:"about"`
	Each  []SchemeRole `json:"each"`
	Whole []SchemeRole `json:"whole"`
	Some  bool         `json:"some"` // a pickup may do without a control of its own
	Late  bool         `json:"late"` // the tone hangs on the output of the volume
}

// SchemeRole is a place that a part fills.
type SchemeRole struct {
	Name     string `json:"name"`
	Is       string `json:"is"`     // volume, tone, blend, capacitor, bleed
	Shared   bool   `json:"shared"` // one part may fill it for every pickup
	Optional bool   `json:"optional"`
}

// Choices lists what a new loom can be put together from.
func (b *Bench) Choices() Choices {
	out := Choices{Parts: []Choice{}, Codes: []CodeChoice{}, Schemes: []SchemeChoice{}}
	var pickups []*part.Part
	for _, id := range b.Library.IDs() {
		if name, isCode := codeName(id); isCode {
			if c, _ := b.Library.Code(name); c != nil {
				out.Codes = append(out.Codes, codeChoice(c))
			}
			continue
		}
		p, _ := b.Library.Part(id)
		if p == nil {
			continue
		}
		out.Parts = append(out.Parts, choice(p))
		if p.Class == "pickup" {
			pickups = append(pickups, p)
		}
	}
	for i := range out.Codes {
		for _, p := range pickups {
			if fits(out.Codes[i].Leads, p) {
				out.Codes[i].Fits = append(out.Codes[i].Fits, p.ID)
			}
		}
	}
	known, _ := synthesis.ReadSchemes(part.Shelf{Name: "schemes", FS: schemes.Files})
	for i := range known {
		out.Schemes = append(out.Schemes, schemeChoice(&known[i]))
	}
	return out
}

func choice(p *part.Part) Choice {
	c := Choice{ID: p.ID, Class: p.Class, Name: p.Name, About: p.About, Shapes: p.Outline, Coils: []string{}, Ends: []string{}, Positions: []string{}, Tracks: len(p.Tracks)}
	for _, coil := range p.Coils {
		c.Coils = append(c.Coils, coil.Name)
	}
	for _, t := range p.Terminals {
		if t.Kind == "lead" {
			c.Ends = append(c.Ends, t.Name)
		}
	}
	for _, s := range p.Switches {
		c.Poles += len(s.Poles)
		for _, at := range s.Positions {
			c.Positions = append(c.Positions, at.Name)
		}
	}
	return c
}

// makersWords are ends that a lead code may name beside a pickup's own.
var makersWords = []string{"hot", "ground", "link", "bare"}

func codeChoice(c *part.Code) CodeChoice {
	out := CodeChoice{Name: c.Name, About: c.About, Leads: []LeadEnd{}, Fits: []string{}}
	for _, l := range c.Leads {
		out.Leads = append(out.Leads, LeadEnd{l.Name, append([]string{}, l.Ends...)})
	}
	return out
}

// fits reports whether every end that a code names is one of a pickup's; hot,
// ground and link are those of two coils in a row.
func fits(leads []LeadEnd, p *part.Part) bool {
	for _, l := range leads {
		for _, end := range l.Ends {
			_, own := p.Terminal(end)
			if !own && (len(p.Coils) != 2 || !strings.Contains(strings.Join(makersWords, " "), end)) {
				return false
			}
		}
	}
	return len(p.Coils) > 0
}

func schemeChoice(s *synthesis.Scheme) SchemeChoice {
	out := SchemeChoice{Name: s.Name, About: s.About, Each: []SchemeRole{}, Whole: []SchemeRole{}, Some: s.Each != nil && s.Each.Some}
	for section, roles := range map[*synthesis.Section]*[]SchemeRole{s.Each: &out.Each, s.Whole: &out.Whole} {
		if section == nil {
			continue
		}
		for _, r := range section.Roles {
			*roles = append(*roles, SchemeRole{r.Name, r.Is, r.Shared, r.Optional})
		}
		for _, j := range section.Joins {
			out.Late = out.Late || j.A == "volume.wiper" && strings.HasPrefix(j.B, "tone.")
		}
	}
	return out
}
