//go:build js && wasm

// Command loomwasm is the core as WebAssembly: it answers calls from a worker
// with the same JSON that the command line prints under --json.
package main

import (
	"encoding/json"
	"syscall/js"

	"loomwright/internal/bench"
)

func main() {
	b := bench.New()
	js.Global().Set("loomwright", js.ValueOf(map[string]any{
		"check":  answer(func(args []js.Value) any { return b.Check(text(args, 0), text(args, 1)) }),
		"format": answer(func(args []js.Value) any { return format(b, text(args, 0), text(args, 1)) }),
		"starts": answer(func([]js.Value) any { return bench.Starts() }),
		"codes":  answer(func([]js.Value) any { return bench.Codes() }),
	}))
	select {}
}

// answer wraps a call so that it returns JSON text, which the worker parses.
func answer(call func(args []js.Value) any) js.Func {
	return js.FuncOf(func(_ js.Value, args []js.Value) any {
		out, err := json.Marshal(call(args))
		if err != nil {
			return `{"error":"the result cannot be written as JSON"}`
		}
		return string(out)
	})
}

func text(args []js.Value, i int) string {
	if i >= len(args) || args[i].Type() != js.TypeString {
		return ""
	}
	return args[i].String()
}

func format(b *bench.Bench, name, data string) any {
	out, list := b.Format(name, data)
	return map[string]any{"text": out, "findings": list}
}
