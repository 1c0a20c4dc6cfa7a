package roster

import (
	"slices"
	"sort"

	"trayside/sync/digest"
	"trayside/sync/oplog"
)

// Device is one device as the roster sees it.
type Device struct {
	ID     string `json:"id"`
	Key    string `json:"key"` // KeyText
	Name   string `json:"name"`
	Member string `json:"member"` // empty for the console
	Role   Role   `json:"role"`
	Since  int64  `json:"since"`         // stamp of the grant that named it, ms
	Why    string `json:"why,omitempty"` // why it is out; empty for a device that is in
}

// In reports whether the device belongs to the household now.
func (d Device) In() bool { return d.Why == "" && d.Role != "" }

// State is what a set of operations means. It never changes.
type State struct {
	home     oplog.ID
	founder  string
	name     string
	rooted   []Signed // operations that a keeper's chain vouches for, by id
	root     digest.Sum
	devices  map[string]Device
	standing map[string][]oplog.ID // signer → its grants that stand
	newest   int64
}

// Fold says what the operations mean for one household. The order of ops does
// not matter and each counts once.
func Fold(home oplog.ID, ops []Signed) *State {
	set := map[oplog.ID]Signed{}
	for _, s := range ops {
		if s.ID == home && s.Op.Kind == Found || s.Op.Home == home.String() {
			set[s.ID] = s
		}
	}
	s := &State{home: home, devices: map[string]Device{}, standing: map[string][]oplog.ID{}}
	found, there := set[home]
	if !there {
		return s
	}
	s.founder, s.name = found.Op.Dev, found.Op.Name
	s.admit(set)
	out := s.revocations()
	s.stand(out)
	s.describe(found, out)
	return s
}

// admit finds the operations that a chain of keepers' grants vouches for,
// revocations aside: adding operations never takes one out again.
func (s *State) admit(set map[oplog.ID]Signed) {
	keepers, granted := map[string]bool{s.founder: true}, map[string]bool{}
	for grown := true; grown; {
		grown = false
		for _, g := range set {
			if g.Op.Kind != Grant || !keepers[g.Op.Dev] {
				continue
			}
			granted[g.Op.To] = true
			if g.Op.Role == Keeper && !keepers[g.Op.To] {
				keepers[g.Op.To], grown = true, true
			}
		}
	}
	for _, o := range set {
		leaves := o.Op.Kind == Revoke && o.Op.To == o.Op.Dev && granted[o.Op.Dev]
		if keepers[o.Op.Dev] || leaves {
			s.rooted = append(s.rooted, o)
			s.root = s.root.Add(o.ID)
			s.newest = max(s.newest, o.Op.T)
		}
	}
	sort.Slice(s.rooted, func(i, j int) bool { return s.rooted[i].ID.Compare(s.rooted[j].ID) < 0 })
}

// verdict is what the revocations of one device come to.
type verdict struct {
	why   string
	times int            // revocations
	kept  map[string]int // grant → how many of them uphold it
}

func (v verdict) upholds(grant oplog.ID) bool { return v.kept[grant.String()] == v.times }

// revocations gathers those that count, by device.
func (s *State) revocations() map[string]verdict {
	out := map[string]verdict{}
	for _, r := range s.rooted {
		if r.Op.Kind != Revoke || r.Op.To == s.founder {
			continue
		}
		v := out[r.Op.To]
		if v.kept == nil {
			v.kept = map[string]int{}
		}
		v.times++
		if v.why == "" || gravity(r.Op.Why) > gravity(v.why) {
			v.why = r.Op.Why
		}
		ids := slices.Clone(r.Op.Upholds)
		slices.Sort(ids)
		for _, id := range slices.Compact(ids) {
			v.kept[id]++
		}
		out[r.Op.To] = v
	}
	return out
}

// gravity decides between two reasons: the one that protects more is told.
func gravity(why string) int { return slices.Index([]string{Left, Removed, Lost}, why) }

