package roster_test

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"trayside/sync/exchange"
	"trayside/sync/oplog"
	"trayside/sync/roster"
	"trayside/sync/roster/p256"
)

var _ exchange.PhoneRoster = (*roster.Set)(nil)

// cast is a household with named devices; F is the console with the founding key.
type cast struct {
	t    testing.TB
	keys map[string]*ecdsa.PrivateKey
	home oplog.ID
	ops  []roster.Signed
	at   int64
}

func newCast(t testing.TB) *cast {
	c := &cast{t: t, keys: map[string]*ecdsa.PrivateKey{}}
	c.home = c.sign("F", roster.Op{Kind: roster.Found, Name: "cellar"}).ID
	return c
}

func (c *cast) key(who string) *ecdsa.PrivateKey {
	if c.keys[who] == nil {
		key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
		if err != nil {
			c.t.Fatal(err)
		}
		c.keys[who] = key
	}
	return c.keys[who]
}

func (c *cast) public(who string) []byte {
	b, err := p256.PublicKey(c.key(who))
	if err != nil {
		c.t.Fatal(err)
	}
	return b
}

func (c *cast) dev(who string) string { return roster.DeviceID(c.public(who)) }

func (c *cast) sign(who string, op roster.Op) roster.Signed {
	c.at++
	op.T = c.at
	s, err := p256.Sign(c.key(who), op)
	if err != nil {
		c.t.Fatal(err)
	}
	c.ops = append(c.ops, s)
	return s
}

func (c *cast) grant(by, to string, role roster.Role) roster.Signed {
	return c.sign(by, roster.Op{
		Home: c.home.String(), Kind: roster.Grant, To: c.dev(to), Key: roster.KeyText(c.public(to)),
		Member: "member/" + to, Role: role, Name: to,
	})
}

func (c *cast) revoke(by, to, why string, upholds ...roster.Signed) roster.Signed {
	op := roster.Op{Home: c.home.String(), Kind: roster.Revoke, To: c.dev(to), Why: why}
	for _, u := range upholds {
		op.Upholds = append(op.Upholds, u.ID.String())
	}
	return c.sign(by, op)
}

// says is what a device is: its role, or why it is out, or "stranger".
func says(s *roster.State, dev string) string {
	d, known := s.Device(dev)
	switch {
	case !known:
		return "stranger"
	case d.In():
		return string(d.Role)
	}
	return d.Why
}

