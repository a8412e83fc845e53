package bench

import (
	"io/fs"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"loomwright/internal/diag"
	"loomwright/internal/part"
	"loomwright/library"
)

// Mutants are files that a tired user could type: words and lines of real ones,
// changed for each other, left out, doubled. They get past the reader of YAML
// more often than bytes at random.

var wordOrSpace = regexp.MustCompile(`[\w.]+|[^\w.]`)

// mutant changes a text in some places.
func mutant(rng *rand.Rand, text string, words []string) string {
	for range 1 + rng.IntN(4) {
		if !regexp.MustCompile(`\w`).MatchString(text) {
			return text
		}
		if rng.IntN(3) == 0 {
			text = mutateLine(rng, text)
			continue
		}
		tokens := wordOrSpace.FindAllString(text, -1)
		i := rng.IntN(len(tokens))
		switch rng.IntN(5) {
		case 0:
			tokens[i] = ""
		case 1:
			tokens[i] += tokens[i]
		case 2:
			tokens[i] = tokens[rng.IntN(len(tokens))]
		default:
			for !regexp.MustCompile(`\w`).MatchString(tokens[i]) {
				i = rng.IntN(len(tokens))
			}
			tokens[i] = words[rng.IntN(len(words))]
		}
		text = strings.Join(tokens, "")
	}
	return text
}

func mutateLine(rng *rand.Rand, text string) string {
	lines := strings.SplitAfter(text, "\n")
	i, k := rng.IntN(len(lines)), rng.IntN(len(lines))
	switch rng.IntN(3) {
	case 0:
		lines[i] = ""
	case 1:
		lines[i] += lines[k]
	default:
		lines[i], lines[k] = lines[k], lines[i]
	}
	return strings.Join(lines, "")
}

func vocabulary(texts []string) []string {
	words := []string{"-1", "0", "1e999", "NaN", "unknown", "yes", "through", "series", "parallel", "reversed", "link", "hot", "ground", "999999999999999999999"}
	for _, t := range texts {
		words = append(words, regexp.MustCompile(`[\w.]+`).FindAllString(t, -1)...)
	}
	return words
}

func FuzzMutantLoom(f *testing.F) {
	texts := append(seeds(f), twelve, slides(2))
	words := vocabulary(texts)
	b := New()
	for seed := range uint64(200) {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, seed uint64) {
		rng := rand.New(rand.NewPCG(seed, 7))
		text := mutant(rng, texts[rng.IntN(len(texts))], words)
		c := b.Check("loom.yaml", text)
		inPlace(t, c.Findings, func(file string) *diag.Text {
			if file == "loom.yaml" {
				return c.Text
			}
			return b.TextOf(file)
		})
		if c.Graph == nil && !c.Findings.HasErrors() {
			t.Errorf("refused without an error:\n%s", text)
		}
		if t.Failed() {
			t.Log(text)
		}
	})
}

func FuzzMutantPart(f *testing.F) {
	var files []string
	err := fs.WalkDir(library.Files, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(library.Files, p)
		short, _, _ := strings.Cut(string(data), "outline:")
		files = append(files, short)
		return err
	})
	if err != nil || len(files) < 50 {
		f.Fatalf("%d part files (%v)", len(files), err)
	}
	words := vocabulary(files)
	for seed := range uint64(200) {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, seed uint64) {
		rng := rand.New(rand.NewPCG(seed, 8))
		usesPart(t, rng, mutant(rng, files[rng.IntN(len(files))], words))
	})
}

// usesPart reads a part from a shelf and joins some of its terminals at random.
func usesPart(t *testing.T, rng *rand.Rand, file string) {
	b := New(part.Shelf{Name: "shelf", FS: fstest.MapFS{"x/x.yaml": {Data: []byte(file)}}})
	p, list := b.Part("x/x")
	if p == nil && !list.HasErrors() {
		t.Error("a part is refused without a word")
	}
	var c Checked
	if p != nil && len(p.Terminals) > 0 {
		ends := append(p.TerminalNames(), p.TerminalNames()...)
		loom := "loomwright: 1\nparts:\n  x: {is: x/x}\n  jack: {is: jack/mono}\n  neck: {is: pickup/single-coil}\njoins:\n  - neck.coil.start -- jack.tip\n"
		for i := range ends {
			other := []string{"jack.tip", "jack.sleeve", "x." + ends[rng.IntN(len(ends))], "neck.coil.finish"}[rng.IntN(4)]
			loom += "  - '" + strings.ReplaceAll("x."+ends[i]+" -- "+other, "'", "''") + "'\n"
		}
		c = b.Check("loom.yaml", loom)
	}
	inPlace(t, append(list, c.Findings...), func(name string) *diag.Text {
		if name == "loom.yaml" {
			return c.Text
		}
		return b.TextOf(name)
	})
	if t.Failed() {
		t.Log(file)
	}
}
