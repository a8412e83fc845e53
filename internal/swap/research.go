package swap

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/proof"
	"loomwright/internal/source"
)

// Finder looks for the joins that a loom file lacks. It returns the whole file,
// or "" where there is none, and what is to be said of the search.
type Finder func(wish string) (found string, said []string)

// research has the joins that cannot be carried over searched anew: with all
// joins of other parts kept, and where that leaves something otherwise than
// before, with none kept but metal on metal. What is found is proved as any
// other file; the one with the fewest changes is taken.
func (s *swapper) research(find Finder) Result {
	out := Result{Verdict: Search, Why: s.search}
	if s.unlike {
		out.Said = []string{"its positions are not those of the old part: write the sounds that each shall have, and loomwright wire finds the joins"}
	}
	if find == nil || s.unlike {
		return out
	}
	for _, keep := range []bool{true, false} {
		found, said := find(s.wish(keep))
		if found == "" && out.Text == "" {
			out.Said = said
		}
		r := s.prove(found)
		if found == "" || r.Text == "" || out.Text != "" && len(out.Why) <= len(r.Why) {
			continue
		}
		r.Verdict, r.Said = Searched, said
		if out = r; len(r.Why) == 0 {
			break
		}
	}
	if out.Text != "" {
		out.Why = slices.Concat(s.search, out.Why)
	}
	return out
}

// wish is the file with the new parts, without the joins that are to be
// searched, every setting's old sound a wish.
func (s *swapper) wish(keep bool) string {
	for i := range s.maps {
		if s.anew[i] || !keep {
			s.maps[i].lost = true
		}
	}
	s.renamed = nil
	s.added = slices.DeleteFunc(s.added, func(join string) bool {
		use, _, _ := strings.Cut(join, ".")
		u, _ := s.old.Use(use)
		return s.maps[u].lost
	})
	doc, list := source.Parse(diag.NewText(s.text.Name, s.write()))
	if list.HasErrors() {
		return doc.Text.Data // the search reports what is wrong
	}
	return s.withSounds(doc)
}

// falls reports whether a join is searched anew: all of one side is lost, or its
// braid is.
func (s *swapper) falls(j *loom.Join) bool {
	if b := j.Runs[0].Braid; b != nil && (s.lost(j, b.A) || b.B != nil && s.lost(j, *b.B)) {
		return true
	}
	left, right := sides(j, func(r loom.Ref) []string {
		if s.lost(j, r) {
			return nil
		}
		return []string{r.Name}
	})
	return len(left) == 0 || len(right) == 0
}

// lost reports whether an end of a join is searched anew. Metal that only
// touches metal stays where its part does.
func (s *swapper) lost(j *loom.Join, r loom.Ref) bool {
	return s.maps[r.Use].lost && (s.anew[r.Use] || j.Runs[0].Wire.Kind != loom.Touching)
}

// withSounds adds a wish for every setting of the old loom that has none.
func (s *swapper) withSounds(doc *source.Document) string {
	var lines []string
	for _, r := range proof.Prove(s.g).Rows {
		if r.Wanted == nil && !r.Unsure {
			lines = append(lines, fmt.Sprintf("  - {with: %q, hear: %q}", s.standing(r.Setting.At), wished(&r)))
		}
	}
	if len(s.g.Switches) == 0 {
		lines = nil
	}
	rows := strings.Split(strings.TrimSuffix(doc.Text.Data, "\n"), "\n")
	for _, e := range doc.Root().Entries() {
		if e.Key.Value == "sounds" {
			return strings.Join(slices.Insert(rows, e.Value.Span().End.Line, lines...), "\n") + "\n"
		}
	}
	if len(lines) > 0 {
		rows = append(append(rows, "sounds:"), lines...)
	}
	return strings.Join(rows, "\n") + "\n"
}

// wished is what is heard of a row, as a file wishes for it.
func wished(r *proof.Row) string {
	if r.Output != proof.Sounding {
		return "silent"
	}
	return r.Sound.String()
}

// standing names a setting of the old loom by the switches of the new parts.
func (s *swapper) standing(at []int) string {
	var words []string
	nth := map[int]int{} // switches of each part so far
	for i := range s.g.Switches {
		u := s.g.Switches[i].Use
		k := nth[u]
		nth[u]++
		if s.g.Switches[i].Proved >= 0 || k >= len(s.maps[u].positions) || s.maps[u].positions[k] == nil {
			continue
		}
		words = append(words, positionWords(&s.next.Uses[u], k, s.maps[u].positions[k][at[i]]))
	}
	return strings.Join(words, ", ")
}

func positionWords(u *loom.Use, sw, position int) string {
	p := &u.Part.Switches[sw]
	return loom.SwitchName(u, p) + " " + p.Positions[position].Name
}
