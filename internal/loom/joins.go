package loom

import (
	"strings"
	"unicode"

	"loomwright/internal/diag"
	"loomwright/internal/source"
	"loomwright/internal/units"
)

// piece is a stretch of a scalar, in runes from its start.
type piece struct {
	text   string
	offset int
}

// pieces cuts a text at a separator and trims each piece, keeping offsets.
func pieces(p piece, sep string) []piece {
	var out []piece
	offset := p.offset
	for _, s := range strings.Split(p.text, sep) {
		trimmed := strings.TrimLeftFunc(s, unicode.IsSpace)
		lead := len([]rune(s)) - len([]rune(trimmed))
		out = append(out, piece{strings.TrimSpace(trimmed), offset + lead})
		offset += len([]rune(s)) + len([]rune(sep))
	}
	return out
}

// sub is the span of a piece inside a scalar.
func (r *resolver) sub(s source.String, p piece) diag.Span {
	span := s.Span
	line := []rune(r.loom.Doc.Text.Line(span.Start.Line))
	col := span.Start.Col
	if c := col - 1; c >= 0 && c < len(line) && (line[c] == '"' || line[c] == '\'') {
		col++
	}
	if span.Start.Line != span.End.Line {
		return span // folded over lines: the whole scalar
	}
	return r.loom.Doc.Text.Span(span.Start.Line, col+p.offset, max(1, len([]rune(p.text))))
}

// join reads "a, b -- c: options".
func (r *resolver) join(f JoinFile) {
	if f.Run.Value == "" {
		return // reported by the decoder
	}
	sides := pieces(piece{text: f.Run.Value}, "--")
	if len(sides) != 2 || sides[0].text == "" || sides[1].text == "" {
		r.fail("join-syntax", f.Run.Span, "a join has two sides, with -- between them").Hint = joinHint(f.Run.Value, sides)
		return
	}
	left, right := r.refs(f.Run, sides[0]), r.refs(f.Run, sides[1])
	if len(left) > 1 && len(right) > 1 {
		r.fail("join-syntax", f.Run.Span, "several terminals on both sides: write one line for each place they go to")
		return
	}
	if len(left) == 0 || len(right) == 0 {
		return // each wrong name is reported already
	}
	j := Join{Span: f.Span}
	for _, a := range left {
		for _, b := range right {
			j.Runs = append(j.Runs, Run{A: a, B: b, Wire: Wire{Kind: Hookup}})
			r.checkRun(a, b)
		}
	}
	r.options(f.Options, &j)
	if r.runs += len(j.Runs); r.runs > maxRuns {
		if r.runs-len(j.Runs) <= maxRuns {
			r.fail("loom-limit", f.Run.Span, "more than %d joins", maxRuns)
		}
		return
	}
	r.loom.Joins = append(r.loom.Joins, j)
}

// joinHint rewrites what was written as joins: other dashes and arrows for --,
// a chain as a line for each stretch.
func joinHint(text string, sides []piece) string {
	if len(sides) > 2 {
		var lines []string
		for i := 1; i < len(sides); i++ {
			lines = append(lines, sides[i-1].text+" -- "+sides[i].text)
		}
		return "one line for each stretch:  " + strings.Join(lines, "   and   ")
	}
	for _, dash := range []string{"<->", "->", "=>", "→", "–", "—", " - ", " to ", ">"} {
		if a, b, ok := strings.Cut(text, dash); ok && strings.TrimSpace(a) != "" && strings.TrimSpace(b) != "" {
			return strings.TrimSpace(a) + " -- " + strings.TrimSpace(b)
		}
	}
	return "volume.wiper -- jack.tip"
}

func (r *resolver) checkRun(a, b Ref) {
	if a.Use == b.Use && a.Terminal == b.Terminal && (a.Terminal >= 0 || a.Lead == b.Lead) {
		r.fail("join-self", b.Span, "%s and %s are one terminal: this wire does nothing", a.Name, b.Name)
	}
}

func (r *resolver) refs(s source.String, side piece) []Ref {
	var out []Ref
	for _, p := range pieces(side, ",") {
		if p.text == "" {
			r.fail("join-syntax", r.sub(s, p), "a terminal is missing beside the comma")
			continue
		}
		if ref, ok := r.ref(p.text, r.sub(s, p)); ok {
			out = append(out, ref)
		}
	}
	return out
}

// options reads what stands after the colon of a join.
func (r *resolver) options(s source.String, j *Join) {
	if s.Value == "" {
		return
	}
	w := Wire{Kind: Hookup}
	var braid *Braid
	for _, p := range pieces(piece{text: s.Value}, ",") {
		switch word := p.text; {
		case word == "bare", word == "screened", word == "lead", word == "touching":
			w.Kind = WireKind(word)
		case word == "sleeved":
			w.Sleeved = true
		case word == "twisted":
			w.Twisted = true
		case strings.HasPrefix(word, "braid "):
			braid = r.braid(s, piece{word[len("braid "):], p.offset + len("braid ")})
		default:
			r.wireWord(s, p, &w)
		}
	}
	if braid != nil && w.Kind != Screened {
		r.fail("join-option", s.Span, "only a screened wire has a braid").Hint = "screened, " + s.Value
	}
	for i := range j.Runs {
		j.Runs[i].Wire, j.Runs[i].Braid = w, braid
	}
}

func (r *resolver) wireWord(s source.String, p piece, w *Wire) {
	if c, err := units.ReadColour(p.text); err == nil {
		w.Colour = c.String()
		return
	}
	size, err := units.Wire(p.text)
	if err != nil {
		r.fail("join-option", r.sub(s, p), "%q is neither a colour, a wire size nor a kind of wire", p.text).Hint =
			diag.Nearest(p.text, []string{"bare", "screened", "sleeved", "twisted", "lead", "touching", "black", "white", "22 AWG"})
		return
	}
	w.Size = size
}

// braid reads "a" or "a -- b".
func (r *resolver) braid(s source.String, p piece) *Braid {
	ends := pieces(p, "--")
	if len(ends) > 2 {
		r.fail("join-option", r.sub(s, p), "a braid has two ends").Hint = "braid volume.case -- jack.sleeve"
		return nil
	}
	a, ok := r.ref(ends[0].text, r.sub(s, ends[0]))
	if !ok {
		return nil
	}
	b := &Braid{A: a}
	if len(ends) == 2 {
		if far, ok := r.ref(ends[1].text, r.sub(s, ends[1])); ok {
			b.B = &far
		}
	}
	return b
}
