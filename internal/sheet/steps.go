package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/build"
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
	for i := range plan.Steps {
		s := &plan.Steps[i]
		if i == 0 || s.Where != plan.Steps[i-1].Where {
			out = append(out, placeOfWork(s.Where)...)
		}
		if i == 0 || s.Stage != plan.Steps[i-1].Stage {
			out = append(out, Heading{Text: capital(plan.Stages[s.Stage].Name), Level: 3})
		}
		last := plan.Stages[s.Stage].Last == s.Number
		out = append(out, Step{Number: s.Number, Do: s.Do, Notes: append(where(in, s), s.Notes...), Good: s.Good, Views: ups.views(s), Last: last})
		if last {
			out = append(out, reading(in, s.Stage))
		}
	}
	return append(out, loose(in)...)
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

// reading is the slot after a stage.
func reading(in *Input, stage int) Reading {
	r := Reading{Stage: in.Plan.Stages[stage].Name}
	if in.Readings != nil {
		r.Lines = in.Readings(stage)
	}
	return r
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
