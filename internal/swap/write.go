package swap

import (
	"slices"
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

// writeJoins renames terminals in joins, and drops what the new pickup joins
// inside.
func (s *swapper) writeJoins(e *edits) {
	add := slices.Clone(s.added)
	for i, j := range s.old.Joins {
		f := &s.file.Joins[i]
		lines := s.joinLines(&j)
		switch {
		case len(lines) == 0:
			e.dropLines(diag.Span{Start: f.Span.Start, End: f.Span.End})
			continue
		case lines[0] != joinText(&j, plainName) || len(lines) > 1:
			e.replace(f.Run.Span, quotedJoin(lines[0]))
		}
		s.writeOptions(e, f, &j)
		options := ""
		if f.Options.Value != "" {
			options = ": " + s.optionText(f.Options.Value, &j)
		}
		more := ""
		for _, l := range lines[1:] {
			more += s.newLine(f) + quotedJoin(l) + options
		}
		if len(add) > 0 && s.mentions(&j, add[0]) {
			for _, l := range add {
				more += s.newLine(f) + quotedJoin(l)
			}
			add = nil
		}
		if more != "" {
			e.insert(e.lineEnd(f.Span.End.Line), more)
		}
	}
}

// mentions reports whether a join goes to the pickup that an added join is of.
func (s *swapper) mentions(j *loom.Join, added string) bool {
	use, _, _ := strings.Cut(added, ".")
	return slices.ContainsFunc(j.Runs, func(r loom.Run) bool {
		return s.old.Uses[r.A.Use].Name == use || s.old.Uses[r.B.Use].Name == use
	})
}

func (s *swapper) newLine(f *loom.JoinFile) string {
	line := s.text.Line(f.Span.Start.Line)
	return "\n" + strings.Repeat(" ", len(line)-len(strings.TrimLeft(line, " "))) + "- "
}

func plainName(r loom.Ref) []string { return []string{r.Name} }

// joinLines are the texts of a join with its new names: one, or one for each
// terminal on its right where both sides have several; none where all its runs
// fall away.
func (s *swapper) joinLines(j *loom.Join) []string {
	left, right := sides(j, s.renaming)
	if len(left) == 0 || len(right) == 0 {
		return nil
	}
	if len(left) == 1 || len(right) == 1 {
		return []string{strings.Join(left, ", ") + " -- " + strings.Join(right, ", ")}
	}
	var out []string
	for _, r := range right {
		out = append(out, strings.Join(left, ", ")+" -- "+r)
	}
	return out
}

// joinText is a join as one line.
func joinText(j *loom.Join, to func(loom.Ref) []string) string {
	left, right := sides(j, to)
	return strings.Join(left, ", ") + " -- " + strings.Join(right, ", ")
}

// sides lists the names on both sides of a join, each once.
func sides(j *loom.Join, to func(loom.Ref) []string) (left, right []string) {
	add := func(side *[]string, r loom.Ref) {
		for _, n := range to(r) {
			if !slices.Contains(*side, n) {
				*side = append(*side, n)
			}
		}
	}
	for _, r := range j.Runs {
		add(&left, r.A)
		add(&right, r.B)
	}
	return left, right
}

// renaming is what a reference becomes, noted for the report; nothing on a net
// that falls away.
func (s *swapper) renaming(r loom.Ref) []string {
	if s.dropped[s.nets.Of[s.g.Ref(r)]] {
		return nil
	}
	names := s.to(r)
	for _, n := range names {
		if x := (Renaming{r.Name, n}); n != r.Name && !slices.Contains(s.renamed, x) {
			s.renamed = append(s.renamed, x)
		}
	}
	return names
}

// quotedJoin quotes a join where YAML would read it otherwise.
func quotedJoin(text string) string {
	if strings.Contains(text, ": ") || strings.Contains(text, " #") || strings.HasPrefix(text, "'") || strings.HasPrefix(text, `"`) {
		return quoted(text)
	}
	return text
}

// writeOptions renames the terminals of a braid.
func (s *swapper) writeOptions(e *edits, f *loom.JoinFile, j *loom.Join) {
	if f.Options.Value == "" {
		return
	}
	if text := s.optionText(f.Options.Value, j); text != f.Options.Value {
		e.replace(f.Options.Span, quotedJoin(text))
	}
}

// optionText is the options of a join with the braid's new terminals.
func (s *swapper) optionText(options string, j *loom.Join) string {
	b := j.Runs[0].Braid
	if b == nil {
		return options
	}
	words := strings.Split(options, ",")
	for i, w := range words {
		if !strings.HasPrefix(strings.TrimSpace(w), "braid ") {
			continue
		}
		text := "braid " + strings.Join(s.renaming(b.A), ", ")
		if b.B != nil {
			text += " -- " + strings.Join(s.renaming(*b.B), ", ")
		}
		words[i] = " " + text
	}
	return strings.TrimSpace(strings.Join(words, ","))
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
		name := s.next.Uses[at.Use].Part.Switches[at.Switch].Positions[to].Name
		text := loom.SwitchName(&s.next.Uses[at.Use], &s.next.Uses[at.Use].Part.Switches[at.Switch]) + " " + name
		old := s.old.Uses[at.Use].Part.Switches[at.Switch].Positions[at.Position].Name
		if old != name {
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
		s.eachRef(func(r loom.Ref) {
			if r.Use == u {
				before++
				if !s.dropped[s.nets.Of[s.g.Ref(r)]] {
					after++
				}
			}
		})
		if before > 0 && after == 0 {
			entry := s.file.Parts.Entries[u]
			e.dropLines(diag.Span{Start: entry.Key.Span.Start, End: entry.Value.Span.End})
		}
	}
}
