package bench

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/leads"
	"loomwright/internal/swap"
	"loomwright/internal/synthesis"
)

// Swap gives the parts of a loom other leads, bodies or values, and proves it
// again. Joins that the new parts cannot carry over are searched anew.
func (b *Bench) Swap(name, data string, r swap.Request) swap.Result {
	return swap.Do(diag.NewText(name, data), b.Library, r, b.finder(name))
}

// SwapTable reads a table of customers' parts.
func SwapTable(name, data string) ([]swap.Row, diag.List) {
	return swap.ReadTable(diag.NewText(name, data))
}

// SwapRow makes the loom of one customer.
func (b *Bench) SwapRow(name, data string, r swap.Row) swap.Result {
	return r.Do(diag.NewText(name, data), b.Library, b.finder(name))
}

// finder has synthesis look for the joins that a swapped loom lacks.
func (b *Bench) finder(name string) swap.Finder {
	return func(wish string) (string, []string) {
		w := b.Wire(name, wish, WireOptions{})
		if len(w.Texts) == 0 {
			return "", notFound(&w)
		}
		return w.Texts[0], append(foundWords(&w.Result), w.Result.Covers...)
	}
}

// foundWords say how good a wiring is.
func foundWords(r *synthesis.Result) []string {
	count := fmt.Sprintf("%d joins found", r.Wirings[0].Count)
	switch {
	case r.CutShort:
		return []string{count + "; the search was cut short"}
	case r.Smallest:
		return []string{count + ", proved: no wiring has fewer"}
	}
	return []string{fmt.Sprintf("%s, not proved fewest: none has fewer than %d", count, r.Bound)}
}

// notFound says why there is no wiring, and what would help.
func notFound(w *Wired) []string {
	var out []string
	for _, f := range w.Findings {
		if f.Severity == diag.Error {
			out = append(out, f.Message)
		}
	}
	why := w.Result.Why
	if why == nil {
		return out
	}
	if s := why.Switch; s != nil {
		out = append(out, fmt.Sprintf("a %s (%s) for %s would do", s.Name, s.Part, s.For))
	}
	return out
}

// Reasons say why a swap made no loom, or what is to be looked at in the one
// that it made.
func Reasons(r *swap.Result) []string {
	out := slices.Concat(r.Why, r.Said)
	if r.Text != "" {
		return out
	}
	for _, f := range r.Findings {
		if f.Severity == diag.Error {
			text := f.Message
			if f.Hint != "" && !strings.Contains(f.Hint, "\n") {
				text += " (" + f.Hint + ")"
			}
			out = append(out, text)
		}
	}
	for _, u := range r.Unknown {
		command, _ := LeadsCommand(u, "shelf")
		out = append(out, command)
	}
	return out
}

// LeadsCommand is the command line that tells the leads of a pickup by meter,
// and the name of the code it ends in.
func LeadsCommand(u swap.Unknown, shelf string) (command, code string) {
	code = cmp.Or(u.Code, u.Use) + "-told"
	words := []string{"loomwright leads"}
	for _, m := range leads.Makes() {
		if m.Leads == len(u.Leads) && (u.Coils > 1 || m.Make == leads.Single) && (u.Coils != 2 || m.Make != leads.Single) {
			words = append(words, fmt.Sprintf("--make '%s'", m.Make))
			break
		}
	}
	words = append(words, "--leads "+shellWord(strings.Join(u.Leads, ",")))
	if u.Bare != "" {
		words = append(words, "--bare "+shellWord(u.Bare))
	}
	words = append(words, "--name "+shellWord(code), "-o "+shellWord(shelf+"/codes/"+code+".yaml"))
	return strings.Join(words, " "), code
}

// shellWord is a word as a shell takes it.
func shellWord(s string) string {
	plain := func(r rune) bool {
		return !strings.ContainsRune("-_./,=:+", r) && (r < '0' || r > '9') && (r < 'a' || r > 'z') && (r < 'A' || r > 'Z')
	}
	if s != "" && !strings.ContainsFunc(s, plain) {
		return s
	}
	return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'"
}
