package cli

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/diagnosis"
)

func (a *app) faultCommand() *cobra.Command {
	var f meterFlags
	var readings, symptoms []string
	var stateFile string
	cmd := &cobra.Command{
		Use:   "fault FILE",
		Short: "Find what is wrong with a soldered loom from meter readings",
		Long: `Fault asks for readings one after the other and says what explains them all.
Answer with what the meter shows: 7.87k, 0.3, OL; a tap with up, down or still; a
tone with darker or same. A question mark after an answer marks it as doubted;
"skip" passes a reading that cannot be taken; an empty line or "quit" stops.

Readings can be given as --reading "ASK = SHOWN" instead, where ASK is a line as
it prints them; then nothing is asked. --state keeps the answers in a file.`,
		Example: "  loomwright fault guitar.yaml --symptom 'thin: toggle middle'\n" +
			"  loomwright fault guitar.yaml --reading 'ohms jack.tip to jack.sleeve = OL'",
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			b, data, err := a.loomAndBench(args[0])
			if err != nil {
				return err
			}
			o, err := f.options(b)
			if err != nil {
				return err
			}
			c, list, err := b.OpenCase(args[0], data, o)
			a.printFindings(b, args[0], data, list)
			if err != nil {
				return err
			}
			d := &dialogue{app: a, c: c, file: stateFile}
			return d.run(readings, symptoms)
		},
	}
	f.add(cmd)
	cmd.Flags().StringArrayVar(&readings, "reading", nil, `a reading taken: "ohms jack.tip to jack.sleeve = 7.9k" (may be given again)`)
	cmd.Flags().StringArrayVar(&symptoms, "symptom", nil, `what a player notices: "thin: toggle middle", "buzz" (may be given again; "help" lists them)`)
	cmd.Flags().StringVar(&stateFile, "state", "", "file that keeps the answers between runs")
	return cmd
}

func (a *app) loomAndBench(name string) (*bench.Bench, string, error) {
	b, err := a.bench()
	if err != nil {
		return nil, "", err
	}
	data, err := a.read(name)
	return b, data, err
}

// dialogue is one diagnosis in a terminal.
type dialogue struct {
	app   *app
	c     *bench.Case
	file  string
	state diagnosis.State
}

func (d *dialogue) run(readings, symptoms []string) error {
	for _, s := range symptoms {
		if s == "help" {
			return d.listSymptoms()
		}
	}
	if err := d.load(); err != nil {
		return err
	}
	if err := d.given(readings, symptoms); err != nil {
		return err
	}
	ask := len(readings) == 0 && !d.app.json
	in := bufio.NewScanner(d.app.streams.In)
	for {
		r, err := d.c.Judge(d.state)
		if err != nil {
			return err
		}
		if !ask || r.Next == nil {
			return d.end(r)
		}
		more, err := d.question(in, r)
		if err != nil {
			return err
		}
		if !more {
			return d.end(r)
		}
	}
}

func (d *dialogue) listSymptoms() error {
	rows := [][]string{{"symptom", "what it means", "may be narrowed by"}}
	for _, s := range diagnosis.SymptomHelp() {
		rows = append(rows, s[:])
	}
	printTable(d.app.streams.Out, rows)
	return nil
}

// given takes in what stands on the command line.
func (d *dialogue) given(readings, symptoms []string) error {
	for _, text := range symptoms {
		s, err := d.c.Symptom(text)
		if err != nil {
			return err
		}
		d.state.Symptoms = append(d.state.Symptoms, s)
	}
	for _, text := range readings {
		ask, said, ok := strings.Cut(text, " = ")
		if !ok {
			return fmt.Errorf("--reading %q: write it as  ohms jack.tip to jack.sleeve = 7.9k", text)
		}
		if err := d.take(strings.TrimSpace(ask), strings.TrimSpace(said)); err != nil {
			return err
		}
	}
	return d.save()
}

