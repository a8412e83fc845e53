package units

// Colour is an insulation colour: one colour, or a base with a stripe.
type Colour struct {
	Base, Stripe string // words of IEC 60757: black brown red orange yellow green blue violet grey white pink gold turquoise silver; Stripe may be ""
}

// ReadColour reads "green", "green/yellow", "green with yellow stripe".
func ReadColour(s string) (Colour, error) { return Colour{}, errTodo }

// Letters are the IEC 60757 letters: RD, RDBU.
func (c Colour) Letters() string { return "" }

// String is the colour in words: "green/yellow".
func (c Colour) String() string { return c.Base }
