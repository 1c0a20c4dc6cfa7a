package advice

import "slices"

// PhotosView says which pictures the household's entries have. The pictures
// themselves go from phone to phone by way of the server, by their hash.
type PhotosView struct {
	Photos []PhotoLine `json:"photos"` // newest first
	Gone   []string    `json:"gone"`   // hashes of removed ones that no entry names any more
}

// PhotoLine is one picture of an entry.
type PhotoLine struct {
	Entity string `json:"entity"` // to undo, which removes it for good
	Of     string `json:"of"`     // entry it belongs to
	Hash   string `json:"hash"`   // SHA-256 of its bytes
	Width  int64  `json:"width"`  // px
	Height int64  `json:"height"`
	Day    string `json:"day"`
	Who    string `json:"who,omitempty"`
	Guest  bool   `json:"guest,omitempty"`
}

// Photos lists the pictures of all entries, or of the one entry of.
func (a *Advice) Photos(of string) PhotosView {
	v := PhotosView{Photos: []PhotoLine{}, Gone: []string{}}
	live := map[string]bool{}
	for i := len(a.h.Photos) - 1; i >= 0; i-- {
		p := &a.h.Photos[i]
		live[p.Hash] = true
		if of != "" && p.Of != of {
			continue
		}
		line := PhotoLine{Entity: p.ID, Of: p.Of, Hash: p.Hash, Width: p.Width, Height: p.Height, Day: p.Day.String()}
		line.Who, line.Guest = a.whoName(p.Who)
		v.Photos = append(v.Photos, line)
	}
	for i := range a.h.Undone.Photos {
		if hash := a.h.Undone.Photos[i].Hash; !live[hash] {
			v.Gone = append(v.Gone, hash)
		}
	}
	slices.Sort(v.Gone)
	v.Gone = slices.Compact(v.Gone)
	return v
}