// take adds an answer; a question mark at its end marks it as doubted.
func (d *dialogue) take(ask, said string) error {
	said, doubt := strings.CutSuffix(said, "?")
	answer := diagnosis.Answer{Ask: ask, Said: strings.TrimSpace(said), Doubt: doubt}
	if err := d.c.Understand(answer); err != nil {
		return err
	}
	d.state = d.state.With(answer)
	return nil
}

// question asks for one reading; false ends the dialogue.
func (d *dialogue) question(in *bufio.Scanner, r diagnosis.Result) (bool, error) {
	w := d.app.streams.Out
	fmt.Fprintf(w, "\n%s\n%d. %s\n", r.Says, len(d.state.Answers)+1, r.Next.Do)
	if len(r.Next.Answers) > 0 {
		fmt.Fprintf(w, "   answers: %s\n", strings.Join(r.Next.Answers, ", "))
	} else {
		fmt.Fprintf(w, "   a right loom shows %s\n", showsCell(&r.Next.Line))
	}
	for {
		fmt.Fprint(w, "   reading> ")
		if !in.Scan() {
			fmt.Fprintln(w)
			return false, in.Err()
		}
		said := strings.TrimSpace(in.Text())
		switch said {
		case "", "quit":
			return false, nil
		case "skip":
			d.state.Skip = append(d.state.Skip, r.Next.Key)
			return true, d.save()
		}
		if err := d.take(r.Next.Key, said); err != nil {
			fmt.Fprintf(w, "   %v\n", err)
			continue
		}
		return true, d.save()
	}
}

// end prints where the diagnosis stands; a fault found is status 1.
func (d *dialogue) end(r diagnosis.Result) error {
	if d.app.json {
		if err := writeJSON(d.app.streams.Out, r); err != nil {
			return err
		}
	} else {
		printResult(d.app.streams.Out, r)
		if p := d.c.Proof(r); p != nil && r.Verdict == diagnosis.Found && len(r.Suspects[0].Faults) > 0 {
			fmt.Fprintln(d.app.streams.Out, "\nIs anything else wrong? With that fault alone these readings show:")
			printProof(d.app.streams.Out, p, false)
		}
	}
	if r.Verdict == diagnosis.Found || r.Verdict == diagnosis.AlikeLeft || r.Verdict == diagnosis.Contradiction {
		return errFindings
	}
	return nil
}

func printResult(w io.Writer, r diagnosis.Result) {
	fmt.Fprintf(w, "\n%s\n", r.Says)
	rows := [][]string{{"chance", "what explains the readings", "then"}}
	for _, s := range r.Suspects {
		what := strings.Join(s.Faults, "; or ")
		if what == "" {
			what = "nothing: the loom is right"
		}
		rows = append(rows, []string{fmt.Sprintf("%.0f %%", 100*s.Chance), what, strings.Join(s.Do, " ")})
	}
	if len(r.Suspects) > 0 {
		printTable(w, rows)
	}
	for _, p := range r.Pairs {
		fmt.Fprintf(w, "  two faults together: %s, and %s\n", strings.Join(p.First, " or "), strings.Join(p.Second, " or "))
	}
	for _, do := range r.Do {
		fmt.Fprintf(w, "  - %s\n", do)
	}
	if r.Next != nil {
		fmt.Fprintf(w, "  next: %s\n        as --reading \"%s = …\"\n", r.Next.Do, r.Next.Key)
	}
}

func (d *dialogue) load() error {
	if d.file == "" {
		return nil
	}
	data, err := os.ReadFile(d.file)
	if os.IsNotExist(err) {
		return nil
	}
	if err != nil {
		return err
	}
	if err := json.Unmarshal(data, &d.state); err != nil {
		return fmt.Errorf("%s holds no answers of an earlier run: %w", d.file, err)
	}
	return nil
}

func (d *dialogue) save() error {
	if d.file == "" {
		return nil
	}
	data, err := json.MarshalIndent(d.state, "", "  ")
	if err != nil {
		return err
	}
	return replaceFile(d.file, string(data)+"\n")
}
