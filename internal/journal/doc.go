// Package journal is the only package that knows both the log and the bin: it
// turns what a person does into operations, and what a replica holds into the
// typed record.
package journal
