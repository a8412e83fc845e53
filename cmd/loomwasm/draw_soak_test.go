//go:build !js && soak

package main

const drawAll = true
