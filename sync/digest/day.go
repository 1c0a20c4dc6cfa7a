package digest

import (
	"fmt"
	"time"
)

// Day is a UTC day: days since 1970-01-01.
type Day int64

// Month is a UTC month: months since January of the year 0.
type Month int64

// DayOf is the day of a stamp in ms since 1970.
func DayOf(t int64) Day {
	const dayMS = 24 * 60 * 60 * 1000
	d := t / dayMS
	if t%dayMS < 0 {
		d--
	}
	return Day(d)
}

// Month is the month that the day lies in.
func (d Day) Month() Month {
	at := time.Unix(int64(d)*24*60*60, 0).UTC()
	return Month(int64(at.Year())*12 + int64(at.Month()) - 1)
}

// PartOf is the part of a day that a member belongs to: its first byte.
func PartOf(id [16]byte) uint8 { return id[0] }

// String is the month as 2026-11.
func (m Month) String() string { return fmt.Sprintf("%04d-%02d", int64(m)/12, int64(m)%12+1) }

// MarshalText writes what String shows.
func (m Month) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText reads a month such as 2026-11.
func (m *Month) UnmarshalText(b []byte) error {
	var year, month int64
	if n, err := fmt.Sscanf(string(b), "%d-%d", &year, &month); err != nil || n != 2 {
		return fmt.Errorf("digest: month %.20q: want year-month, such as 2026-11", b)
	}
	read := Month(year*12 + month - 1)
	if month < 1 || month > 12 || year < 0 || read.String() != string(b) {
		return fmt.Errorf("digest: month %.20q: want year-month, such as 2026-11", b)
	}
	*m = read
	return nil
}
