// Package exchange makes two sets of operations equal: the messages, the side
// that asks and the side that answers.
//
// The asking side is a Machine: a pure state machine that takes Events and
// gives Effects for somebody else to carry out. The answering side is Respond
// and Reconcile, pure functions over a Log; a server's store is one, a Shelf in
// memory another, so two phones can exchange with each other (hand-over).
//
// An exchange pushes what the other side may lack and pulls what arrived since a
// hint; then both compare sums, and where these differ the calendar leads to the
// ids that one side lacks. The hint may be wrong or lost, an answer may be lost,
// repeated or late, a side may have been put back to an older state: that costs
// time, never data.
//
// The package knows no network, storage or clock, and nothing of what
// operations or roster texts mean.
package exchange
