package fault

import (
	"fmt"

	"loomwright/internal/wiring"
)

// Remedy says what to do about a fault, in the loom's own words. Common
// practice, no source.
func (f *Fault) Remedy(g *wiring.Graph) string {
	name := func(t int) string { return g.Terms[t].Name }
	switch f.Kind {
	case JointOpen, JointResistive:
		if f.To >= 0 {
			return fmt.Sprintf("Reflow the braid's joint at %s, no strand near the core.", name(f.Term))
		}
		return fmt.Sprintf("Reflow the joint at %s with a little fresh solder; tug the wire when it is cool.", name(f.Term))
	case WireMissing:
		return fmt.Sprintf("Fit the wire %s -- %s.", name(g.Runs[f.Run].A), name(g.Runs[f.Run].B))
	case NoStringGround:
		return "Join the string ground: bare metal under the bridge or tailpiece, and its joint at the other end."
	case Bridge:
		return fmt.Sprintf("Clear the solder or the strand between %s and %s.", name(f.Term), name(f.To))
	case LeadToMetal:
		return fmt.Sprintf("Part %s from %s: look for a bent lug, a stray strand, melted or missing insulation.", name(f.Term), name(f.To))
	case LeadsSwapped:
		return fmt.Sprintf("Exchange %s and %s.", name(f.Term), name(f.To))
	case WiresSwapped:
		return fmt.Sprintf("Exchange the wires on %s and %s.", name(f.Term), name(f.To))
	case WireNextDoor:
		return fmt.Sprintf("Move the wire from %s to %s.", name(f.To), name(f.Term))
	case PotEndsSwapped:
		t := &g.Tracks[f.Track]
		return fmt.Sprintf("Exchange all that is soldered to %s with all that is on %s.", name(t.CW), name(t.CCW))
	case JackSwapped:
		return fmt.Sprintf("Exchange the wires on %s and %s.", name(g.Hot), name(g.Ground))
	}
	return f.partRemedy(g)
}

// partRemedy is what to do where a part itself is wrong.
func (f *Fault) partRemedy(g *wiring.Graph) string {
	switch f.Kind {
	case CoilOpen:
		return fmt.Sprintf("Read %s at its leads, unsoldered: an open coil or a lead broken in its cable is work for a winder.", g.Coils[f.Coil].Name)
	case CoilShorted:
		return fmt.Sprintf("Read %s at its leads, unsoldered, against its maker's figure: shorted turns need a new winding.", g.Coils[f.Coil].Name)
	case CoilReversed:
		return fmt.Sprintf("Exchange the two leads of %s where they are soldered, and note it in its lead code.", g.Coils[f.Coil].Name)
	case MagnetReversed:
		return fmt.Sprintf("Have the magnet of %s turned or remagnetised; exchanging its leads mends the phase but lets it hum.", g.Coils[f.Coil].Name)
	case TrackOpen, WiperOpen, TrackWrong, TaperWrong:
		return fmt.Sprintf("Read %s with its wires off; fit a right one.", g.Knobs[g.Tracks[f.Track].Knob].Name)
	case CapacitorShort, CapacitorOpen, CapacitorWrong:
		return fmt.Sprintf("Read its marking, or its capacitance with a lead lifted; fit a right one for %s.", g.Loom.Uses[g.Caps[f.Cap].Use].Name)
	case ContactOpen, ContactBad:
		return fmt.Sprintf("Work %s through its positions a few dozen times; if the reading does not come back, clean its contacts, or replace it.", g.Switches[f.Switch].Name)
	case SwitchUpside:
		return fmt.Sprintf("Turn %s round, or where it cannot be turned exchange its outer wires.", g.Switches[f.Switch].Name)
	}
	return ""
}
