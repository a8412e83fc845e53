package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/andybalholm/brotli"
)

// pack writes every file plain, as brotli and as gzip. What has not changed is
// not packed again: the cores take half a minute.
func (b *builder) pack() error {
	total := 0
	mark := filepath.Join(b.dist, ".keep.quality")
	before, _ := os.ReadFile(mark) // none: never packed
	quality := fmt.Sprint(b.quality())
	again := string(before) != quality
	for _, name := range sorted(b.files) {
		data, path := b.files[name], filepath.Join(b.dist, name)
		old, err := os.ReadFile(path)
		if again || err != nil || !bytes.Equal(old, data) || !exists(path+".br") || !exists(path+".gz") {
			if err := b.packOne(path, data); err != nil {
				return err
			}
		}
		info, err := os.Stat(path + ".br")
		if err != nil {
			return err
		}
		if name != "paper.wasm" {
			total += int(info.Size())
		}
		fmt.Printf("%-22s %9d bytes, %8d as brotli\n", name, len(data), info.Size())
	}
	fmt.Printf("first visit: %.3f MB as brotli\n", float64(total)/1e6)
	if err := os.WriteFile(mark, []byte(quality), 0o644); err != nil {
		return err
	}
	return b.sweep()
}

func (b *builder) quality() int {
	if b.fast {
		return 5
	}
	return brotli.BestCompression
}

func (b *builder) packOne(path string, data []byte) error {
	for suffix, packer := range map[string]func(io.Writer) io.WriteCloser{
		".br": func(w io.Writer) io.WriteCloser {
			return brotli.NewWriterOptions(w, brotli.WriterOptions{Quality: b.quality(), LGWin: 24})
		},
		".gz": func(w io.Writer) io.WriteCloser { z, _ := gzip.NewWriterLevel(w, gzip.BestCompression); return z },
	} {
		var out bytes.Buffer
		w := packer(&out)
		if _, err := w.Write(data); err != nil {
			return err
		}
		if err := w.Close(); err != nil {
			return err
		}
		if err := os.WriteFile(path+suffix, out.Bytes(), 0o644); err != nil {
			return err
		}
	}
	return os.WriteFile(path, data, 0o644)
}

// sweep removes what an earlier build left.
func (b *builder) sweep() error {
	entries, err := os.ReadDir(b.dist)
	if err != nil {
		return err
	}
	for _, e := range entries {
		name := strings.TrimSuffix(strings.TrimSuffix(e.Name(), ".br"), ".gz")
		if _, known := b.files[name]; !known && !strings.HasPrefix(name, ".keep") {
			if err := os.Remove(filepath.Join(b.dist, e.Name())); err != nil {
				return err
			}
		}
	}
	return nil
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

func sorted(files map[string][]byte) []string {
	var names []string
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}
