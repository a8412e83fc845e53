package bench

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/proof"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

var update = flag.Bool("update", false, "rewrite the stages in testdata")

// A case is a loom that a user could type (loom.yaml), perhaps files of a shelf
// (shelf/…), and what stages make of it: read (what loom finds), nets (metal of
// one piece), settings (the table), proof (what is wrong).
const cases = "../../testdata/*.txtar"

// stages computes the sections of a case; a stage that cannot run is absent.
func stages(a *txtar.Archive) map[string]string {
	shelf := fstest.MapFS{}
	var text *diag.Text
	for _, f := range a.Files {
		if name, ok := strings.CutPrefix(f.Name, "shelf/"); ok {
			shelf[name] = &fstest.MapFile{Data: f.Data}
		}
		if f.Name == "loom.yaml" {
			text = diag.NewText(f.Name, string(f.Data))
		}
	}
	out := map[string]string{}
	l, list := loom.Read(text, New(part.Shelf{Name: "shelf", FS: shelf}).Library)
	out["read"] = listed(list)
	if l == nil {
		return out
	}
	g, list := wiring.Build(l)
	out["read"] += listed(list)
	out["nets"] = nets(g)
	report := proof.Prove(g)
	out["settings"] = table(report.Rows)
	out["proof"] = listed(report.Findings)
	return out
}

// listed writes findings a line each, with where they stand and all they say.
func listed(list diag.List) string {
	var b strings.Builder
	for _, d := range list {
		if Quiet(d.Code) {
			continue
		}
		fmt.Fprintf(&b, "%s:%d:%d-%d:%d %s %s: %s\n", d.Span.File, d.Span.Start.Line, d.Span.Start.Col, d.Span.End.Line, d.Span.End.Col,
			d.Severity, d.Code, d.Message)
		if d.Hint != "" {
			fmt.Fprintf(&b, "    %s\n", d.Hint)
		}
	}
	return b.String()
}

// nets writes the pieces of metal of more than one terminal.
func nets(g *wiring.Graph) string {
	n := setting.NewBase(g).NetsOf(nil)
	pieces := make([][]string, n.Count)
	for t, of := range n.Of {
		pieces[of] = append(pieces[of], g.Terms[t].Name)
	}
	var b strings.Builder
	for _, p := range pieces {
		if len(p) > 1 {
			fmt.Fprintln(&b, strings.Join(p, " = "))
		}
	}
	return b.String()
}

// table writes rows a line each: setting | output | heard | phase | hum | knobs
// | travel | wanted.
func table(rows []proof.Row) string {
	var b strings.Builder
	for _, r := range rows {
		var knobs []string
		for _, k := range r.Knobs {
			knobs = append(knobs, strings.TrimSpace(k.Knob+" "+k.Does+" "+strings.Join(k.Mutes, " ")))
		}
		var ways []string
		for _, w := range r.Travel {
			ways = append(ways, w.Switch+" "+string(w.Quiet))
		}
		cells := []string{r.Name, string(r.Output), r.Heard, string(r.Phase), string(r.Hum), strings.Join(knobs, ", "),
			strings.Join(ways, ", "), wantedWords(r.Wanted)}
		fmt.Fprintln(&b, strings.Join(cells, " | "))
	}
	return b.String()
}

func TestStages(t *testing.T) {
	files, err := filepath.Glob(cases)
	if err != nil || len(files) < 10 {
		t.Fatalf("%d cases found (%v)", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) { runCase(t, file) })
	}
}

func runCase(t *testing.T, file string) {
	a, err := txtar.ParseFile(file)
	if err != nil {
		t.Fatal(err)
	}
	got := stages(a)
	checked := 0
	for i, f := range a.Files {
		if f.Name == "loom.yaml" || strings.HasPrefix(f.Name, "shelf/") {
			continue
		}
		checked++
		if !slices.Contains([]string{"read", "nets", "settings", "proof"}, f.Name) {
			t.Errorf("no stage is called %q", f.Name)
		}
		if d := cmp.Diff(string(f.Data), got[f.Name]); d != "" && !*update {
			t.Errorf("%s (want -, got +):\n%s", f.Name, d)
		}
		a.Files[i].Data = []byte(got[f.Name])
	}
	if checked == 0 {
		t.Error("this case expects nothing")
	}
	if *update {
		if err := os.WriteFile(file, txtar.Format(a), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// TestEveryCodeIsShown: each code of what reads and proves looms is found in
// some case, or in the tables of limits, which nobody would type.
func TestEveryCodeIsShown(t *testing.T) {
	files, _ := filepath.Glob(cases)
	shown := map[string]bool{"loom-limit": true} // TestLimits
	for _, file := range files {
		a, err := txtar.ParseFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, section := range stages(a) {
			for _, word := range strings.FieldsFunc(section, func(r rune) bool { return r == ' ' || r == ':' }) {
				shown[word] = true
			}
		}
	}
	for _, c := range slices.Concat(part.Codes, loom.Codes, wiring.Codes, proof.Codes()) {
		if !shown[c.Code] && !Quiet(c.Code) {
			t.Errorf("no case shows %s", c.Code)
		}
	}
}
