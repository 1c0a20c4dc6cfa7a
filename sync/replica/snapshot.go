package replica

// Snapshot writes the replica as bytes for Restore, equal bytes for equal sets.
func (r *Replica) Snapshot() []byte { return nil }

// Restore reads what Snapshot wrote. The schema must be the one that the
// snapshot was made with: what it set aside is not judged again. An error means
// that the snapshot is of no use and the log must be folded anew.
func Restore(b []byte, schema Schema) (*Replica, error) { return New(schema), nil }
