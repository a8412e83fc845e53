package bench

import (
	"fmt"

	"loomwright/internal/diag"
	"loomwright/internal/electrics"
	"loomwright/internal/plot"
)

// Curves are the responses of settings at the jack.
type Curves struct {
	Version  int             `json:"loomwright"`
	File     string          `json:"file"`
	Title    string          `json:"title,omitempty"`
	Rows     []CurveLine     `json:"settings"`
	Band     *electrics.Band `json:"band,omitempty"` // of the first, for all that is not known exactly
	Findings diag.List       `json:"findings"`
}

// CurveLine is one setting of Curves.
type CurveLine struct {
	Setting string          `json:"setting"`
	Curve   electrics.Curve `json:"curve"`
}

// Curve works out the response of the settings asked for, the first with the
// band it can lie in.
func (b *Bench) Curve(name, data string, s Stand, opts electrics.Options) (Curves, error) {
	out := Curves{Version: Version, File: name, Rows: []CurveLine{}, Findings: diag.List{}}
	m, list := b.modelOf(diag.NewText(name, data), opts)
	out.Findings = append(out.Findings, list...)
	if m == nil {
		return out, nil
	}
	out.Title = m.Graph().Loom.Title
	at, err := stand(m.Graph(), s)
	if err != nil {
		return out, err
	}
	for i, st := range at.settings {
		if i == plot.MaxLines {
			break
		}
		out.Rows = append(out.Rows, CurveLine{st.Name, m.Curve(st.At, at.turn)})
	}
	if len(at.settings) > 0 {
		band := m.Band(at.settings[0].At, at.turn)
		out.Band = &band
	}
	return out, nil
}

// Picture draws the curves.
func (c Curves) Picture(o DrawOptions) ([]byte, error) {
	p := plot.Plot{Title: c.Title, Unit: plot.OverOneCoil}
	for _, r := range c.Rows {
		if r.Curve.Output == electrics.Sounding {
			p.Lines = append(p.Lines, plot.Response(r.Setting, r.Curve))
		} else {
			p.Notes = append(p.Notes, fmt.Sprintf("%s: %s", r.Setting, r.Curve.Output))
		}
	}
	if c.Band != nil && len(c.Rows) > 0 && c.Rows[0].Curve.Output == electrics.Sounding {
		p.Band = plot.Likely(*c.Band)
	}
	return paint(plot.Draw(p), o)
}
