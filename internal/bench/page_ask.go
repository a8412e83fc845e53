package bench

import (
	"io/fs"
	"maps"
	"strings"

	"loomwright/examples"
	"loomwright/internal/diag"
	"loomwright/internal/diagnosis"
	"loomwright/internal/leads"
	"loomwright/internal/units"
)

// Ask is everything that a page may say in one call; each call reads what it
// needs. Its JSON is the page's request, Answer the reply.
type Ask struct {
	Name  string             `json:"name"` // of the loom file
	Text  string             `json:"text"` // of the loom file
	With  string             `json:"with,omitempty"`
	Knobs map[string]float64 `json:"knobs,omitempty"` // marks 0 to 10
	Over  string             `json:"over,omitempty"`  // the setting that levels are over
	Band  bool               `json:"band,omitempty"`
	From  string             `json:"from,omitempty"` // terminals
	To    string             `json:"to,omitempty"`
	Run   int                `json:"run,omitempty"`
	Part  string             `json:"part,omitempty"`
	Key   string             `json:"key,omitempty"`
	Value string             `json:"value,omitempty"`
	Kind  PictureFormat      `json:"kind,omitempty"`
	Page  string             `json:"page,omitempty"`
	Front bool               `json:"front,omitempty"`
	Marks bool               `json:"marks,omitempty"`
	Grey  bool               `json:"grey,omitempty"`

	Outside bool             `json:"outside,omitempty"` // measure with the guitar closed
	State   *diagnosis.State `json:"state,omitempty"`
	At      *[3]float64      `json:"at,omitempty"` // where a part is to lie

	Plan  *Plan              `json:"plan,omitempty"`
	Leads *leads.State       `json:"leads,omitempty"`
	Lugs  *leads.SwitchState `json:"lugs,omitempty"`
	Notes *LeadNotes         `json:"notes,omitempty"`
	Order map[string]string  `json:"order,omitempty"` // of a switch: the old position whose sound each gets

	HumCancels  bool  `json:"humCancels,omitempty"`  // a wiring whose hum cancels wherever two coils or more sound
	Hanging     bool  `json:"hanging,omitempty"`     // a wiring in which a silent coil may touch the sound with one end
	WiresPerLug int   `json:"wiresPerLug,omitempty"` // most wires on a lug; 0: more than three only where unavoidable
	Sounds      []int `json:"sounds,omitempty"`      // wishes, by their places in the list

	Base string `json:"base,omitempty"` // address of the page, for the sheet's QR code
	Date string `json:"date,omitempty"` // that a sheet bears: 2026-01-31

	Only  bool              `json:"only,omitempty"`  // of a circuit, what one setting leaves
	Other *Reference        `json:"other,omitempty"` // what is compared with
	Files map[string]string `json:"files,omitempty"` // of the user's shelf, by path
	Habit units.Habit       `json:"habit,omitempty"` // of units and words
}

// Failure answers a call that could not be done: a usage error, in words.
type Failure struct {
	Error string `json:"error"`
}

// Edited is the text of a loom after an edit.
type Edited struct {
	Text string `json:"text"`
}

// Formatted is a loom file in the canonical layout.
type Formatted struct {
	Text     string    `json:"text"`
	Findings diag.List `json:"findings"`
}

// Pictured is a drawing: SVG as text, other formats in base64.
type Pictured struct {
	SVG       string    `json:"svg,omitempty"`
	Data      []byte    `json:"data,omitempty"`
	Crossings int       `json:"crossings"`
	Findings  diag.List `json:"findings"`
}

// Begin is what a loom can be begun from.
type Begin struct {
	Starts   []Start `json:"starts"`
	Examples []Start `json:"examples"`

	Words map[units.Habit]map[string]string `json:"words"` // that a habit puts in place of ours
}

