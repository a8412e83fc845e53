//go:build js && wasm

// Command loomwasm is the core as WebAssembly: it answers calls from a worker
// with the same JSON that the command line prints under --json.
package main

import (
	"encoding/json"
	"fmt"
	"runtime/debug"
	"syscall/js"

	"loomwright/internal/bench"
)

func main() {
	debug.SetGCPercent(400) // a core is small and works in bursts: time matters more than memory
	calls := map[string]any{}
	for name, call := range bench.NewDesk(bench.New()).Calls(tell) {
		calls[name] = answer(call)
	}
	js.Global().Set("loomwright", js.ValueOf(calls))
	select {}
}

// answer wraps a call so that it takes and returns JSON text.
func answer(call func(bench.Ask) any) js.Func {
	return js.FuncOf(func(_ js.Value, args []js.Value) any {
		var ask bench.Ask
		if len(args) != 1 || args[0].Type() != js.TypeString || json.Unmarshal([]byte(args[0].String()), &ask) != nil {
			return `{"error":"the core was asked in a way that it does not know"}`
		}
		return written(call, ask)
	})
}

// written runs a call. A fault of the core is an answer as well, so that the
// page goes on.
func written(call func(bench.Ask) any, ask bench.Ask) (text string) {
	defer func() {
		if fault := recover(); fault != nil {
			out, _ := json.Marshal(bench.Failure{Error: fmt.Sprintf("a fault of Loomwright, not of your loom: %v", fault)})
			text = string(out)
		}
	}()
	out, err := json.Marshal(call(ask))
	if err != nil {
		return `{"error":"the result cannot be written as JSON"}`
	}
	return string(out)
}

// tell hands progress to the worker as JSON text.
func tell(progress any) {
	hear := js.Global().Get("loomwrightTold")
	if out, err := json.Marshal(progress); err == nil && hear.Type() == js.TypeFunction {
		hear.Invoke(string(out))
	}
}
