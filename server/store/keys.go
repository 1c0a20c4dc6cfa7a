package store

import (
	"encoding/binary"

	"trayside/sync/digest"
	"trayside/sync/oplog"
)

// The rows of the database. Numbers are big-endian, so that keys sort as their
// numbers do. Rows are only ever added or replaced, never deleted.
//
//	i                        instance (16 random bytes): new whenever arrival numbers start again
//	h home                   a household is kept here
//	r home                   root sum (24 bytes), newest arrival number (8)
//	o home id                arrival number (8), the operation's bytes
//	a home number(8)         id of the operation that arrived under it
//	d home day(8) id         the operation's UTC day; the id's first byte is the part
//	p home day(8) part(1)    sum of the part (24)
//	m home month(8)          sum of the month (24)
//	g home id                signed roster text
//	v home id                an invite, as the server wrote it
const (
	rowInstance = 'i'
	rowHome     = 'h'
	rowHead     = 'r'
	rowOp       = 'o'
	rowArrival  = 'a'
	rowDay      = 'd'
	rowPart     = 'p'
	rowMonth    = 'm'
	rowRoster   = 'g'
	rowInvite   = 'v'
)

var keyInstance = []byte{rowInstance}

func key(row byte, home oplog.ID, tail ...byte) []byte {
	k := make([]byte, 0, 1+len(home)+len(tail))
	k = append(k, row)
	k = append(k, home[:]...)
	return append(k, tail...)
}

func number(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }

func keyOp(home, id oplog.ID) []byte                { return key(rowOp, home, id[:]...) }
func keyArrival(home oplog.ID, n uint64) []byte     { return key(rowArrival, home, number(n)...) }
func keyDay(home oplog.ID, d digest.Day) []byte     { return key(rowDay, home, number(uint64(d))...) }
func keyParts(home oplog.ID, d digest.Day) []byte   { return key(rowPart, home, number(uint64(d))...) }
func keyMonth(home oplog.ID, m digest.Month) []byte { return key(rowMonth, home, number(uint64(m))...) }

// dayOf, partOf and monthOf read back what the keys above hold.
func dayOf(k []byte) digest.Day     { return digest.Day(binary.BigEndian.Uint64(k[17:25])) }
func partOf(k []byte) uint8         { return k[25] }
func monthOf(k []byte) digest.Month { return digest.Month(binary.BigEndian.Uint64(k[17:25])) }

// lastID is the id that a key ends in.
func lastID(k []byte) oplog.ID { return oplog.ID(k[len(k)-16:]) }
