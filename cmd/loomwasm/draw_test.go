//go:build !js && !soak

package main

// drawAll draws every loom, which takes a minute.
const drawAll = false
