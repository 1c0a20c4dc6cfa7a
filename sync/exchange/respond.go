package exchange

// Respond answers a Request: it puts the operations that the door lets in, then
// reads news, sums and head from one snapshot. now is the answering side's
// clock, ms. The error is a *TooMany (status 413) or comes from the log or roster.
func Respond(log Log, roster Roster, door Door, req Request, now int64) (Answer, error) {
	return Answer{}, nil
}

// Reconcile answers a Query. The error is a *TooMany, a *BadQuery (status 400)
// or comes from the log.
func Reconcile(log Log, q Query, now int64) (Reply, error) { return Reply{}, nil }
