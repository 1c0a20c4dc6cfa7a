//go:build js && wasm

// Command engine is Trayside's Go side in the phone app's worker: the domain,
// the fold and the loop of an exchange, compiled to WebAssembly. It only bridges
// the five calls of package phone to JavaScript: globalThis.trayside holds
// open, record, receive, view and exchange, each from one Uint8Array to another.
package main

import (
	"runtime/debug"
	"syscall/js"

	"trayside/pwa/engine/phone"
)

// garbage lets the heap grow to five times what is live before it is swept: a
// cold start with 20,000 entries then takes two thirds of the time, for about
// 80 MB at its peak.
const garbage = 400

func main() {
	debug.SetGCPercent(garbage)
	var p phone.Phone
	calls := map[string]any{}
	for name, call := range p.Calls() {
		calls[name] = js.FuncOf(func(_ js.Value, args []js.Value) any {
			in := make([]byte, args[0].Get("length").Int())
			js.CopyBytesToGo(in, args[0])
			out := call(in)
			array := js.Global().Get("Uint8Array").New(len(out))
			js.CopyBytesToJS(array, out)
			return array
		})
	}
	js.Global().Set("trayside", calls)
	select {} // the worker calls in from now on
}
