package bench

import (
	"loomwright/internal/diag"
	"loomwright/internal/leads"
)

// NextLead works out the next question about an unknown pickup, or what has
// been found.
func NextLead(s leads.State) (leads.Step, error) { return leads.Next(s) }

// NextLug works out the next question about an unknown switch, or its contact
// table.
func NextLug(s leads.SwitchState) (leads.SwitchStep, error) { return leads.NextOfSwitch(s) }

// Believe puts a lead code of the library or the shelf into a state, as
// something to check.
func (b *Bench) Believe(s leads.State, code string) (leads.State, diag.List) {
	c, list := b.Library.Code(code)
	if c == nil {
		return s, list
	}
	return leads.Believe(s, c), list
}
