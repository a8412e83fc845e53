package bench

import (
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
	var out []PartLine
	var list diag.List
	for _, id := range b.Library.IDs() {
		if code, isCode := codeName(id); isCode {
			c, more := b.Library.Code(code)
			list = append(list, more...)
			if c != nil {
				out = append(out, PartLine{ID: id, Class: "lead code", Name: code, About: c.About})
			}
			continue
		}
		p, more := b.Library.Part(id)
		list = append(list, more...)
		if p != nil {
			out = append(out, PartLine{ID: id, Class: p.Class, Name: p.Name, About: p.About})
		}
	}
	return out, list
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
