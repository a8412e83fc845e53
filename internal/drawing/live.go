package drawing

// findFlows says which way the sound's current goes in the live runs.
func (d *Drawing) findFlows() {}
