//go:build !386 && !arm && !mips && !mipsle

package store

import "strings"

// IsLocked tells whether Open failed because another process has the database
// open. Badger gives no error of its own for it, only these words,
// the same on every system.
func IsLocked(err error) bool {
	return err != nil && strings.Contains(err.Error(), "Another process is using this Badger database")
}
