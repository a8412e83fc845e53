package sheet

// before is the first block: what to do before the iron is on, and the usual
// cautions (common practice, no source, but for the limits of fume).
func before() []Block {
	return []Block{
		Heading{Text: "Before you start", Level: 1},
		List{Ticks: true, Items: []string{
			"**Photograph the old wiring** from several sides, near enough that every colour and lug can be told.",
			"**Read the jack** while the old wiring still works: ohms from tip to sleeve in every setting, all knobs at 10. Write them down below; they tell later what changed.",
			"**Unplug the guitar.** Nothing is soldered while a cable is in the jack. Slacken the strings.",
			"**Protect the finish**: card around the cavity, a cloth over the rest. Solder spatters, flux stains, a hot lead marks lacquer at once.",
			"**Unsolder rather than cut.** A lead that was cut is short for the next loom.",
			"**Confirm with the meter** what the list of parts asks to confirm. Makers differ.",
		}},
		Heading{Text: "Care", Level: 3},
		List{Items: []string{
			"**Air first.** Draw the fume away from your face and out of the room, or through a filter made for it, before anything else. Fume of rosin (colophony) flux is a cause of asthma and no safe level is known. Limits at work in Great Britain: 0.05 mg/m³ over 8 hours, 0.15 mg/m³ over 15 minutes (HSE, SIM 03/2002/26 and INDG248/249). Other countries have their own.",
			"**Iron.** The tip burns skin, cable and lacquer. It stays in its stand, and is unplugged when you leave it.",
			"**Eyes.** Wear eye protection: clipped ends fly, flux and old solder spit. Hold the end that you clip.",
			"**Lead.** Old joints, and much solder, hold lead: no food or drink at the bench, wash your hands and the bench after it, keep scraps from children and out of household waste.",
			"**Strings and mains.** The strings are joined to the ground of whatever the guitar is plugged into; a fault in mains equipment can reach the player through them. Have faulty or untested equipment tested and mended; never lift a mains earth. Work inside a mains amplifier is for licensed practice.",
			"**Local codes** on soldering, waste and electrical safety come before anything on this sheet.",
		}},
		Heading{Text: "The old wiring, read at the jack", Level: 3},
		oldReadings(),
	}
}

// oldReadings are lines to write the old wiring's readings on.
func oldReadings() Table {
	t := Table{Name: "readings of the old wiring", Heads: []string{"setting", "ohms", "setting", "ohms"}, Shares: []float64{60, 30, 60, 30}}
	for range 8 {
		t.Rows = append(t.Rows, []Cell{{Text: nbsp}, {}, {}, {}})
	}
	return t
}