func TestWhatARosterMeans(t *testing.T) {
	tests := []struct {
		name  string
		story func(*cast)
		want  map[string]string
	}{
		{"the founding key is a keeper", func(*cast) {}, map[string]string{"F": "keeper", "A": "stranger"}},
		{"keepers' grants reach on", func(c *cast) {
			c.grant("F", "A", roster.Keeper)
			c.grant("A", "B", roster.Feeder)
		}, map[string]string{"A": "keeper", "B": "feeder"}},
		{"a feeder's grant counts for nothing", func(c *cast) {
			c.grant("F", "A", roster.Feeder)
			c.grant("A", "B", roster.Keeper)
		}, map[string]string{"A": "feeder", "B": "stranger"}},
		{"nobody grants themselves in", func(c *cast) { c.grant("A", "A", roster.Keeper) }, map[string]string{"A": "stranger"}},
		{"the newest grant decides between feeder and viewer", func(c *cast) {
			c.grant("F", "A", roster.Feeder)
			c.grant("F", "A", roster.Viewer)
		}, map[string]string{"A": "viewer"}},
		{"a keeper stays one until revoked", func(c *cast) {
			c.grant("F", "A", roster.Keeper)
			c.grant("F", "A", roster.Viewer)
		}, map[string]string{"A": "keeper"}},
		{"a revoked device is out, and what it granted with it", func(c *cast) {
			c.grant("F", "A", roster.Keeper)
			c.grant("F", "K", roster.Keeper)
			c.grant("A", "B", roster.Feeder)
			c.revoke("K", "A", roster.Lost)
		}, map[string]string{"A": "lost", "B": "adrift", "K": "keeper"}},
		{"an upheld grant goes on standing", func(c *cast) {
			c.grant("F", "A", roster.Keeper)
			b := c.grant("A", "B", roster.Keeper)
			c.grant("B", "C", roster.Feeder)
			c.grant("A", "D", roster.Feeder)
			c.revoke("B", "A", roster.Lost, b)
		}, map[string]string{"A": "lost", "B": "keeper", "C": "feeder", "D": "adrift"}},
		{"every revocation must uphold a grant that shall stand", func(c *cast) {
			c.grant("F", "A", roster.Keeper)
			c.grant("F", "K", roster.Keeper)
			b := c.grant("A", "B", roster.Feeder)
			c.revoke("F", "A", roster.Removed, b)
			c.revoke("K", "A", roster.Removed)
		}, map[string]string{"A": "removed", "B": "adrift"}},
		{"two keepers who revoke each other are both out", func(c *cast) {
			c.grant("F", "A", roster.Keeper)
			c.grant("F", "B", roster.Keeper)
			c.revoke("A", "B", roster.Removed)
			c.revoke("B", "A", roster.Lost)
		}, map[string]string{"A": "lost", "B": "removed"}},
		{"revoking whoever let one in does not undo the revocation", func(c *cast) {
			c.grant("F", "A", roster.Keeper)
			c.grant("A", "B", roster.Keeper)
			c.revoke("B", "A", roster.Removed)
		}, map[string]string{"A": "removed", "B": "adrift"}},
		{"the console cannot be revoked, and invites anew", func(c *cast) {
			c.grant("F", "A", roster.Keeper)
			c.revoke("A", "F", roster.Lost)
			c.revoke("F", "A", roster.Lost)
			c.grant("F", "B", roster.Keeper)
		}, map[string]string{"F": "keeper", "A": "lost", "B": "keeper"}},
		{"a grant cannot bring a revoked key back", func(c *cast) {
			c.grant("F", "A", roster.Feeder)
			c.revoke("F", "A", roster.Lost)
			c.grant("F", "A", roster.Keeper)
		}, map[string]string{"A": "lost"}},
		{"a feeder revokes nobody else", func(c *cast) {
			c.grant("F", "A", roster.Feeder)
			c.grant("F", "B", roster.Keeper)
			c.revoke("A", "B", roster.Lost)
		}, map[string]string{"B": "keeper"}},
		{"any device may leave", func(c *cast) {
			c.grant("F", "A", roster.Viewer)
			c.revoke("A", "A", roster.Left)
		}, map[string]string{"A": "left"}},
		{"a stranger's revocation does nothing", func(c *cast) {
			c.grant("F", "A", roster.Keeper)
			c.revoke("X", "A", roster.Lost)
		}, map[string]string{"A": "keeper"}},
		{"the graver reason is told", func(c *cast) {
			c.grant("F", "A", roster.Keeper)
			c.revoke("A", "A", roster.Left)
			c.revoke("F", "A", roster.Lost)
		}, map[string]string{"A": "lost"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c := newCast(t)
			tt.story(c)
			s := roster.Fold(c.home, c.ops)
			for who, want := range tt.want {
				if got := says(s, c.dev(who)); got != want {
					t.Errorf("%s is %q, want %q", who, got, want)
				}
			}
		})
	}
}

func TestARevocationOfAnotherHouseholdDoesNothing(t *testing.T) {
	c := newCast(t)
	c.grant("F", "A", roster.Keeper)
	other := &cast{t: t, keys: c.keys} // the same keys, a household founded later
	other.at = 1000
	other.home = other.sign("F", roster.Op{Kind: roster.Found, Name: "porch"}).ID
	foreign := other.revoke("F", "A", roster.Lost)
	set := roster.NewSet(c.home, c.dev("A"), p256.Verify)
	for _, op := range append(c.ops, foreign) {
		set.Take([]string{op.Text})
	}
	if why := set.Revoked(); why != "" {
		t.Errorf("revoked as %q by another household", why)
	}
	if got, want := len(set.Texts()), 2; got != want {
		t.Errorf("the set holds %d texts, want %d", got, want)
	}
}

