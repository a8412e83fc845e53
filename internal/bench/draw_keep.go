package bench

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/drawing"
	"loomwright/internal/wiring"
)

// Earlier is an earlier drawing as it was kept: what can stay where it was,
// stays.
type Earlier struct{ Name, Data string }

// keptCodes are the records of findings about a kept drawing.
var keptCodes = []diag.Code{
	{Code: "kept-drawing", Severity: diag.Error, Says: "the file of an earlier drawing cannot be read", Notice: "nothing is drawn, and the file stays as it is"},
	{Code: "kept-other", Severity: diag.Warning, Says: "the earlier drawing is of another loom", Notice: "everything is laid out anew"},
}

// keptVersion is the version of the file that is written and read.
const keptVersion = 1

// readEarlier reads a kept drawing; nil with a finding where it is none.
func readEarlier(e *Earlier) (*drawing.Saved, diag.List) {
	if e == nil {
		return nil, nil
	}
	k := &keptReader{text: diag.NewText(e.Name, e.Data), data: e.Data, dec: json.NewDecoder(strings.NewReader(e.Data))}
	k.dec.DisallowUnknownFields()
	if err := k.file(); err != nil {
		return nil, diag.List{k.finding(err)}
	}
	return &k.out, nil
}

// keptReader reads a kept drawing entry by entry, so that every error has its
// place.
type keptReader struct {
	text *diag.Text
	data string
	dec  *json.Decoder
	at   int64 // where the entry that is read begins
	out  drawing.Saved
}

func (k *keptReader) file() error {
	if err := k.open('{'); err != nil {
		return err
	}
	for k.dec.More() {
		if err := k.field(); err != nil {
			return err
		}
	}
	if _, err := k.dec.Token(); err != nil {
		return err
	}
	if k.begin(); k.out.Version != keptVersion {
		return fmt.Errorf("version %d of a kept drawing is not known: this program reads version %d", k.out.Version, keptVersion)
	}
	if _, err := k.dec.Token(); !errors.Is(err, io.EOF) {
		return errors.New("there is something after the end of the drawing")
	}
	return nil
}

func (k *keptReader) field() error {
	k.begin()
	name, err := k.dec.Token()
	if err != nil {
		return err
	}
	switch name {
	case "loomwright-drawing":
		k.begin()
		return k.dec.Decode(&k.out.Version)
	case "places":
		return k.each(func() error {
			var p drawing.SavedPart
			err := k.dec.Decode(&p)
			k.out.Places = append(k.out.Places, p)
			return errors.Join(err, within(p.At[:]))
		})
	case "lanes":
		return k.each(k.lane)
	}
	return fmt.Errorf("a kept drawing has no %q", name)
}

func (k *keptReader) lane() error {
	var l drawing.SavedLane
	err := k.dec.Decode(&l)
	k.out.Lanes = append(k.out.Lanes, l)
	if err == nil && len(l.Points) < 2 {
		return errors.New("a lane has two points at least")
	}
	for _, p := range l.Points {
		err = errors.Join(err, within(p[:]))
	}
	return err
}

// farthest is how far from the corner of the page anything may be, mm.
const farthest = 1e4

func within(numbers []float64) error {
	for _, x := range numbers {
		if math.Abs(x) > farthest {
			return fmt.Errorf("%g mm is off any page", x)
		}
	}
	return nil
}

// each calls do for the entries of a list.
func (k *keptReader) each(do func() error) error {
	if err := k.open('['); err != nil {
		return err
	}
	for k.dec.More() {
		k.begin()
		if err := do(); err != nil {
			return err
		}
	}
	_, err := k.dec.Token()
	return err
}

func (k *keptReader) open(bracket json.Delim) error {
	k.begin()
	t, err := k.dec.Token()
	if err == nil && t != bracket {
		return fmt.Errorf("%s should open here", bracket)
	}
	return err
}

// begin notes where the next entry begins.
func (k *keptReader) begin() {
	k.at = k.dec.InputOffset()
	for k.at < int64(len(k.data)) && strings.IndexByte(" \t\r\n,:", k.data[k.at]) >= 0 {
		k.at++
	}
}

// finding says where and why a kept drawing cannot be read.
func (k *keptReader) finding(err error) diag.Diagnostic {
	says := err.Error()
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &syntax):
		k.at, says = max(syntax.Offset-1, 0), "this is not JSON: "+syntax.Error()
	case errors.As(err, &kind):
		says = fmt.Sprintf("there is a %s where a kept drawing has another kind of value", kind.Value)
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		k.at, says = int64(len(k.data)), "the file ends in the middle"
	}
	pos := k.text.Pos(int(min(k.at, int64(len(k.data)))))
	return diag.Diagnostic{Code: keptCodes[0].Code, Severity: diag.Error, Span: k.text.Span(pos.Line, pos.Col, 1),
		Message: "this is no earlier drawing: " + strings.ReplaceAll(says, "\n", "; "), Hint: "draw without it, or keep the drawing in another file"}
}

// ofAnother is a finding when a kept drawing shares no part with a loom.
func ofAnother(s *drawing.Saved, e *Earlier, g *wiring.Graph) diag.List {
	if s == nil || len(s.Places) == 0 {
		return nil
	}
	for _, p := range s.Places {
		if _, ok := g.Loom.Use(p.Part); ok {
			return nil
		}
	}
	return diag.List{{Code: keptCodes[1].Code, Severity: diag.Warning, Span: diag.NewText(e.Name, e.Data).Span(1, 1, 1),
		Message: "this is the drawing of another loom: it has none of this loom's parts"}}
}

// writeKept writes a drawing down to be kept: a line for each part and lane.
func writeKept(s *drawing.Saved) ([]byte, error) {
	var out bytes.Buffer
	fmt.Fprintf(&out, "{\"loomwright-drawing\": %d,\n\"places\": [", keptVersion)
	var err error
	for i := range s.Places {
		err = errors.Join(err, writeLine(&out, i, s.Places[i]))
	}
	out.WriteString("\n],\n\"lanes\": [")
	for i := range s.Lanes {
		err = errors.Join(err, writeLine(&out, i, s.Lanes[i]))
	}
	out.WriteString("\n]}\n")
	return out.Bytes(), err
}

func writeLine(out *bytes.Buffer, i int, v any) error {
	line, err := json.Marshal(v)
	if i > 0 {
		out.WriteByte(',')
	}
	out.WriteString("\n  ")
	out.Write(line)
	return err
}
