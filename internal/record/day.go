package record

import (
	"fmt"
	"time"
)

// Day is a calendar day of the household, counted from 1970-01-01. It has no
// time zone: the phone that wrote an entry decided which day it was.
type Day int32

// Earliest is 2000-01-01 (our choice). A day before it is a slip in the digits of
// a year; followed day by day, as the models do, the year 26 would take minutes.
const Earliest Day = 10_957

// DayOf returns the day whose ISO 8601 date is s (2006-01-02). The error says
// what was found instead.
func DayOf(s string) (Day, error) {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return 0, fmt.Errorf("day %q is not a date like 2026-11-25", s)
	}
	return Day(t.Unix() / 86400), nil
}

// String returns the ISO 8601 date.
func (d Day) String() string { return time.Unix(int64(d)*86400, 0).UTC().Format(time.DateOnly) }

// YearDay returns the day of the year, 1 to 366: what seasons are drawn over.
func (d Day) YearDay() int { return time.Unix(int64(d)*86400, 0).UTC().YearDay() }

// MarshalText writes the ISO 8601 date.
func (d Day) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads an ISO 8601 date.
func (d *Day) UnmarshalText(b []byte) error {
	v, err := DayOf(string(b))
	if err != nil {
		return err
	}
	*d = v
	return nil
}
