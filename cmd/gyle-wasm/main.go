// SPDX-License-Identifier: MIT

//go:build js

// Command gyle-wasm is what a published page computes with: the same code as
// gyle, compiled for browsers. It puts two functions on the page: gyleOpen takes
// a kit as JSON and returns a sentence where that fails, gyleBrew takes a request
// as JSON and returns a reply as JSON. Package guest says what they are.
package main

import (
	"encoding/json"
	"fmt"
	"syscall/js"

	"gyle/data"
	"gyle/guest"
)

var table *guest.Table

func main() {
	js.Global().Set("gyleOpen", js.FuncOf(func(_ js.Value, args []js.Value) any { return open(text(args)) }))
	js.Global().Set("gyleBrew", js.FuncOf(func(_ js.Value, args []js.Value) any { return brew(text(args)) }))
	select {} // the page calls from now on
}

// text returns the one text that a function is given.
func text(args []js.Value) string {
	if len(args) != 1 || args[0].Type() != js.TypeString {
		return ""
	}
	return args[0].String()
}

func open(kit string) (problem string) {
	defer func() {
		if fault := recover(); fault != nil {
			problem = fmt.Sprint("a fault of this page: ", fault)
		}
	}()
	var k guest.Kit
	if err := json.Unmarshal([]byte(kit), &k); err != nil {
		return "read what the page carries: " + err.Error()
	}
	data.Unpack(k.Data)
	t, err := guest.Open(k)
	if err != nil {
		return err.Error()
	}
	table = t
	return ""
}

func brew(request string) string {
	if table == nil {
		return `{"problem": "nothing was opened yet"}`
	}
	return table.Serve(request)
}
