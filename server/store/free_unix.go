//go:build linux || darwin

package store

import "syscall"

// freeSpace is the disk space in bytes that an ordinary user can still fill.
func freeSpace(dir string) (uint64, error) {
	var s syscall.Statfs_t
	if err := syscall.Statfs(dir, &s); err != nil {
		return 0, err
	}
	return uint64(s.Bavail) * uint64(s.Bsize), nil
}