// TestOneOutcomeForEveryOrder draws a household with keepers who come, grant,
// revoke and fall out, and lets it arrive at two sets in two orders.
func TestOneOutcomeForEveryOrder(t *testing.T) {
	names := []string{"F", "A", "B", "C", "D", "X"}
	keys := newCast(t)
	for _, n := range names {
		keys.key(n)
	}
	rapid.Check(t, func(rt *rapid.T) {
		c := &cast{t: t, keys: keys.keys}
		c.home = c.sign("F", roster.Op{Kind: roster.Found, Name: "cellar"}).ID
		roles := []roster.Role{roster.Keeper, roster.Keeper, roster.Feeder, roster.Viewer}
		for range rapid.IntRange(1, 12).Draw(rt, "operations") {
			c.at = rapid.Int64Range(0, 3).Draw(rt, "t") // equal stamps are common
			by, to := rapid.SampledFrom(names).Draw(rt, "by"), rapid.SampledFrom(names).Draw(rt, "to")
			if rapid.IntRange(0, 2).Draw(rt, "kind") > 0 {
				c.grant(by, to, rapid.SampledFrom(roles).Draw(rt, "role"))
				continue
			}
			var upheld []roster.Signed
			for _, op := range c.ops {
				if op.Op.Kind == roster.Grant && rapid.Bool().Draw(rt, "uphold") {
					upheld = append(upheld, op)
				}
			}
			c.revoke(by, to, rapid.SampledFrom([]string{roster.Lost, roster.Removed, roster.Left}).Draw(rt, "why"), upheld...)
		}
		var texts []string
		for _, op := range c.ops {
			texts = append(texts, op.Text)
		}
		whole := roster.Fold(c.home, c.ops)
		one := roster.NewSet(c.home, "", p256.Verify)
		for _, i := range rapid.Permutation(index(texts)).Draw(rt, "order") {
			one.Take([]string{texts[i], texts[i]})
		}
		if a, b := describe(whole), describe(one.State()); a != b {
			rt.Fatalf("at once:\n%s\none by one:\n%s", a, b)
		}
		// What a set passes on makes the same set elsewhere.
		copied := roster.NewSet(c.home, "", p256.Verify)
		copied.Take(one.Texts())
		if copied.Root() != one.Root() || describe(copied.State()) != describe(whole) {
			rt.Fatalf("passed on:\n%s\nwant\n%s", describe(copied.State()), describe(whole))
		}
		// A device that is in got there by a keeper's grant that stands.
		if d, _ := whole.Device(c.dev("F")); !d.In() || d.Role != roster.Keeper {
			rt.Fatal("the console is out")
		}
	})
}

// TestMoreIsNeverLessOut: operations that arrive later never bring back a
// device that was revoked, and never take one out of the vouched-for set.
func TestMoreIsNeverLessOut(t *testing.T) {
	c := newCast(t)
	a := c.grant("F", "A", roster.Keeper)
	c.grant("A", "B", roster.Keeper)
	c.revoke("B", "A", roster.Lost, a)
	c.revoke("A", "B", roster.Removed)
	c.grant("F", "A", roster.Keeper)
	out, held := map[string]bool{}, map[oplog.ID]bool{}
	for n := range c.ops {
		s := roster.Fold(c.home, c.ops[:n+1])
		for _, d := range s.Devices() {
			revoked := d.Why != "" && d.Why != roster.Adrift
			if out[d.ID] && !revoked {
				t.Errorf("after %d operations %s is back", n+1, d.Name)
			}
			out[d.ID] = revoked
		}
		now := map[oplog.ID]bool{}
		for _, op := range s.Rooted() {
			now[op.ID] = true
		}
		for id := range held {
			if !now[id] {
				t.Errorf("after %d operations %v fell out of the set", n+1, id)
			}
		}
		held = now
	}
	if !out[c.dev("A")] || !out[c.dev("B")] {
		t.Error("A and B revoked each other and are not both out")
	}
}

func TestTheLastStampThereIsKeepsNobodyOut(t *testing.T) {
	c := newCast(t)
	c.at = oplog.MaxStamp - 1
	c.grant("F", "A", roster.Keeper)
	stamp := roster.Fold(c.home, c.ops).Stamp(1_800_000_000_000)
	c.at = stamp - 1
	c.grant("F", "B", roster.Feeder)
	if got := says(roster.Fold(c.home, c.ops), c.dev("B")); got != "feeder" {
		t.Errorf("B is %q, want feeder", got)
	}
}

func index[T any](list []T) []int {
	ids := make([]int, len(list))
	for i := range ids {
		ids[i] = i
	}
	return ids
}

func describe(s *roster.State) string {
	devices, err := json.MarshalIndent(s.Devices(), "", " ")
	if err != nil {
		return err.Error()
	}
	root, err := json.Marshal(s.Root())
	if err != nil {
		return err.Error()
	}
	var grants []string
	for _, d := range s.Devices() {
		list := s.GrantsOf(d.ID)
		slices.Sort(list)
		grants = append(grants, strings.Join(list, " "))
	}
	return string(devices) + string(root) + strings.Join(grants, "\n")
}
