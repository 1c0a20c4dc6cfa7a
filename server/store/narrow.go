//go:build 386 || arm || mips || mipsle

package store

// The database maps files larger than a 32-bit address space, so a 32-bit build
// ends here, with the sentence that says so.
const _ int = "Trayside's database needs a 64-bit system: build with GOARCH=amd64 or GOARCH=arm64"
