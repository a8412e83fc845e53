//go:build !(js && wasm)

// Command loomwasm builds for GOOS=js GOARCH=wasm only; elsewhere it says so.
package main

import "fmt"

func main() {
	fmt.Println("loomwasm is built with GOOS=js GOARCH=wasm: see make page")
}