// stand walks from the founding key along the grants that stand.
func (s *State) stand(out map[string]verdict) {
	keepers, queue := map[string]bool{s.founder: true}, []string{s.founder}
	for len(queue) > 0 {
		dev := queue[0]
		queue = queue[1:]
		v, revoked := out[dev]
		for _, g := range s.rooted {
			if g.Op.Kind != Grant || g.Op.Dev != dev || revoked && !v.upholds(g.ID) {
				continue
			}
			s.standing[dev] = append(s.standing[dev], g.ID)
			if g.Op.Role == Keeper && !keepers[g.Op.To] {
				keepers[g.Op.To] = true
				queue = append(queue, g.Op.To)
			}
		}
	}
}

// describe draws up the devices.
func (s *State) describe(found Signed, out map[string]verdict) {
	stands, keeps := map[oplog.ID]bool{}, map[string]bool{}
	for _, ids := range s.standing {
		for _, id := range ids {
			stands[id] = true
		}
	}
	named := map[string]Signed{} // the grant that names a device
	for _, g := range s.rooted {
		if g.Op.Kind != Grant {
			continue
		}
		if stands[g.ID] && g.Op.Role == Keeper {
			keeps[g.Op.To] = true
		}
		if old, there := named[g.Op.To]; !there || names(g, old, stands) {
			named[g.Op.To] = g
		}
	}
	for dev, g := range named {
		d := Device{dev, g.Op.Key, g.Op.Name, g.Op.Member, g.Op.Role, g.Op.T, out[dev].why}
		if keeps[dev] {
			d.Role = Keeper
		}
		if d.Why == "" && !stands[g.ID] {
			d.Why = Adrift
		}
		s.devices[dev] = d
	}
	s.devices[s.founder] = Device{ID: s.founder, Key: found.Op.Key, Name: found.Op.Name, Role: Keeper, Since: found.Op.T}
}

// names tells whether grant a rather than b names a device: one that stands
// goes before one that does not, then the newest by (t, id).
func names(a, b Signed, stands map[oplog.ID]bool) bool {
	if stands[a.ID] != stands[b.ID] {
		return stands[a.ID]
	}
	if a.Op.T != b.Op.T {
		return a.Op.T > b.Op.T
	}
	return a.ID.Compare(b.ID) > 0
}

// Home is the household's id.
func (s *State) Home() oplog.ID { return s.home }

// Founder is the device id of the founding key; empty if the founding
// operation is not in the set.
func (s *State) Founder() string { return s.founder }

// Name is the name in the founding operation.
func (s *State) Name() string { return s.name }

// Device is one device; false if no grant that a keeper's chain vouches for
// ever named it.
func (s *State) Device(id string) (Device, bool) {
	d, there := s.devices[id]
	return d, there
}

// Devices lists all devices, those that are out included, by id.
func (s *State) Devices() []Device {
	list := make([]Device, 0, len(s.devices))
	for _, d := range s.devices {
		list = append(list, d)
	}
	sort.Slice(list, func(i, j int) bool { return list[i].ID < list[j].ID })
	return list
}

// GrantsOf lists the ids of a device's grants that stand: what a revocation of
// it should uphold, unless those devices shall go with it.
func (s *State) GrantsOf(dev string) []string {
	list := make([]string, 0, len(s.standing[dev]))
	for _, id := range s.standing[dev] {
		list = append(list, id.String())
	}
	return list
}

// Root is the digest of the operations that a keeper's chain vouches for, and
// Rooted lists them by id. Others are not part of the set: anybody could make
// any number of those.
func (s *State) Root() digest.Sum { return s.root }

// Rooted: see Root.
func (s *State) Rooted() []Signed { return slices.Clone(s.rooted) }

// Stamp is the stamp for a new operation: above all that is held, as far as
// stamps go. Whoever used the last one cannot keep others from writing.
func (s *State) Stamp(now int64) int64 { return min(max(now, s.newest+1), oplog.MaxStamp) }
