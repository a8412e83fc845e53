// Package swap gives a loom other parts: another lead code, another switch body
// or pot, another hand. Joins are carried over terminal by terminal where the
// new part can do what the old one did; the loom is proved again, and what
// cannot be carried over is said.
package swap

import (
	"fmt"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/proof"
	"loomwright/internal/setting"
	"loomwright/internal/source"
	"loomwright/internal/wiring"
)

// Change is what stands in place of one part of the loom; what is "" stays.
type Change struct {
	Use   string // the part's name in the loom
	Is    string // another part file
	Code  string // another lead code
	Track string // another track
	Ohms  string // the pickup's measured ohms
	Value string // of a capacitor or a resistor
}

// Request is all that changes.
type Request struct {
	Changes []Change
	Hand    string // "", right, left, left with pot ends swapped
	Title   string // "": stays
}

// Verdict is how a swap went.
type Verdict string

// The verdicts. Same: every setting is heard as before. Differs: carried over,
// but a setting or a finding changed. Search: the new part cannot do what the
// old one did, the wiring must be searched anew. Measure: a lead must be told
// by the meter first. Refused: the request cannot be read, or the loom has
// errors.
const (
	Same    Verdict = "same"
	Differs Verdict = "differs"
	Search  Verdict = "search"
	Measure Verdict = "measure"
	Refused Verdict = "refused"
)

// Renaming is one terminal carried over.
type Renaming struct{ From, To string }

// Difference is a setting that is heard otherwise than before.
type Difference struct{ Setting, Before, After string }

// Result is a loom with other parts. Text is "" unless the verdict is Same or
// Differs.
type Result struct {
	Verdict     Verdict
	Why         []string // for Search and Measure, what stands in the way; for Differs, what changed
	Text        string   // the new loom file, in its canonical layout
	Renamed     []Renaming
	Differences []Difference
	Graph       *wiring.Graph
	Rows        []proof.Row
	Findings    diag.List // of the new loom, or why it was refused
}

// Codes of this package's findings.
var Codes = []diag.Code{
	{Code: "swap-request", Severity: diag.Error, Says: "a swap names a part or a value that the loom does not have", Notice: "nothing is changed"},
	{Code: "swap-table", Severity: diag.Error, Says: "a table of customers' parts cannot be read", Notice: "its row is left out"},
}

// Do swaps parts of the loom in a file.
func Do(text *diag.Text, lib *part.Library, r Request) Result {
	s, refused := open(text, lib)
	if s == nil {
		return Result{Verdict: Refused, Findings: refused}
	}
	if list := s.request(r); list.HasErrors() {
		return Result{Verdict: Refused, Findings: list}
	}
	s.carry()
	if len(s.measure) > 0 {
		return Result{Verdict: Measure, Why: s.measure}
	}
	if len(s.search) > 0 {
		return Result{Verdict: Search, Why: s.search}
	}
	return s.prove(s.write())
}

// swapper holds one swap.
type swapper struct {
	text  *diag.Text
	lib   *part.Library
	doc   *source.Document
	file  loom.File
	old   *loom.Loom
	g     *wiring.Graph
	nets  setting.Nets // soldered, switches left out
	ask   Request
	other []Change   // by use of the loom
	next  *loom.Loom // the new parts, without joins

	maps    []useMap
	search  []string
	measure []string
	dropped map[int]bool // nets that are joined inside a new pickup
	added   []string     // joins
	renamed []Renaming
}

// open reads a loom that has no errors.
func open(text *diag.Text, lib *part.Library) (*swapper, diag.List) {
	s := &swapper{text: text, lib: lib, dropped: map[int]bool{}}
	l, list := loom.Read(text, lib)
	if l == nil {
		return nil, list
	}
	s.old, s.doc = l, l.Doc
	source.Decode(s.doc, &s.file)
	g, more := wiring.Build(l)
	if more.HasErrors() {
		return nil, append(list, more...)
	}
	s.g, s.nets = g, setting.NewBase(g).NetsOf(nil)
	s.other = make([]Change, len(l.Uses))
	return s, nil
}

func refuse(format string, args ...any) diag.Diagnostic {
	return diag.Diagnostic{Code: "swap-request", Severity: diag.Error, Message: fmt.Sprintf(format, args...)}
}

// request finds the parts that change, and resolves the new ones.
func (s *swapper) request(r Request) diag.List {
	var list diag.List
	s.ask = r
	names := make([]string, len(s.old.Uses))
	for i := range s.old.Uses {
		names[i] = s.old.Uses[i].Name
	}
	for _, c := range r.Changes {
		u, ok := s.old.Use(c.Use)
		if !ok {
			d := refuse("the loom has no part %q", c.Use)
			d.Hint = diag.Nearest(c.Use, names)
			list.Add(d)
			continue
		}
		s.other[u] = c
	}
	if h := r.Hand; h != "" && h != "right" && h != "left" && h != swappedEnds {
		list.Add(refuse("%q is no hand: write right, left, or %s", h, swappedEnds))
	}
	if list.HasErrors() {
		return list
	}
	f := s.changed()
	l, more := loom.Resolve(s.doc, &f, s.lib)
	s.next = l
	return more
}

const swappedEnds = "left with pot ends swapped"

// changed is the file's parts as they will be, without joins and sounds.
func (s *swapper) changed() loom.File {
	f := s.file
	f.Joins, f.Sounds, f.Free, f.Place.Entries = nil, nil, nil, nil
	f.Parts.Entries = append([]source.Entry[loom.UseFile](nil), f.Parts.Entries...)
	for i, c := range s.other {
		u := &f.Parts.Entries[i].Value
		set(&u.Is, c.Is)
		set(&u.Track, c.Track)
		set(&u.Value, c.Value)
		if c.Ohms != "" {
			u.Ohms = &loom.PerCoil{All: source.String{Value: c.Ohms}}
		}
		if c.Code != "" {
			u.Code.Value = c.Code
			u.Leads.Entries, u.Inside = nil, nil
		}
	}
	set(&f.Hand, s.ask.Hand)
	return f
}

func set(dst *source.String, value string) {
	if value != "" {
		dst.Value = value
	}
}
