package bench

// Plan is a loom as someone puts it together: parts, a control scheme, sounds.
type Plan struct {
	Title  string            `json:"title"`
	Parts  []PlanPart        `json:"parts"`
	Own    map[string]string `json:"own,omitempty"` // part files of this loom alone, by id
	Scheme string            `json:"scheme,omitempty"`
	Sounds []PlanSound       `json:"sounds"`
}

// PlanPart is one part; what is empty is not said.
type PlanPart struct {
	Name      string     `json:"name"`
	Is        string     `json:"is"`
	Code      string     `json:"code,omitempty"`
	Track     string     `json:"track,omitempty"`
	Value     string     `json:"value,omitempty"`
	Capacitor string     `json:"capacitor,omitempty"` // of a treble bleed
	Resistor  string     `json:"resistor,omitempty"`
	Ohms      string     `json:"ohms,omitempty"`
	Reverse   bool       `json:"reverse,omitempty"` // a single coil wound the other way, over the other pole
	Notes     *LeadNotes `json:"notes,omitempty"`
}

// PlanSound is what is wanted in a setting.
type PlanSound struct {
	With string `json:"with,omitempty"`
	Hear string `json:"hear"`
}
