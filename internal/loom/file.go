// Package loom reads the loom file: which parts are used, which terminals are
// joined, which sound is wanted in which setting. It knows names and values;
// what the joins mean together is wiring's business.
package loom

import (
	"loomwright/internal/diag"
	"loomwright/internal/part"
	"loomwright/internal/source"
)

// File is a loom file as written.
type File struct {
	Version source.String               `yaml:"loomwright" required:"true" doc:"version of this layout: 1"`
	Title   source.String               `yaml:"title" doc:"what the loom is, in a line"`
	Note    source.String               `yaml:"note" doc:"anything else"`
	Hand    source.String               `yaml:"hand" oneof:"right|left|left with pot ends swapped" doc:"left alone swaps nothing: the pots turn as in a right-handed guitar"`
	Into    *IntoFile                   `yaml:"into" doc:"what the jack is plugged into"`
	Scale   source.String               `yaml:"scale" doc:"string length from nut to bridge, for the plucked-string spectrum"`
	Codes   source.Map[part.CodeFile]   `yaml:"codes" doc:"lead codes of this loom alone"`
	Own     source.Map[part.File]       `yaml:"own" doc:"part files of this loom alone, by class/name: a switch whose contacts were found by meter"`
	Parts   source.Map[UseFile]         `yaml:"parts" required:"true" doc:"the parts on the bench, by a name of your own"`
	Joins   []JoinFile                  `yaml:"joins" doc:"every soldered run: terminal -- terminal"`
	Sounds  []SoundFile                 `yaml:"sounds" doc:"what should be heard in which setting"`
	Scheme  source.String               `yaml:"scheme" doc:"control scheme, for finding a wiring"`
	Free    []source.String             `yaml:"free" doc:"terminals that must stay free, for finding a wiring"`
	Place   source.Map[[]source.String] `yaml:"place" doc:"x, y in mm and quarter turns, for the drawing"`
}

// IntoFile is the cable and the amplifier's input.
type IntoFile struct {
	Cable source.String `yaml:"cable" doc:"capacitance, or a length of ordinary cable"`
	Input source.String `yaml:"input" doc:"input resistance"`
}

// UseFile is one part on the bench and what is known of it.
type UseFile struct {
	Is          source.String             `yaml:"is" required:"true" doc:"part file: class/name"`
	Called      source.String             `yaml:"called" doc:"what to print beside it"`
	Code        source.String             `yaml:"code" doc:"lead code by name"`
	Leads       source.Map[part.EndsFile] `yaml:"leads" doc:"lead code written out: colour to coil end"`
	Inside      [][]source.String         `yaml:"inside" doc:"coil ends joined inside the pickup, without a lead"`
	Ohms        *PerCoil                  `yaml:"ohms" doc:"measured; one number for the whole pickup, or one for each coil"`
	Henries     *PerCoil                  `yaml:"henries"`
	Farads      *PerCoil                  `yaml:"farads"`
	Winding     *PerCoil                  `yaml:"winding" doc:"clockwise, anticlockwise or unknown"`
	Pole        *PerCoil                  `yaml:"pole" doc:"north, south or unknown"`
	Sensitivity *PerCoil                  `yaml:"sensitivity" doc:"voltage that the same movement of the strings gives, 1 an ordinary coil; one number for the whole pickup, or one for each coil"`
	Coupling    source.String             `yaml:"coupling"`
	FromBridge  source.String             `yaml:"from-bridge" doc:"distance of the pickup's middle from the bridge"`
	Track       source.String             `yaml:"track" doc:"500k audio"`
	Value       source.String             `yaml:"value" doc:"of a capacitor or a resistor"`
	Capacitor   source.String             `yaml:"capacitor" doc:"of a part that has a capacitor and a resistor"`
	Resistor    source.String             `yaml:"resistor" doc:"of a part that has a capacitor and a resistor"`
	Tolerance   source.String             `yaml:"tolerance"`
	Travel      source.String             `yaml:"travel" oneof:"break first|make first|unknown" doc:"if known better than the part file"`
	Note        source.String             `yaml:"note"`
	Span        diag.Span                 `yaml:"-" source:"span"`
}

// PerCoil is one text for the whole pickup, or one for each coil by name.
type PerCoil struct {
	All   source.String
	Coils source.Map[source.String]
}

// UnmarshalSource reads "8.1k" or "{north: 4.0k, south: 4.1k}".
func (p *PerCoil) UnmarshalSource(n source.Node, l *diag.List) {
	if n.Kind() == source.Mapping {
		n.Decode(&p.Coils, l)
		return
	}
	n.Decode(&p.All, l)
}

// SourceShape is a scalar or a map of scalars.
func (PerCoil) SourceShape() source.Shape {
	one := source.Shape{Kind: source.ScalarShape}
	return source.Shape{Any: []source.Shape{one, {Kind: source.MapShape, Values: &one}}}
}

// JoinFile is "a -- b", or "a -- b: options".
type JoinFile struct {
	Run     source.String
	Options source.String
	Span    diag.Span
}

// UnmarshalSource reads a scalar, or a map with one key.
func (j *JoinFile) UnmarshalSource(n source.Node, l *diag.List) {
	j.Span = n.Span()
	if n.Kind() != source.Mapping {
		n.Decode(&j.Run, l)
		return
	}
	var m source.Map[source.String]
	n.Decode(&m, l)
	if len(m.Entries) != 1 {
		l.Add(diag.Diagnostic{Code: "join-syntax", Severity: diag.Error, Span: n.Span(),
			Message: "a join is one run: terminal -- terminal, and options after a colon", Hint: "- volume.wiper -- jack.tip: screened, braid volume.case"})
		return
	}
	j.Run, j.Options = m.Entries[0].Key, m.Entries[0].Value
}

// SourceShape is a scalar or a map with one scalar.
func (JoinFile) SourceShape() source.Shape {
	one := source.Shape{Kind: source.ScalarShape}
	return source.Shape{Any: []source.Shape{one, {Kind: source.MapShape, Values: &one, Min: 1, Max: 1}}}
}

// SoundFile is one wanted sound.
type SoundFile struct {
	With  source.String `yaml:"with" doc:"positions: lever middle, volume pulled; a switch left out stands anywhere"`
	Hear  source.String `yaml:"hear" required:"true" doc:"coils and pickups joined by series, parallel; reversed; silent; any"`
	Phase source.String `yaml:"phase" oneof:"as written|free|fixed" doc:"free: reversed coils are as good; fixed: the whole loom may not be upside down either"`
	Hum   source.String `yaml:"hum" oneof:"cancels" doc:"wanted beside the sound"`
	Span  diag.Span     `yaml:"-" source:"span"`
}
