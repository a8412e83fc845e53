// Command wasmsize prints the raw and the brotli size of a file.
package main

import (
	"bytes"
	"fmt"
	"os"

	"github.com/andybalholm/brotli"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "wasmsize:", err)
		os.Exit(2)
	}
}

func run(files []string) error {
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		var packed bytes.Buffer
		w := brotli.NewWriterLevel(&packed, brotli.BestCompression)
		if _, err := w.Write(data); err != nil {
			return err
		}
		if err := w.Close(); err != nil {
			return err
		}
		fmt.Printf("%s: %.2f MB raw, %.2f MB brotli\n", name, float64(len(data))/1e6, float64(packed.Len())/1e6)
	}
	return nil
}
