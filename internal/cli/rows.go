package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"strings"
	"sync"

	"loomwright/internal/bench"
	"loomwright/internal/swap"
)

// made is what became of one row of a table of customers.
type made struct {
	Name   string   `json:"name"`
	Line   int      `json:"line"`
	Failed bool     `json:"failed,omitempty"`
	Why    []string `json:"why,omitempty"` // reasons, or what to look at
}

// eachRow does one thing for each customer of a table, on all cores, with a bar
// of progress; make returns what is to be said of a row, and an error where it
// failed. Whatever becomes of a row, the others are made.
func (a *app) eachRow(b *bench.Bench, table, folder, thing string, make func(swap.Row) ([]string, error)) error {
	text, err := a.read(table)
	if err != nil {
		return err
	}
	rows, list := bench.SwapTable(table, text)
	a.printFindings(b, table, text, list)
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	bar := newBar(a.streams.Err)
	all := parallel(len(rows), func(i int) made { return makeRow(rows[i], make) }, func(done int) { bar(done, len(rows)) })
	return a.listMade(all, thing, list.HasErrors())
}

// makeRow makes one row; a mistake of the program's own fails it alone.
func makeRow(row swap.Row, make func(swap.Row) ([]string, error)) (m made) {
	m = made{Name: row.Name, Line: row.Line}
	defer func() {
		if r := recover(); r != nil {
			m.Failed, m.Why = true, append(m.Why, fmt.Sprintf("a mistake of Loomwright's own: %v", r))
		}
	}()
	why, err := make(row)
	m.Failed, m.Why = err != nil, why
	if err != nil && !errors.Is(err, errFindings) {
		m.Why = append(m.Why, err.Error())
	}
	return m
}

// parallel runs n pieces of work on all cores and returns their results;
// progress hears how many are done.
func parallel[T any](n int, work func(i int) T, progress func(done int)) []T {
	out := make([]T, n)
	var group sync.WaitGroup
	var mu sync.Mutex
	finished := 0
	next := make(chan int)
	for range min(runtime.NumCPU(), max(1, n)) {
		group.Go(func() {
			for i := range next {
				out[i] = work(i)
				mu.Lock()
				finished++
				progress(finished)
				mu.Unlock()
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	group.Wait()
	return out
}

const barWidth = 30

// newBar returns what draws a bar of progress on a terminal, and nothing
// elsewhere.
func newBar(w io.Writer) func(done, of int) {
	f, ok := w.(*os.File)
	if !ok {
		return func(int, int) {}
	}
	if info, err := f.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return func(int, int) {}
	}
	return func(done, of int) {
		full := barWidth * done / of
		fmt.Fprintf(w, "\r[%s%s] %d of %d", strings.Repeat("#", full), strings.Repeat("-", barWidth-full), done, of)
		if done == of {
			fmt.Fprintln(w)
		}
	}
}

// listMade lists what failed and why, and what to look at in the rest.
func (a *app) listMade(all []made, thing string, errors bool) error {
	failed := 0
	for _, m := range all {
		if m.Failed {
			failed++
		}
	}
	if a.json {
		if err := writeJSON(a.streams.Out, all); err != nil {
			return err
		}
	} else {
		a.printMade(all, failed, thing)
	}
	if failed > 0 || errors {
		return errFindings
	}
	return nil
}

func (a *app) printMade(all []made, failed int, thing string) {
	for _, m := range all {
		word := "look at"
		if m.Failed {
			word = "FAILED "
		}
		if m.Failed || len(m.Why) > 0 {
			fmt.Fprintf(a.streams.Out, "%s  %s (line %d): %s\n", word, m.Name, m.Line, strings.Join(m.Why, "; "))
		}
	}
	fmt.Fprintf(a.streams.Out, "%s made, %d failed\n", plural(len(all)-failed, thing, thing+"s"), failed)
}
