// Package journal is the only package that knows both the log and the bin: it
// turns what a person does into operations, and what a replica holds into the
// typed record.
//
// Kinds says what entities there are and who may write them, Schema tells the fold
// the same. Write makes operations of an Intent; Read, or a Reader where entries go
// on coming in, makes a record.Household of a replica. Nothing here stores or sends
// anything, or judges what is good for worms.
package journal
