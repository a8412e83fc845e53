// Package synthesis finds the joins of a loom from its parts and its wanted
// sounds: fewest joins first, proved smallest when it says so, then fewest long
// wires, quietest travel, least crowded lugs. When the wishes cannot be met it
// says which of them conflict, which one to give up, and which switch would do.
//
// It knows nothing of how proof works; what it returns is to be proved there.
package synthesis

import (
	"loomwright/internal/diag"
	"loomwright/internal/part"
)

// Options of a search. The zero value is ready to use but for Schemes.
type Options struct {
	Scheme      string        // control scheme; "": the loom's, else the first that fits
	Schemes     []Scheme      // what ReadSchemes returned
	Library     *part.Library // where another switch is looked for; nil: nowhere
	Best        int           // wirings wanted; 0 is 1
	Conflicts   int64         // what the search may spend; 0 is DefaultConflicts
	First       bool          // be content with the first wiring
	Brief       bool          // when it cannot be done, say what conflicts and no more
	Hanging     bool          // a silent coil may touch the sound with one end
	HumCancels  bool          // hum is to cancel wherever two coils or more sound
	WiresPerLug int           // a demand: no lug needs more wires; 0: more than three only where unavoidable
	Refute      bool          // write down why there is none with fewer joins
	Stop        func() bool
	Progress    func(Progress)
}

// DefaultConflicts is the budget when Options say none: some ten or twenty seconds for the
// hardest looms, far more than everyday ones take.
const DefaultConflicts = 120_000

// Progress is told while the search runs.
type Progress struct {
	Stage     string `json:"stage"`
	Conflicts int64  `json:"conflicts"`
	Joins     int    `json:"joins"` // of the best so far, of the part in search; 0: none yet
}

// Status says how a search ended.
type Status string

// The outcomes. Open: neither found nor refuted within the budget.
const (
	Found      Status = "found"
	Impossible Status = "impossible"
	Open       Status = "not proved"
)

// Result is what a search found.
type Result struct {
	Status    Status   `json:"status"`
	Scheme    string   `json:"scheme,omitempty"`
	Wirings   []Wiring `json:"wirings,omitempty"` // the best first
	Smallest  bool     `json:"smallest"`          // no wiring has fewer joins, as far as Covers says
	ByPart    bool     `json:"byPart,omitempty"`  // that holds for each pickup's switching and the selector on their own
	Bound     int      `json:"bound,omitempty"`   // no wiring has fewer joins than this
	Settled   bool     `json:"settled"`           // nor as few joins and a better taste: long wires, travel, lugs
	Covers    []string `json:"covers,omitempty"`  // what the proof of smallness covers
	Rests     []Rest   `json:"rests,omitempty"`   // readings that the answer rests on
	Conflicts int64    `json:"conflicts"`         // spent
	CutShort  bool     `json:"cutShort,omitempty"`
	Why       *Why     `json:"why,omitempty"` // when impossible

	Refutations []Refutation `json:"-"` // when Options ask for them
}

// Wiring is one way to join the parts.
type Wiring struct {
	Joins   []Join   `json:"joins"` // to be added to the file
	Count   int      `json:"count"` // soldered runs among them
	Long    int      `json:"long"`  // of them between parts
	Noise   []Noise  `json:"noise,omitempty"`
	Crowded []string `json:"crowded,omitempty"` // lugs with more wires than they should have
	Differs []string `json:"differs,omitempty"` // from the first wiring
}

// Noise is a way between neighbouring settings that is not smooth, all poles
// moving together.
type Noise struct {
	From   string `json:"from"`
	To     string `json:"to"`
	Moment string `json:"moment"` // gap, mute, pop
}

// Rest is something that nobody has told and the answer takes for granted.
type Rest struct {
	Takes   string `json:"takes"`
	Reading string `json:"reading"` // what settles it
	Swap    string `json:"swap"`    // what to swap when it is otherwise
}

// Codes of this package's findings.
var Codes = []diag.Code{
	{Code: "wire-nothing", Severity: diag.Error, Says: "no sound is wanted", Notice: "there is nothing to find a wiring for"},
	{Code: "wire-short", Severity: diag.Error, Says: "hot and ground are joined already", Notice: "silence, whatever is joined besides"},
	{Code: "wire-through", Severity: diag.Error, Says: "a wanted sound goes through a value that no free part has", Notice: "add the part"},
	{Code: "wire-impossible", Severity: diag.Error, Says: "the wanted sounds cannot all be had from these parts", Notice: "the answer says which conflict, what to give up, and which switch would do"},
	{Code: "wire-open", Severity: diag.Warning, Says: "neither a wiring nor a refutation was found within the budget", Notice: "a larger budget may find one"},
	{Code: "scheme-file", Severity: diag.Error, Says: "a control scheme cannot be read", Notice: "the scheme cannot be used until its file is mended"},
	{Code: "scheme-unknown", Severity: diag.Error, Says: "no control scheme has that name", Notice: "no wiring is looked for"},
	{Code: "scheme-unfit", Severity: diag.Error, Says: "a control scheme does not fit the parts", Notice: "no wiring is looked for"},
	{Code: "scheme-cross", Severity: diag.Error, Says: "a wanted sound mixes coils of pickups that have controls of their own", Notice: "such a control could not follow its pickup"},
	{Code: "scheme-left", Severity: diag.Info, Says: "a part has no place in the control scheme", Notice: "it is left unjoined"},
}
