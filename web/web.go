// Package web carries the page that `make page` builds into dist: compressed
// only, since every browser takes that and the core is large.
//
// Two empty files keep the patterns below good in a fresh checkout, so that
// `go build ./...` needs neither the page nor a build tag; Built says whether
// the page is there.
package web

import "embed"

//go:embed dist/*.br dist/*.gz
var files embed.FS

// Built reports whether the page was built in.
func Built() bool {
	_, err := files.Open("dist/index.html.gz")
	return err == nil
}

// Asset returns a file of the page in an encoding, "br" or "gz".
func Asset(name, encoding string) ([]byte, error) {
	return files.ReadFile("dist/" + name + "." + encoding)
}
