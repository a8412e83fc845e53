package swap

import (
	"slices"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
)

// writeJoins renames terminals in joins, and drops what the new pickup joins
// inside.
func (s *swapper) writeJoins(e *edits) {
	add := slices.Clone(s.added)
	kept := 0
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
		kept++
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
	if kept == 0 {
		s.noJoins(e)
	}
}

// noJoins writes an empty list.
func (s *swapper) noJoins(e *edits) {
	for _, k := range s.doc.Root().Entries() {
		if k.Key.Value == "joins" {
			e.insert(e.at(k.Key.Span.End)+1, " []")
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
	if s.falls(j) {
		return nil
	}
	left, right := sides(j, func(r loom.Ref) []string {
		if s.lost(j, r) {
			return nil
		}
		return s.renaming(r)
	})
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