// Calls are what a page may ask a desk, by name. Each answer can be written as
// JSON; none panics on what a user wrote.
//
// tell, where it is not nil, hears how far a long call is.
func (d *Desk) Calls(tell func(any)) map[string]func(Ask) any {
	calls := map[string]func(Ask) any{
		"begin":   func(Ask) any { return begin() },
		"parts":   func(Ask) any { parts, _ := d.bench.Parts(); return parts },
		"open":    func(a Ask) any { return d.Open(a.Name, a.Text) },
		"checkup": func(a Ask) any { return d.Checkup(a.Name, a.Text) },
		"trace":   func(a Ask) any { return orFailure(d.Trace(a.Name, a.Text, a.stand(), a.Band)) },
		"rows":    func(a Ask) any { return orFailure(d.Rows(a.Name, a.Text, Stand{Knobs: a.Knobs}, a.Over)) },
		"ohms":    func(a Ask) any { return orFailure(d.Ohms(a.Name, a.Text, a.stand(), a.From, a.To)) },
		"sketch":  func(a Ask) any { return orFailure(d.Sketch(a)) },
		"forget":  func(Ask) any { d.Forget(); return Edited{} },
		"draw":    func(a Ask) any { return orFailure(d.picture(a)) },
		"join":    func(a Ask) any { return asEdited(d.bench.Join(a.Name, a.Text, a.From, a.To)) },
		"cut":     func(a Ask) any { return asEdited(d.bench.Cut(a.Name, a.Text, a.Run)) },
		"part":    func(a Ask) any { return asEdited(d.bench.SetPart(a.Name, a.Text, a.Part, a.Key, a.Value)) },
		"know":    func(a Ask) any { return asEdited(d.bench.Know(a.Name, a.Text, a.Part, a.Notes)) },
		"own":     func(a Ask) any { return asEdited(d.bench.Own(a.Name, a.Text, a.Part, a.Key, a.Value)) },
		"switch":  func(a Ask) any { return asEdited(d.bench.Exchange(a.Name, a.Text, a.Part, a.Value, a.Order)) },
		"want":    func(a Ask) any { return asEdited(d.bench.Want(a.Name, a.Text, a.With, a.Value)) },
		"wishes":  func(a Ask) any { return d.Wishes(a.Name, a.Text) },
		"place":   func(a Ask) any { return asEdited(d.bench.PlacePart(a.Name, a.Text, a.Part, a.At)) },
		"giveUp":  func(a Ask) any { return asEdited(d.bench.GiveUp(a.Name, a.Text, a.Sounds)) },
		"compare": func(a Ask) any { return orFailure(d.Compare(a)) },
		"shelf":   func(a Ask) any { d.Shelve(a.Files); return Edited{} },
		"format":  func(a Ask) any { text, list := d.bench.Format(a.Name, a.Text); return Formatted{text, some(list)} },
	}
	maps.Copy(calls, d.paperCalls(tell))
	return calls
}

func (a Ask) stand() Stand { return Stand{With: a.With, Knobs: a.Knobs} }

func orFailure[T any](out T, err error) any {
	if err != nil {
		return Failure{err.Error()}
	}
	return out
}

func asEdited(text string, err error) any { return orFailure(Edited{text}, err) }

// some is a list that JSON writes as a list even when it is empty.
func some(l diag.List) diag.List { return append(diag.List{}, l...) }

func (d *Desk) picture(a Ask) (Pictured, error) {
	drawn, err := d.bench.Draw(a.Name, a.Text, DrawOptions{Format: a.Kind, With: a.With, Front: a.Front, Marks: a.Marks, Page: a.Page, Grey: a.Grey})
	if err != nil {
		return Pictured{}, err
	}
	out := Pictured{Crossings: drawn.Crossings, Findings: some(drawn.Findings)}
	if a.Kind == SVG || a.Kind == InlineSVG {
		out.SVG = string(drawn.Picture)
	} else {
		out.Data = drawn.Picture
	}
	return out, nil
}

// begin lists starts and examples.
func begin() Begin {
	out := Begin{Starts: Starts(), Examples: []Start{}, Words: map[units.Habit]map[string]string{}}
	for _, h := range units.Habits() {
		out.Words[h] = h.Words()
	}
	for _, pattern := range []string{"*.yaml", "broken/*.yaml"} {
		names, _ := fs.Glob(examples.Files, pattern)
		for _, name := range names {
			data, err := examples.Files.ReadFile(name)
			if err != nil {
				continue // cannot happen: the name comes from the same file system
			}
			first, _, _ := strings.Cut(string(data), "\n")
			out.Examples = append(out.Examples, Start{name, strings.TrimSpace(strings.TrimPrefix(first, "#")), string(data)})
		}
	}
	return out
}
