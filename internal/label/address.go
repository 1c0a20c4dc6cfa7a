package label

import (
	"net/url"
	"strings"
)

// Base is the address of a household's server, checked: scheme and host, and no
// path. The zero value is invalid.
type Base struct{ scheme, host string }

// ParseBase reads the address that phones open the household at, for instance
// https://bins.example.org. The error is an *Error.
func ParseBase(s string) (Base, error) {
	u, err := url.Parse(strings.TrimSpace(s))
	if err != nil || u.Host == "" || (u.Scheme != "https" && u.Scheme != "http") {
		return Base{}, refuse(Shape, s, "%q is no web address; give the one that phones open, like https://bins.example.org", s)
	}
	if strings.Trim(u.Path, "/") != "" || u.RawQuery != "" || u.Fragment != "" || u.User != nil {
		return Base{}, refuse(Shape, s, "%q has more than a host in it; labels need the bare address, like https://bins.example.org", s)
	}
	return Base{u.Scheme, u.Host}, nil
}

// String returns the base in lower case, without a slash at its end.
func (b Base) String() string { return b.scheme + "://" + strings.ToLower(b.host) }

// Address returns the link printed on the label. The scheme is in lower case,
// because some cameras take an upper-case one for plain text; host and path are
// in upper case, so that the square holds them in the QR code's dense
// alphanumeric mode (ISO/IEC 18004) and stays small. Host names have no case
// (RFC 3986, section 6.2.2.1), and the server reads /t/ and the code in any.
func (b Base) Address(c Code) string { return b.Path("T/" + string(c)) }

// Path returns the link to another page of the household, written the same way.
func (b Base) Path(path string) string {
	return b.scheme + "://" + strings.ToUpper(b.host) + "/" + path
}

// FromAddress returns the code in a label's link, from whatever server; a bare
// code is read too. The error is an *Error.
//
// It takes the address apart by hand: of all that net/url knows, the phone's
// engine would need these few lines, and it has to be fetched over poor networks.
func FromAddress(s string) (Code, error) {
	path := strings.TrimSpace(s)
	if !strings.Contains(path, "/") {
		return Parse(path)
	}
	path, _, _ = strings.Cut(path, "#")
	path, _, _ = strings.Cut(path, "?")
	if _, rest, ok := strings.Cut(path, "://"); ok {
		_, path, _ = strings.Cut(rest, "/")
	}
	parts := strings.Split(strings.Trim(path, "/"), "/")
	if len(parts) != 2 || !strings.EqualFold(parts[0], "t") {
		return "", refuse(Shape, s, "this address does not lead to a label; a label's ends in /t/ and its code")
	}
	return Parse(parts[1])
}
