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

// keys name what a change can give a part.
var keys = []string{"is", "code", "track", "ohms", "value"}

// field is what a change gives for a key.
func (c *Change) field(key string) *string {
	return map[string]*string{"is": &c.Is, "code": &c.Code, "track": &c.Track, "ohms": &c.Ohms, "value": &c.Value}[key]
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
// but a setting or a finding changed. Searched: the new part cannot do what the
// old one did with the same joins; others were searched, found and proved.
// Search: nor were others found. Measure: a lead must be told by the meter
// first. Refused: the request cannot be read, or the loom has errors.
const (
	Same     Verdict = "same"
	Differs  Verdict = "differs"
	Searched Verdict = "searched"
	Search   Verdict = "search"
	Measure  Verdict = "measure"
	Refused  Verdict = "refused"
)

// Renaming is one terminal carried over.
type Renaming struct {
	From string `json:"from"`
	To   string `json:"to"`
}

// Difference is a setting that is heard otherwise than before.
type Difference struct {
	Setting string `json:"setting"`
	Before  string `json:"before"`
	After   string `json:"after"`
}

// Unknown is a pickup with leads that the meter must tell apart first.
type Unknown struct {
	Use   string   `json:"use"`
	Code  string   `json:"code,omitempty"` // lead code that does not tell
	Coils int      `json:"coils"`
	Leads []string `json:"leads"`          // insulated leads
	Bare  string   `json:"bare,omitempty"` // the shield
}

// Result is a loom with other parts. Text is "" unless the verdict is Same,
// Differs or Searched.
type Result struct {
	Verdict     Verdict       `json:"verdict"`
	Why         []string      `json:"why,omitempty"`     // what stands in the way, then what changed
	Said        []string      `json:"said,omitempty"`    // of a search
	Unknown     []Unknown     `json:"unknown,omitempty"` // for Measure
	Text        string        `json:"text,omitempty"`    // the new loom file, in its canonical layout
	Renamed     []Renaming    `json:"renamed,omitempty"`
	Differences []Difference  `json:"differences,omitempty"`
	Graph       *wiring.Graph `json:"-"`
	Rows        []proof.Row   `json:"settings,omitempty"`
	Findings    diag.List     `json:"findings"` // of the new loom, or why it was refused
}

// Codes of this package's findings.
var Codes = []diag.Code{
	{Code: "swap-request", Severity: diag.Error, Says: "a swap names a part or a value that the loom does not have", Notice: "nothing is changed"},
	{Code: "swap-table", Severity: diag.Error, Says: "a table of customers' parts cannot be read", Notice: "its row is left out"},
}

// Do swaps parts of the loom in a file. Joins that cannot be carried over are
// looked for with find; nil: the verdict is then Search.
func Do(text *diag.Text, lib *part.Library, r Request, find Finder) Result {
	s, refused := open(text, lib)
	if s == nil {
		return Result{Verdict: Refused, Findings: refused}
	}
	if list := s.request(r); list.HasErrors() {
		return Result{Verdict: Refused, Findings: list}
	}
	s.carry()
	if len(s.measure) > 0 {
		return Result{Verdict: Measure, Why: s.measure, Unknown: s.unknown}
	}
	if len(s.search) > 0 {
		return s.research(find)
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
	anew    map[int]bool // parts whose joins are searched
	unlike  bool         // some part has other positions
	measure []string
	unknown []Unknown
	dropped map[int]bool // nets that are joined inside a new pickup
	added   []string     // joins
	renamed []Renaming
}

// open reads a loom that has no errors.
func open(text *diag.Text, lib *part.Library) (*swapper, diag.List) {
	s := &swapper{text: text, lib: lib, dropped: map[int]bool{}, anew: map[int]bool{}}
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
	l, more := s.resolve(s.other, s.ask.Hand)
	s.next = l
	if more.HasErrors() {
		return s.blamed(r, more)
	}
	return more
}

// resolve reads the loom's parts as they will be.
func (s *swapper) resolve(other []Change, hand string) (*loom.Loom, diag.List) {
	f := s.changed(other, hand)
	return loom.Resolve(s.doc, &f, s.lib)
}

// blamed says which of the changes cannot be: each is tried alone.
func (s *swapper) blamed(r Request, all diag.List) diag.List {
	var list diag.List
	for _, c := range r.Changes {
		u, _ := s.old.Use(c.Use)
		for _, key := range keys {
			value := *c.field(key)
			if value == "" {
				continue
			}
			other := make([]Change, len(s.other))
			*other[u].field(key) = value
			_, more := s.resolve(other, "")
			for _, d := range more {
				if d.Severity == diag.Error {
					d.Span = diag.Span{}
					d.Message = fmt.Sprintf("%s.%s %q: %s", c.Use, key, value, d.Message)
					list.Add(d)
				}
			}
		}
	}
	if len(list) == 0 {
		return all // they cannot be together
	}
	return list
}

const swappedEnds = "left with pot ends swapped"

// changed is the file's parts as they will be, without joins and sounds.
func (s *swapper) changed(other []Change, hand string) loom.File {
	f := s.file
	f.Joins, f.Sounds, f.Free, f.Place.Entries = nil, nil, nil, nil
	f.Parts.Entries = append([]source.Entry[loom.UseFile](nil), f.Parts.Entries...)
	for i, c := range other {
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
	set(&f.Hand, hand)
	return f
}

func set(dst *source.String, value string) {
	if value != "" {
		dst.Value = value
	}
}
