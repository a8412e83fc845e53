package bench

import (
	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/synthesis"
	"loomwright/schemes"
)

// WireOptions choose a search for a wiring.
type WireOptions struct {
	Scheme      string // control scheme; "": the loom's own, else the first that fits
	Best        int    // wirings wanted
	Conflicts   int64  // what the search may spend; 0: the usual
	HumCancels  bool
	Hanging     bool // a silent coil may touch the sound with one end
	WiresPerLug int  // most wires on a lug; 0: more than three only where unavoidable
	Stop        func() bool
	Progress    func(synthesis.Progress)
}

// Wired is what a search found: each wiring as a whole loom file, proved again.
type Wired struct {
	Version  int              `json:"loomwright"`
	File     string           `json:"file"`
	Result   synthesis.Result `json:"result"`
	Looms    []Checked        `json:"looms"` // one for each wiring, in its order
	Texts    []string         `json:"texts"` // the loom files
	Findings diag.List        `json:"findings"`
}

// Wire finds joins for the parts and wanted sounds of a loom file. Every wiring
// is put back in at the top and proved by code that the search does not share.
func (b *Bench) Wire(name, data string, o WireOptions) Wired {
	text := diag.NewText(name, data)
	out := Wired{Version: Version, File: name, Looms: []Checked{}, Texts: []string{}, Findings: diag.List{}}
	l, list := loom.Read(text, b.Library)
	out.Findings = append(out.Findings, list...)
	if l == nil {
		return out
	}
	known, more := synthesis.ReadSchemes(part.Shelf{Name: "schemes", FS: schemes.Files})
	out.Findings = append(out.Findings, more...)
	out.Result, more = synthesis.Find(l, synthesis.Options{Scheme: o.Scheme, Schemes: known, Library: b.Library, Best: o.Best,
		Conflicts: o.Conflicts, HumCancels: o.HumCancels, Hanging: o.Hanging, WiresPerLug: o.WiresPerLug, Stop: o.Stop, Progress: o.Progress})
	out.Findings = append(out.Findings, more...).Sorted()
	for _, w := range out.Result.Wirings {
		wired := synthesis.Write(l.Doc, w.Joins)
		out.Texts = append(out.Texts, wired)
		out.Looms = append(out.Looms, b.Check(name, wired))
	}
	return out
}
