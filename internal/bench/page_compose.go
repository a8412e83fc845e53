//go:build !js || paper

package bench

import (
	"fmt"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
)

// Composed is a plan as a loom file. Sounds that its parts cannot be asked for
// are left out of it and listed.
type Composed struct {
	Text    string      `json:"text"`
	LeftOut []PlanSound `json:"leftOut"`
	Tables  []Table     `json:"tables"`
}

// Compose writes a plan as a loom file. The error is in a user's words.
func (b *Bench) Compose(p *Plan) (Composed, error) {
	out := Composed{LeftOut: []PlanSound{}, Tables: []Table{}}
	if p == nil {
		return out, fmt.Errorf("nothing is chosen yet")
	}
	asked, err := b.fitting(p, p.Sounds)
	if err != nil {
		return out, err
	}
	var kept []PlanSound
	for i, s := range p.Sounds {
		if asked[i] {
			kept = append(kept, s)
		} else {
			out.LeftOut = append(out.LeftOut, s)
		}
	}
	out.Tables = b.tables(p)
	text, list := b.Format("new.yaml", p.write(kept))
	for _, d := range list {
		if d.Severity == diag.Error {
			return out, fmt.Errorf("%s", d.Message)
		}
	}
	out.Text = text
	return out, nil
}

// fitting tells which sounds a plan's parts can be asked for. The error is about
// the parts.
func (b *Bench) fitting(p *Plan, sounds []PlanSound) ([]bool, error) {
	fits := make([]bool, len(sounds))
	bare := p.write(nil)
	text := diag.NewText("new.yaml", p.write(sounds))
	_, list := loom.Read(text, b.Library)
	first := strings.Count(bare, "\n") + 1 // sounds stand last, one a line
	for i, s := range sounds {
		fits[i] = s.Hear != ""
	}
	for _, d := range list {
		if d.Severity != diag.Error {
			continue
		}
		if i := d.Span.Start.Line - first; i >= 0 && i < len(sounds) {
			fits[i] = false
			continue
		}
		return nil, fmt.Errorf("%s", d.Message)
	}
	return fits, nil
}

// write is the loom file, not yet laid out; its sounds are the last lines.
func (p *Plan) write(sounds []PlanSound) string {
	var out strings.Builder
	fmt.Fprintf(&out, "loomwright: 1\ntitle: %s\n", yamlWord(p.Title))
	p.writeOwn(&out)
	out.WriteString("parts:\n")
	for i := range p.Parts {
		fmt.Fprintf(&out, "  %s: {%s}\n", yamlWord(p.Parts[i].Name), strings.Join(p.Parts[i].fields(), ", "))
	}
	if p.Scheme != "" {
		fmt.Fprintf(&out, "scheme: %s\n", yamlWord(p.Scheme))
	}
	out.WriteString("joins: []\n")
	if len(sounds) == 0 {
		out.WriteString("sounds: []\n")
		return out.String()
	}
	out.WriteString("sounds:\n")
	for _, s := range sounds {
		with := ""
		if s.With != "" {
			with = "with: " + yamlWord(s.With) + ", "
		}
		fmt.Fprintf(&out, "  - {%shear: %s}\n", with, yamlWord(s.Hear))
	}
	return out.String()
}

// writeOwn puts whole part files below their ids.
func (p *Plan) writeOwn(out *strings.Builder) {
	written := map[string]bool{}
	for i := range p.Parts {
		id := p.Parts[i].Is
		file, ok := p.Own[id]
		if !ok || written[id] {
			continue
		}
		if len(written) == 0 {
			out.WriteString("own:\n")
		}
		out.WriteString(ownEntry(id, file))
		written[id] = true
	}
}

func (p *PlanPart) fields() []string {
	set := []Field{{"is", p.Is}, {"code", p.Code}, {"ohms", p.Ohms}, {"track", p.Track}, {"value", p.Value}, {"capacitor", p.Capacitor}, {"resistor", p.Resistor}}
	if p.Reverse {
		set = append(set, Field{"winding", "anticlockwise"}, Field{"pole", "south"})
	}
	var out []string
	for _, f := range set {
		if f.Value != "" {
			out = append(out, f.Key+": "+yamlWord(f.Value))
		}
	}
	if p.Notes != nil {
		for _, f := range p.Notes.fields() {
			if f.Value != "" && (f.Key != "ohms" || p.Ohms == "") {
				out = append(out, f.Key+": "+f.Value)
			}
		}
	}
	return out
}
