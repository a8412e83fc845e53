// Command page builds the page with Go alone: the core as WebAssembly, the
// TypeScript bundled, everything packed beside its plain form. The folder that
// it writes is a whole site; any static host can serve it.
//
//	page [-fast] WEB-FOLDER
package main

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

func main() {
	fast := flag.Bool("fast", false, "pack quickly and less tightly")
	flag.Parse()
	if flag.NArg() != 1 {
		fmt.Fprintln(os.Stderr, "usage: page [-fast] WEB-FOLDER")
		os.Exit(2)
	}
	b := builder{web: flag.Arg(0), dist: filepath.Join(flag.Arg(0), "dist"), fast: *fast, files: map[string][]byte{}}
	if err := b.build(); err != nil {
		fmt.Fprintln(os.Stderr, "page:", err)
		os.Exit(2)
	}
}

// builder gathers the files of the site by name.
type builder struct {
	web, dist string
	fast      bool
	files     map[string][]byte
}

func (b *builder) build() error {
	if err := os.MkdirAll(b.dist, 0o755); err != nil {
		return err
	}
	for _, step := range []func() error{b.cores, b.bundle, b.copies, b.offline} {
		if err := step(); err != nil {
			return err
		}
	}
	return b.pack()
}

// cores builds the two cores: the one that the page begins with, and the one
// that also searches and writes PDF and PNG, fetched when that is asked for.
func (b *builder) cores() error {
	for name, tags := range map[string]string{"core.wasm": "", "paper.wasm": "paper"} {
		out, err := filepath.Abs(filepath.Join(b.dist, ".new."+name))
		if err != nil {
			return err
		}
		args := append([]string{"build", "-ldflags=-s -w", "-trimpath", "-tags", tags, "-o", out}, inlining()...)
		cmd := exec.Command("go", append(args, "./cmd/loomwasm")...)
		cmd.Dir = filepath.Dir(b.web)
		cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
		cmd.Stderr = os.Stderr
		if err := cmd.Run(); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		data, err := os.ReadFile(out)
		if err != nil {
			return err
		}
		b.files[name] = data
		if err := os.Remove(out); err != nil {
			return err
		}
	}
	return nil
}

// inlining says which packages are compiled with calls inlined: those where the
// time goes. The others are read, written and told once an edit; without
// inlining the cores are 5 % smaller and as fast.
func inlining() []string {
	flags := []string{"-gcflags=all=-l"}
	for _, name := range strings.Fields(`runtime internal/runtime/... internal/abi internal/bytealg internal/chacha8rand internal/goarch
		internal/strconv internal/sync bytes cmp maps math math/... slices sort strconv strings sync sync/atomic unicode/utf8`) {
		flags = append(flags, "-gcflags="+name+"=")
	}
	for _, name := range strings.Fields("drawing electrics linear place proof route sat scene setting svg synthesis wiring") {
		flags = append(flags, "-gcflags=loomwright/internal/"+name+"=")
	}
	return flags
}

// bundle turns TypeScript and CSS into one file each. The worker begins with
// the Go toolchain's own wasm_exec.js, so that the two always fit.
func (b *builder) bundle() error {
	glue, err := os.ReadFile(filepath.Join(goroot(), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return err
	}
	for _, e := range []struct{ from, to, banner string }{
		{"main.ts", "page.js", ""}, {"worker.ts", "worker.js", string(glue)}, {"page.css", "page.css", ""},
	} {
		if err := b.esbuild(e.from, e.to, e.banner, nil); err != nil {
			return err
		}
	}
	return nil
}

func goroot() string {
	out, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return runtime.GOROOT()
	}
	return strings.TrimSpace(string(out))
}

func (b *builder) esbuild(from, to, banner string, define map[string]string) error {
	res := api.Build(api.BuildOptions{
		EntryPoints: []string{filepath.Join(b.web, "src", from)}, Bundle: true, Outfile: to,
		MinifyWhitespace: true, MinifyIdentifiers: true, MinifySyntax: true,
		Target: api.ES2022, Format: api.FormatESModule, Charset: api.CharsetUTF8, LegalComments: api.LegalCommentsEndOfFile,
		NodePaths: []string{filepath.Join(b.web, "vendor")}, Define: define, LogLevel: api.LogLevelWarning,
		TsconfigRaw: `{"compilerOptions":{"useDefineForClassFields":false,"experimentalDecorators":true}}`,
	})
	if len(res.Errors) > 0 || len(res.OutputFiles) != 1 {
		return fmt.Errorf("%s cannot be bundled", from)
	}
	out := res.OutputFiles[0].Contents
	if banner != "" {
		small := api.Transform(banner, api.TransformOptions{MinifyWhitespace: true, MinifySyntax: true, LegalComments: api.LegalCommentsInline})
		out = append(small.Code, out...)
	}
	b.files[to] = out
	return nil
}

// copies takes the files that go as they are.
func (b *builder) copies() error {
	for _, name := range []string{"index.html", "icon.svg", "manifest.webmanifest"} {
		data, err := os.ReadFile(filepath.Join(b.web, "src", name))
		if err != nil {
			return err
		}
		b.files[name] = data
	}
	return nil
}

// offline bundles the service worker with the list of what it keeps and a
// version that changes with any of it.
func (b *builder) offline() error {
	sum := sha256.New()
	var keep []string
	for _, name := range sorted(b.files) {
		_, _ = fmt.Fprintf(sum, "%s %d\n", name, len(b.files[name]))
		_, _ = sum.Write(b.files[name])
		if name != "paper.wasm" {
			keep = append(keep, "./"+name)
		}
	}
	list, err := json.Marshal(append([]string{"./"}, keep...))
	if err != nil {
		return err
	}
	version, err := json.Marshal(hex.EncodeToString(sum.Sum(nil))[:12])
	if err != nil {
		return err
	}
	return b.esbuild("offline.ts", "offline.js", "", map[string]string{"KEEP": string(list), "VERSION": string(version)})
}
