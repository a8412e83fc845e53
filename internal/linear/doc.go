// Package linear solves the small systems that a guitar's wiring leads to: the
// complex symmetric nodal equations of a frequency sweep (a plan made once,
// then the same steps at every frequency), and the resistance between any two
// nodes of a network of resistors. It knows matrices, not wiring.
package linear
