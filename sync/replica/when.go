package replica

import "time"

// checkAt says what is wrong with an instant; empty if nothing.
func checkAt(s string) string {
	if _, err := time.Parse(time.RFC3339, s); err != nil {
		return "is no instant with its offset, such as 2026-11-25T07:40:00+01:00; set the time again"
	}
	return ""
}

// checkDay says what is wrong with a day; empty if nothing.
func checkDay(s string) string {
	if _, err := time.Parse(time.DateOnly, s); err != nil {
		return "is no day, such as 2026-11-25; set the day again"
	}
	return ""
}
