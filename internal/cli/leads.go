package cli

import (
	"bufio"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/leads"
)

func (a *app) leadsCommand() *cobra.Command {
	var pickup leads.Pickup
	var make, name, out, believed string
	var lugs, positions, answers []string
	cmd := &cobra.Command{
		Use:   "leads",
		Short: "Find out by meter which lead of a pickup, or lug of a switch, is which",
		Long: `Leads asks for readings one after the other (ohms, a tap with steel, a compass)
and ends in a lead code for your shelf. With --lugs and --positions it asks which
lugs of an unknown switch meet, and ends in a part file.

Answer as the meter shows: 4.1k, OL; or with one of the words offered; "skip"
passes a question; an empty line or "quit" stops. Unplug the amplifier; keep
fingers off the probes.`,
		Example: "  loomwright leads --leads orange,pink,blue,violet --bare bare --name dunlin -o shelf/codes/dunlin.yaml\n" +
			"  loomwright leads --lugs 1,2,3,4,5,6 --positions up,middle,down --name odd -o shelf/switch/odd.yaml",
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			ask := &asker{app: a, in: bufio.NewScanner(a.streams.In)}
			if len(lugs) > 0 {
				return ask.lugs(leads.SwitchState{Lugs: lugs, Positions: positions}, name, out)
			}
			pickup.Make = leads.Make(make)
			state := leads.State{Pickup: pickup}
			if believed != "" {
				b, err := a.bench()
				if err != nil {
					return err
				}
				s, list := b.Believe(state, believed)
				if list.HasErrors() {
					return fmt.Errorf("%s", list[0].Message)
				}
				state = s
			}
			if a.json {
				return a.leadStep(state, answers)
			}
			return ask.leads(state, name, out)
		},
	}
	flags := cmd.Flags()
	flags.Var(choice(&make, string(leads.Twin), makeWords()...), "make", "what the pickup is, from looking at it")
	flags.StringSliceVar(&pickup.Leads, "leads", nil, "colours of the insulated leads: orange,pink,blue,violet")
	flags.StringVar(&pickup.Bare, "bare", "", "name of the bare wire or braid, if there is one")
	flags.BoolVar(&pickup.Hidden, "hidden-shield", false, "one more of the leads is the shield, and nobody knows which")
	flags.BoolVar(&pickup.Plate, "plate", false, "a baseplate or cover can be probed")
	flags.BoolVar(&pickup.Compass, "compass", false, "a compass is at hand")
	flags.StringVar(&believed, "check", "", "a lead code that you believe in, to check")
	flags.StringSliceVar(&lugs, "lugs", nil, "names that you give the lugs of a switch, in the order they stand")
	flags.StringSliceVar(&positions, "positions", nil, "positions of the switch, in order of travel")
	flags.StringArrayVar(&answers, "answer", nil, `with --json: an answer given, "KEY = SHOWN" (may be given again); the next step is printed`)
	flags.StringVar(&name, "name", "mine", "name for the code or part")
	flags.StringVarP(&out, "output", "o", "", "file to write (default: standard output)")
	return cmd
}

// leadStep prints the step that follows given answers, as JSON.
func (a *app) leadStep(s leads.State, answers []string) error {
	for _, text := range answers {
		key, said, ok := strings.Cut(text, " = ")
		if !ok {
			return fmt.Errorf("--answer %q: write it as  KEY = 4.1k, with the key of the question", text)
		}
		s = s.With(strings.TrimSpace(key), strings.TrimSpace(said))
	}
	step, err := bench.NextLead(s)
	if err != nil {
		return err
	}
	return writeJSON(a.streams.Out, step)
}

func makeWords() []string {
	var out []string
	for _, m := range leads.Makes() {
		out = append(out, string(m.Make))
	}
	return out
}

// asker asks questions in a terminal.
type asker struct {
	app *app
	in  *bufio.Scanner
}

// errStopped ends a wizard before its end.
var errStopped = errors.New("stopped before the end: nothing is written")

// line asks for one line; an empty one and "quit" end the wizard.
func (k *asker) line() (string, error) {
	fmt.Fprint(k.app.streams.Err, "   > ")
	if !k.in.Scan() {
		return "", errors.Join(errStopped, k.in.Err())
	}
	said := strings.TrimSpace(k.in.Text())
	if said == "" || said == "quit" {
		return "", errStopped
	}
	return said, nil
}

// leads runs the wizard of a pickup.
func (k *asker) leads(s leads.State, name, out string) error {
	w := k.app.streams.Err
	for {
		step, err := bench.NextLead(s)
		if err != nil {
			return err
		}
		if step.Found != nil {
			fmt.Fprintln(w, step.Found.Text())
			return k.app.product(out, step.Found.Code(name))
		}
		q := step.Question
		fmt.Fprintf(w, "%d. %s\n   (%s; %s left)\n", len(s.Answers)+1, q.Do, q.Why, plural(step.Left, "way", "ways"))
		if len(q.Answers) > 0 {
			fmt.Fprintf(w, "   answers: %s\n", strings.Join(q.Answers, ", "))
		}
		if s, err = k.answer(s, q); err != nil {
			return err
		}
	}
}

// answer asks until an answer can be understood.
func (k *asker) answer(s leads.State, q *leads.Question) (leads.State, error) {
	for {
		said, err := k.line()
		if err != nil {
			return s, err
		}
		if said == "skip" {
			s.Skip = append(slices.Clone(s.Skip), q.Key)
			return s, nil
		}
		next := s.With(q.Key, said)
		if _, err := bench.NextLead(next); err != nil {
			fmt.Fprintf(k.app.streams.Err, "   %v\n", err)
			continue
		}
		return next, nil
	}
}

// lugs runs the wizard of a switch.
func (k *asker) lugs(s leads.SwitchState, name, out string) error {
	w := k.app.streams.Err
	for {
		step, err := bench.NextLug(s)
		if err != nil {
			return err
		}
		if step.Found != nil {
			fmt.Fprintln(w, step.Found.Says)
			return k.app.product(out, step.Found.Part(name))
		}
		q := step.Question
		fmt.Fprintf(w, "%s\n   answer with the lugs that beep, or none\n", q.Do)
		said, err := k.line()
		if err != nil {
			return err
		}
		next := s.With(leads.Sweep{Position: q.Position, On: q.On, Over: q.Over, Meet: meets(said)})
		if _, err := bench.NextLug(next); err != nil {
			fmt.Fprintf(w, "   %v\n", err)
			continue
		}
		s = next
	}
}

func meets(said string) []string {
	if said == "none" {
		return nil
	}
	return strings.FieldsFunc(said, func(r rune) bool { return r == ',' || r == ' ' })
}

// product writes what a command makes: a file, or standard output.
func (a *app) product(out, text string) error {
	if out == "" || out == "-" {
		_, err := fmt.Fprint(a.streams.Out, text)
		return err
	}
	return replaceFile(out, text)
}
