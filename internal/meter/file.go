package meter

import (
	"fmt"
	"math"

	"loomwright/internal/diag"
	"loomwright/internal/electrics"
	"loomwright/internal/source"
	"loomwright/internal/units"
)

// Usual lists the kinds of meter that need no file, by name; all figures from
// memory.
func Usual() map[string]electrics.Meter {
	fine := electrics.Meter{Name: "20000 counts, automatic ranges", Leads: electrics.Bounds{Typical: 0.3, Lo: 0.2, Hi: 0.5}, Over: "OL"}
	for _, full := range []float64{200, 2e3, 20e3, 200e3, 2e6, 20e6} {
		fine.Ranges = append(fine.Ranges, electrics.Range{Full: full * 19999 / 20000, Count: full / 20000, Percent: 0.1, Counts: 3})
	}
	return map[string]electrics.Meter{"plain": electrics.Plain(), "auto": electrics.AutoRanging(), "fine": fine}
}

// File is a meter's file on the shelf.
type File struct {
	Version source.String `yaml:"loomwright-meter" required:"true" doc:"version of this layout: 1"`
	Name    source.String `yaml:"name" doc:"what to call the meter"`
	Over    source.String `yaml:"over" doc:"what it shows of an open circuit: OL or 1"`
	Leads   source.String `yaml:"leads" doc:"ohms of both test leads together, as shown with the probes held together"`
	Ranges  []RangeFile   `yaml:"ranges" required:"true" doc:"resistance ranges, smallest first"`
}

// RangeFile is one resistance range as the manual states it.
type RangeFile struct {
	Full    source.String `yaml:"full" required:"true" doc:"the most it shows: 600, 6k"`
	Count   source.String `yaml:"count" required:"true" doc:"one step of the last digit: 0.1"`
	Percent source.String `yaml:"percent" required:"true" doc:"of the reading: 0.8%"`
	Counts  source.String `yaml:"counts" required:"true" doc:"beside the percents: 3"`
}

// Read reads a meter's file.
func Read(text *diag.Text) (electrics.Meter, diag.List) {
	doc, list := source.Parse(text)
	if list.HasErrors() {
		return electrics.Meter{}, list
	}
	var f File
	if list = append(list, source.Decode(doc, &f)...); list.HasErrors() {
		return electrics.Meter{}, list
	}
	r := reader{}
	m := electrics.Meter{Name: f.Name.Value, Over: f.Over.Value, Leads: electrics.Plain().Leads}
	if m.Over == "" {
		m.Over = "OL"
	}
	if f.Leads.Value != "" {
		x := r.ohms(f.Leads)
		m.Leads = electrics.Bounds{Typical: x, Lo: 0.8 * x, Hi: 1.2 * x}
	}
	for _, x := range f.Ranges {
		m.Ranges = append(m.Ranges, r.oneRange(x))
	}
	r.ordered(&m, f.Ranges)
	return m, append(list, r.list...)
}

type reader struct{ list diag.List }

func (r *reader) fail(s source.String, format string, args ...any) {
	r.list.Add(diag.Diagnostic{Code: "meter-file", Severity: diag.Error, Span: s.Span, Message: fmt.Sprintf(format, args...)})
}

func (r *reader) ohms(s source.String) float64 {
	v, err := units.Ohms(s.Value)
	if err != nil {
		r.fail(s, "%v", err)
	}
	return v.X
}

func (r *reader) oneRange(f RangeFile) electrics.Range {
	out := electrics.Range{Full: r.ohms(f.Full), Count: r.ohms(f.Count)}
	percent, err := units.Percent(f.Percent.Value)
	if err != nil || percent < 0 || percent > 0.5 {
		r.fail(f.Percent, "%q is no error of a meter: write it like 0.8%%", f.Percent.Value)
	}
	out.Percent = 100 * percent
	if _, err := fmt.Sscanf(f.Counts.Value, "%g", &out.Counts); err != nil || !(out.Counts >= 0.5 && out.Counts <= 1000) {
		r.fail(f.Counts, "%q is no number of counts: write it like 3", f.Counts.Value)
	}
	if steps := out.Full / out.Count; !(steps >= 10 && steps <= 1e7) || math.IsInf(steps, 0) {
		r.fail(f.Count, "%s in steps of %s is no range of a meter", f.Full.Value, f.Count.Value)
	}
	return out
}

// ordered reports ranges that do not grow.
func (r *reader) ordered(m *electrics.Meter, files []RangeFile) {
	for i := range m.Ranges {
		if i > 0 && m.Ranges[i].Full <= m.Ranges[i-1].Full {
			r.fail(files[i].Full, "ranges go from the smallest to the largest")
		}
	}
}
