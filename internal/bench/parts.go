package bench

import (
	"slices"
	"sync"

	"loomwright/internal/diag"
	"loomwright/internal/part"
)

// PartLine is one part in the list of all parts.
type PartLine struct {
	ID    string `json:"id"`
	Class string `json:"class"`
	Name  string `json:"name"`
	About string `json:"about,omitempty"`
}

// Parts lists every part in the library and on the shelves, and every lead
// code, by id. Files that cannot be read are findings.
func (b *Bench) Parts() ([]PartLine, diag.List) {
	ids := b.Library.IDs()
	lines, lists := make([]PartLine, len(ids)), make([]diag.List, len(ids))
	var all sync.WaitGroup
	for i, id := range ids {
		all.Go(func() { lines[i], lists[i] = b.partLine(id) })
	}
	all.Wait()
	lines = slices.DeleteFunc(lines, func(l PartLine) bool { return l.ID == "" })
	return lines, slices.Concat(lists...)
}

// partLine reads one part or lead code; no line where it cannot be read.
func (b *Bench) partLine(id string) (PartLine, diag.List) {
	if code, isCode := codeName(id); isCode {
		c, list := b.Library.Code(code)
		if c == nil {
			return PartLine{}, list
		}
		return PartLine{ID: id, Class: "lead code", Name: code, About: c.About}, list
	}
	p, list := b.Library.Part(id)
	if p == nil {
		return PartLine{}, list
	}
	return PartLine{ID: id, Class: p.Class, Name: p.Name, About: p.About}, list
}

// Part finds one part by id.
func (b *Bench) Part(id string) (*part.Part, diag.List) { return b.Library.Part(id) }

// Code finds one lead code by name.
func (b *Bench) Code(name string) (*part.Code, diag.List) { return b.Library.Code(name) }

func codeName(id string) (string, bool) {
	const folder = "codes/"
	if len(id) > len(folder) && id[:len(folder)] == folder {
		return id[len(folder):], true
	}
	return "", false
}
