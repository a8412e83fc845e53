package diagnosis

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"loomwright/internal/meter"
	"loomwright/internal/units"
)

// concluded fills in a result that asks no more.
func (j *judge) concluded(out *Result, left []int) {
	top := out.Suspects[0]
	switch {
	case top.at == 0:
		out.Verdict = Healthy
		out.Says = "Every reading is what a right loom shows."
		if len(left) > 1 {
			out.Says += fmt.Sprintf(" %s left which no offered reading surely shows: %s.", thereAre(len(left)-1, "fault is", "faults are"), others(out.Suspects))
		}
		return
	case len(left) == 1:
		out.Verdict = Found
		out.Says = fmt.Sprintf("One thing explains every reading: %s.", top.words())
	default:
		out.Verdict = AlikeLeft
		out.Says = fmt.Sprintf("%d things explain every reading, and no offered reading surely tells them apart; likeliest: %s.", len(left), top.words())
	}
	for _, s := range out.Suspects {
		for _, do := range s.Do {
			if !slices.Contains(out.Do, do) {
				out.Do = append(out.Do, do)
			}
		}
	}
	out.Do = append(out.Do, "Then take the readings again, those that prove the whole loom among them: where there was one fault there may be another.")
}

func thereAre(n int, one, many string) string {
	if n == 1 {
		return "One " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func others(all []Suspect) string {
	var out []string
	for _, s := range all {
		if s.at != 0 {
			out = append(out, s.words())
		}
	}
	return strings.Join(out, "; ")
}

// words names a suspect.
func (s *Suspect) words() string { return either(s.Faults) }

// fewAlike is how many faults of a group are named before the rest is counted.
const fewAlike = 4

// either names all faults that are the same to every probe.
func either(faults []string) string {
	switch n := len(faults); {
	case n == 0:
		return "nothing is wrong"
	case n == 1:
		return faults[0]
	case n > fewAlike+1:
		return fmt.Sprintf("%s (or, the same to every probe: %s; or %d more)", faults[0], strings.Join(faults[1:fewAlike], "; "), n-fewAlike)
	}
	return faults[0] + " (or, the same to every probe: " + strings.Join(faults[1:], "; ") + ")"
}

// contradiction fills in a result where no single fault explains all readings.
func (j *judge) contradiction(out *Result) {
	out.Verdict = Contradiction
	out.Misfits = j.misfits()
	out.Pairs = j.pairs()
	out.Says = "No single fault explains all readings: one of them was misread, or more than one thing is wrong."
	if len(out.Misfits) > 0 && len(out.Misfits[0].Not) == 1 {
		m := out.Misfits[0]
		out.Do = append(out.Do, fmt.Sprintf("Take this reading again: %s. Without it, %s would explain the rest.", m.Not[0].Ask, orRight(m.Faults)))
	}
	switch {
	case len(out.Pairs) == 1:
		out.Do = append(out.Do, "If it stays: two things are wrong, and one pair explains everything: "+out.Pairs[0].words()+". "+oneFirst)
	case len(out.Pairs) > 1:
		out.Do = append(out.Do, fmt.Sprintf("If it stays: two things are wrong; %d pairs that were found explain everything. %s", len(out.Pairs), oneFirst))
		if f := out.Pairs[0]; f.Common {
			out.Do = append(out.Do, "All of them have this in common: "+either(f.First)+".")
		}
	default:
		out.Do = append(out.Do, "If it stays: more than one thing is wrong, and no pair that was tried explains everything. "+oneFirst)
	}
}

const oneFirst = "Mend the likeliest, then measure again from the start."

func orRight(faults []string) string {
	if len(faults) == 0 {
		return "a right loom"
	}
	return either(faults)
}

// misfits are the single cases that leave the fewest readings unexplained.
func (j *judge) misfits() []Misfit {
	type scored struct {
		c, not int
		prior  float64
	}
	var list []scored
	before := newBelief(j.b.t)
	for c := range j.b.t.Cases {
		n := 0
		for _, f := range j.fits(c, j.answers) {
			if f.How == "no" {
				n++
			}
		}
		list = append(list, scored{c, n, before.p[c]})
	}
	slices.SortStableFunc(list, func(a, b scored) int {
		return cmp.Or(cmp.Compare(a.not, b.not), cmp.Compare(b.prior, a.prior))
	})
	var out []Misfit
	for _, s := range list[:min(len(list), maxMisfits)] {
		m := Misfit{Faults: []string{}}
		for _, f := range j.b.t.Cases[s.c].Faults {
			m.Faults = append(m.Faults, f.Words)
		}
		for _, f := range j.fits(s.c, j.answers) {
			if f.How == "no" {
				m.Not = append(m.Not, f)
			}
		}
		out = append(out, m)
	}
	return out
}

// words puts what can be shown in words.
func words(k meter.Kind, s meter.Shown) string {
	if s.May != 0 {
		return strings.Join(s.May.Words(), " or ")
	}
	text := func(x float64) string {
		switch {
		case k == meter.Farads && x < 1:
			return units.FormatFarads(units.Round(x, 3))
		case k == meter.Ohms && x < 1e7:
			return units.FormatOhms(units.Round(x, 3))
		}
		return "open"
	}
	if math.IsInf(s.Hi, 1) && s.Lo >= 1e7 {
		return "open"
	}
	return text(s.Lo) + " to " + text(s.Hi)
}
