package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/build"
	"loomwright/internal/loom"
)

// steps is the order of work in its two parts, with a slot for a reading after
// each stage.
func steps(in *Input) []Block {
	plan := in.Plan.Coloured(in.Graph, func(run int) string { return colourOf(in, run) })
	if len(plan.Steps) == 0 {
		return nil
	}
	ups := newCloseUps(in)
	out := []Block{Heading{Text: "Soldering", Level: 1}}
	out = append(out, craft(ups != nil)...)
	for i := 0; i < len(plan.Steps); i++ {
		s := &plan.Steps[i]
		if i == 0 || s.Where != plan.Steps[i-1].Where {
			out = append(out, placeOfWork(s.Where)...)
		}
		if i == 0 || s.Stage != plan.Steps[i-1].Stage {
			out = append(out, Heading{Text: capital(plan.Stages[s.Stage].Name), Level: 3})
			out = append(out, taken(in, s.Stage, true)...)
		}
		step := Step{Number: s.Number, Do: s.Do, Notes: append(where(in, s), s.Notes...), Good: s.Good}
		if last := seated(in, &plan, i); last > i {
			step.To, step.Do, step.Notes = plan.Steps[last].Number, seatWords(in, plan.Steps[i:last+1]), nil
			i = last
		}
		if !in.touches(s) {
			step.Views = ups.views(s)
		}
		step.Last = plan.Stages[s.Stage].Last == max(step.Number, step.To)
		if out = append(out, step); step.Last {
			out = append(out, taken(in, s.Stage, false)...)
		}
	}
	return append(out, loose(in)...)
}

// touches reports whether a step only seats metal on metal.
func (in *Input) touches(s *build.Step) bool {
	return in.Graph.Runs[s.Run].Wire.Kind == loom.Touching
}

// seated is the index of the last of the steps from one on that seat parts on
// the same metal: one piece of work.
func seated(in *Input, plan *build.Plan, i int) int {
	first := &plan.Steps[i]
	last := i
	for k := i; k < len(plan.Steps); k++ {
		s := &plan.Steps[k]
		if s.Stage != first.Stage || !in.touches(s) || in.Graph.Runs[s.Run].B != in.Graph.Runs[first.Run].B {
			break
		}
		last = k
	}
	return last
}

// seatWords names all that is seated on one piece of metal.
func seatWords(in *Input, all []build.Step) string {
	var names []string
	for _, s := range all {
		names = append(names, in.Graph.Terms[in.Graph.Runs[s.Run].A].Name)
	}
	n := len(names) - 1
	return fmt.Sprintf("Seat the parts so that %s and %s touch %s: bare metal, no solder.", strings.Join(names[:n], ", "), names[n], in.Graph.Terms[in.Graph.Runs[all[0].Run].B].Name)
}

// placeOfWork heads one of the two parts of the work.
func placeOfWork(w build.Where) []Block {
	if w == build.AtTheBench {
		return []Block{Heading{Text: "At the bench", Level: 2}, Paragraph{Text: "Put the controls through a piece of card in the places of the hole template, seen from the back: they lie still there, and wires get the right length.", Keep: true}}
	}
	return []Block{Heading{Text: "In the guitar", Level: 2}, Paragraph{Text: "Set the loom into the guitar with its nuts finger tight. Card over the finish. Solder here only what has to wait for it.", Keep: true}}
}

// where says in plain words where the ends of a step are.
func where(in *Input, s *build.Step) []string {
	var words []string
	for _, e := range s.Ends {
		t := &in.Graph.Terms[e.Term]
		if e.Work == build.Tail || e.Work == build.Own || t.Kind == "case" {
			continue
		}
		at := build.Place(in.Graph, e.Term)
		text := fmt.Sprintf("%s: %s", t.Name, at)
		if at != "" && !slices.Contains(words, text) {
			words = append(words, text)
		}
	}
	if len(words) == 0 {
		return nil
	}
	return []string{strings.Join(words, "; ") + "."}
}

// taken is the slot for readings of a stage: before it, if there are any, or
// after it.
func taken(in *Input, stage int, before bool) []Block {
	r := Reading{Title: fmt.Sprintf("Reading after “%s”", in.Plan.Stages[stage].Name)}
	if before {
		r.Title = "Read before you solder"
	}
	if in.Readings != nil {
		for _, t := range in.Readings(stage) {
			if t.Before == before {
				r.Takes = append(r.Takes, t)
			}
		}
	}
	if before && len(r.Takes) == 0 {
		return nil
	}
	return []Block{r}
}

// loose tells what is joined to the tails of a loom that is sold without it.
func loose(in *Input) []Block {
	if len(in.Plan.Loose) == 0 {
		return nil
	}
	t := Table{Name: "tails", Heads: []string{"tail", "join here", "your lead (write its colour)", "done"}, Shares: []float64{40, 60, 60, 12}}
	for _, l := range in.Plan.Loose {
		t.Rows = append(t.Rows, []Cell{{Text: in.Graph.Terms[l.Term].Name, Bold: true}, {Text: capital(l.For)}, {}, {Tick: true}})
	}
	return []Block{Heading{Text: "To finish in the guitar", Level: 2},
		Paragraph{Text: "This loom ends in labelled tails. Find out with the meter which of your leads is which before you join them; slide sleeving on, twist, solder, cover."}, t}
}

// craft is what holds for all joints.
func craft(pictures bool) []Block {
	items := []string{
		"**One heat a lug.** Wires that share a lug are hooked through it first and soldered together; the step says which one brings the heat. Where a lug must be heated again, the step says so.",
		"**Heat the metal, not the solder.** Tip to lug and wire together, solder to the joint, away when it has flowed: two or three seconds at a lug, longer only on a case. Plastic of switches and boards softens.",
		"**Cases** take a big hot tip: scuff, tin the spot, tin the wire, then join.",
		"**Capacitors** are kept cool: a clip on the lead between joint and body.",
		"**Tug** every wire when it is cold. It must not move.",
	}
	out := []Block{List{Items: items}, Figure{Scene: joints(), Width: 150, Caption: "In section: a good joint on a lug; too little heat, solder in a ball; too much solder; a good joint on a case."}}
	if pictures {
		out = append(out, Paragraph{Text: "The close-ups are cut from the drawing, from the solder side. They show what is in by then, pale, and the wire of the step in full; the dashed rings are where you work.", Small: true})
	}
	return out
}
