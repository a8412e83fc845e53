package swap

import (
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/source"
)

// write makes the new loom file of the old one's text: only what changes is
// touched, so that comments stay.
func (s *swapper) write() string {
	e := newEdits(s.text)
	s.writeHead(e)
	for u, c := range s.other {
		s.writeUse(e, u, c)
	}
	s.writeJoins(e)
	s.writeFree(e)
	for i := range s.file.Sounds {
		s.writeSound(e, i)
	}
	s.writeSplices(e)
	doc, list := source.Parse(diag.NewText(s.text.Name, e.String()))
	if list.HasErrors() {
		return e.String() // proving it reports what is wrong
	}
	return source.Format(doc, loom.Layout())
}

// writeHead sets title and hand.
func (s *swapper) writeHead(e *edits) {
	s.setTop(e, "title", s.file.Title, s.ask.Title)
	s.setTop(e, "hand", s.file.Hand, s.ask.Hand)
}

// setTop sets a key at the top of the file.
func (s *swapper) setTop(e *edits, key string, old source.String, text string) {
	switch {
	case text == "" || text == old.Value:
	case old.Value != "":
		e.replace(old.Span, quoted(text))
	default:
		end := s.file.Version.Span.End
		e.insert(e.lineEnd(end.Line), "\n"+key+": "+quoted(text))
	}
}

// quoted writes a scalar so that it is text whatever it holds.
func quoted(s string) string {
	plain := func(r rune) bool {
		return r != ' ' && r != '-' && r != '.' && (r < '0' || r > '9') && (r < 'a' || r > 'z') && (r < 'A' || r > 'Z')
	}
	if s != "" && !strings.ContainsFunc(s, plain) && s == strings.TrimSpace(s) && (s[0] >= 'a' && s[0] <= 'z' || s[0] >= 'A' && s[0] <= 'Z' || s[0] >= '0' && s[0] <= '9') {
		return s
	}
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
}

// writeUse changes a part's entry.
func (s *swapper) writeUse(e *edits, u int, c Change) {
	f := &s.file.Parts.Entries[u].Value
	if c.Is != "" && c.Is != f.Is.Value {
		e.replace(f.Is.Span, c.Is)
	}
	s.setKey(e, u, "code", f.Code, c.Code)
	s.setKey(e, u, "track", f.Track, c.Track)
	s.setKey(e, u, "value", f.Value, c.Value)
	if c.Ohms != "" {
		s.dropKey(e, u, "ohms")
		s.setKey(e, u, "ohms", source.String{}, c.Ohms)
	}
	if c.Code != "" {
		s.dropKey(e, u, "leads")
		s.dropKey(e, u, "inside")
	}
}

// setKey sets one key of a part's entry, behind "is" where it is new.
func (s *swapper) setKey(e *edits, u int, key string, old source.String, text string) {
	f := &s.file.Parts.Entries[u].Value
	switch {
	case text == "" || text == old.Value:
	case old.Value != "":
		e.replace(old.Span, quoted(text))
	case s.flow(f.Span):
		e.insert(e.at(f.Is.Span.End), ", "+key+": "+quoted(text))
	default:
		e.insert(e.lineEnd(f.Is.Span.End.Line), "\n"+strings.Repeat(" ", f.Span.Start.Col-1)+key+": "+quoted(text))
	}
}

// flow reports whether a map is written in braces.
func (s *swapper) flow(at diag.Span) bool {
	line := []rune(s.text.Line(at.Start.Line))
	return at.Start.Col >= 1 && at.Start.Col <= len(line) && line[at.Start.Col-1] == '{'
}

// dropKey takes a key out of a part's entry.
func (s *swapper) dropKey(e *edits, u int, key string) {
	entry := s.partNode(u)
	all := entry.Entries()
	for i, k := range all {
		if k.Key.Value != key {
			continue
		}
		whole := diag.Span{Start: k.Key.Span.Start, End: k.Value.Span().End}
		switch {
		case !s.flow(entry.Span()):
			e.dropLines(whole)
		case i > 0:
			e.list = append(e.list, edit{e.at(all[i-1].Value.Span().End), e.at(whole.End), ""})
		case len(all) > 1:
			e.list = append(e.list, edit{e.at(whole.Start), e.at(all[1].Key.Span.Start), ""})
		}
	}
}

func (s *swapper) partNode(u int) source.Node {
	for _, top := range s.doc.Root().Entries() {
		if top.Key.Value == "parts" {
			return top.Value.Entries()[u].Value
		}
	}
	return source.Node{}
}

func (s *swapper) writeFree(e *edits) {
	for i, r := range s.old.Free {
		if names := s.to(r); len(names) == 1 && names[0] != r.Name {
			e.replace(s.file.Free[i].Span, names[0])
		}
	}
}

// writeSound renames positions, and nothing else: coils keep their names.
func (s *swapper) writeSound(e *edits, i int) {
	f := &s.file.Sounds[i]
	clauses := strings.Split(f.With.Value, ",")
	changed := false
	for k, at := range s.old.Sounds[i].With {
		if k >= len(clauses) || at.Switch >= len(s.maps[at.Use].positions) || s.maps[at.Use].positions[at.Switch] == nil {
			continue
		}
		to := s.maps[at.Use].positions[at.Switch][at.Position]
		text := positionWords(&s.next.Uses[at.Use], at.Switch, to)
		if text != positionWords(&s.old.Uses[at.Use], at.Switch, at.Position) {
			clauses[k], changed = " "+text, true
		}
	}
	if changed {
		e.replace(f.With.Span, `"`+strings.TrimSpace(strings.Join(clauses, ","))+`"`)
	}
}

// writeSplices takes out splices that nothing goes to any more.
func (s *swapper) writeSplices(e *edits) {
	for u := range s.old.Uses {
		if s.old.Uses[u].Part.Class != "splice" {
			continue
		}
		before, after := 0, 0
		for i := range s.old.Joins {
			j := &s.old.Joins[i]
			for _, r := range j.Runs {
				if r.A.Use != u && r.B.Use != u {
					continue
				}
				before++
				if !s.falls(j) && !s.dropped[s.nets.Of[s.g.Ref(r.A)]] {
					after++
				}
			}
		}
		if before > 0 && after == 0 {
			entry := s.file.Parts.Entries[u]
			e.dropLines(diag.Span{Start: entry.Key.Span.Start, End: entry.Value.Span.End})
		}
	}
}
