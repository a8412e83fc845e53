package starts_test

import (
	"slices"
	"strings"
	"testing"

	"loomwright/internal/bench"
	"loomwright/internal/diag"
)

// Every start is read without a finding but that nothing is joined yet, asks
// for a sound in every setting, stands in the canonical layout and says in its
// first line what it is for.
func TestStarts(t *testing.T) {
	b := bench.New()
	starts := bench.Starts()
	if len(starts) < 10 {
		t.Fatalf("only %d starts found", len(starts))
	}
	for _, s := range starts {
		t.Run(s.Name, func(t *testing.T) {
			if !strings.HasPrefix(s.Text, "# "+s.Says+"\n") || len(s.Says) < 10 || len(s.Says) > 90 {
				t.Errorf("the first line does not say in a line what it is for: %q", s.Says)
			}
			c := b.Check(s.Name+".yaml", s.Text)
			if len(c.Rows) == 0 {
				t.Error("not proved")
			}
			codes := []string{}
			for _, d := range c.Findings {
				if d.Severity > diag.Info {
					codes = append(codes, d.Code)
				}
			}
			if !slices.Equal(codes, []string{"unwired"}) {
				t.Errorf("found %v, want unwired alone", c.Findings)
			}
			for _, r := range c.Rows {
				if r.Wanted == nil {
					t.Errorf("nothing is wanted with %s", r.Name)
				}
			}
			if got, _ := b.Format(s.Name, s.Text); got != s.Text {
				t.Error("it is not in the canonical layout")
			}
		})
	}
}

// Starts do not repeat one another.
func TestStartsDiffer(t *testing.T) {
	seen := map[string]string{}
	for _, s := range bench.Starts() {
		if other, twice := seen[s.Says]; twice {
			t.Errorf("%s and %s are for the same: %s", s.Name, other, s.Says)
		}
		seen[s.Says] = s.Name
	}
}
