package phone

import (
	"fmt"
	"strconv"

	"trayside/internal/advice"
	"trayside/internal/journal"
	"trayside/internal/record"
)

// viewHeader asks for one screen.
type viewHeader struct {
	Screen   string `json:"screen"`
	Arg      string `json:"arg"`      // tray, taught: label code as typed, or a tray's entity; bin: a bin's entity, or ""; food, filling, plan, timeline, slip and sign: JSON; photos: an entry, or "" for all
	Before   string `json:"before"`   // timeline: Next of the page before
	Day      string `json:"day"`      // household's day, 2006-01-02
	Now      int64  `json:"now"`      // calibrated, ms
	Language string `json:"language"` // that scraps are named in: "en", "es"
}

// slipArg asks whether an amount may be a slip.
type slipArg struct {
	Tray  string `json:"tray"`
	Grams int64  `json:"grams"`
	InBin bool   `json:"inBin"`
}

// timelinePage is how many entries a page of the timeline has; whole days are
// shown, so a page may hold a few more.
const timelinePage = 60

// View shows one screen. Whatever a person typed gives a view; an error means
// misuse.
func (p *Phone) View(frame []byte) []byte {
	return answer("view", func() (any, []byte, error) {
		var h viewHeader
		if _, err := p.unframe(frame, &h); err != nil {
			return nil, nil, err
		}
		view, err := p.view(h)
		return view, nil, err
	})
}

func (p *Phone) view(h viewHeader) (any, error) {
	switch h.Screen { // those that need no day
	case "household":
		return p.householdView(), nil
	case "sign":
		return p.sign(h.Arg, h.Now)
	}
	day, err := record.DayOf(h.Day)
	if err != nil {
		return nil, err
	}
	a := p.advise(day, h.Language)
	switch h.Screen {
	case "today":
		return a.Today(), nil
	case "tray":
		return a.Tray(h.Arg), nil
	case "weigh":
		return a.Weigh(), nil
	case "food":
		ask, err := parse[advice.FoodAsk](h.Arg)
		if err != nil {
			return nil, err
		}
		return a.Food(ask), nil
	case "filling":
		ask, err := parse[advice.FillAsk](h.Arg)
		if err != nil {
			return nil, err
		}
		return a.Filling(ask), nil
	case "trouble":
		return a.Trouble(h.Arg), nil
	case "batch":
		return a.Batch(h.Arg), nil
	case "bin":
		return a.Bin(h.Arg), nil
	case "plan":
		ask := advice.PlanAsk{}
		if h.Arg != "" {
			if ask, err = parse[advice.PlanAsk](h.Arg); err != nil {
				return nil, err
			}
		}
		return a.Plan(ask), nil
	case "labels":
		return a.Labels(), nil
	case "card":
		return a.Card(), nil
	case "freezer":
		return a.Freezer(), nil
	case "timeline":
		ask := advice.TimelineAsk{}
		if h.Arg != "" {
			if ask, err = parse[advice.TimelineAsk](h.Arg); err != nil {
				return nil, err
			}
		}
		ask.Before = h.Before
		return a.Timeline(ask, timelinePage), nil
	case "taught":
		return a.Taught(h.Arg), nil
	case "catchup":
		return a.CatchUp(), nil
	case "photos":
		return a.Photos(h.Arg), nil
	case "slip":
		arg, err := parse[slipArg](h.Arg)
		if err != nil {
			return nil, err
		}
		return a.Slip(arg.Tray, arg.Grams, arg.InBin), nil
	}
	return nil, fmt.Errorf("there is no screen %q", h.Screen)
}

// advise returns the advice for a day, kept until something comes in.
func (p *Phone) advise(day record.Day, language string) *advice.Advice {
	h := p.read()
	if p.advice == nil || p.adviceDay != day || p.language != language {
		member, _ := p.me()
		p.advice = advice.Resume(h, day, advice.Phone{Device: p.device, Member: member, Language: language}, p.keeps)
		p.adviceDay, p.language = day, language
	}
	return p.advice
}

// canonical brings the code of a claim into its one written form.
// A new one is drawn from the intent's random bytes.
func canonical(in *journal.Intent, random []byte) *journal.Refusal {
	typed, _ := in.Set["code"].(string)
	if typed == advice.NewLabel {
		typed = advice.FreshCode(random)
	}
	code, why, detail := advice.Code(typed)
	if why != "" {
		return &journal.Refusal{Code: codeLabel, Field: "set.code", Detail: detail}
	}
	set := make(map[string]any, len(in.Set))
	for name, value := range in.Set {
		set[name] = value
	}
	set["code"] = code
	in.Set = set
	return nil
}

// codeLabel refuses a claim whose code is no label's.
const codeLabel = "bad-code"

// knownScraps refuses scraps that the catalogue lacks. Under "other", with a
// class, anything can be logged; a rule of the house needs a scrap it holds for.
func knownScraps(in journal.Intent) *journal.Refusal {
	if in.Do == journal.DoRule && in.Scrap != "" && !advice.KnownScrap(in.Scrap) {
		return &journal.Refusal{Code: journal.CodeScrap, Field: "scrap", Detail: fmt.Sprintf("the catalogue has no %q, so a rule for it would never count; take the id of one of its scraps", in.Scrap)}
	}
	for i, it := range amounts(in) {
		at := "items." + strconv.Itoa(i)
		switch {
		case it.Scrap == "" || it.Scrap == journal.OtherScrap && it.Class == "":
			// The journal has the words for these.
		case it.Scrap == journal.OtherScrap && !advice.KnownClass(it.Class):
			return &journal.Refusal{Code: journal.CodeScrap, Field: at + ".class", Detail: fmt.Sprintf("there is no class %q; choose the one it comes nearest to", it.Class)}
		case it.Scrap != journal.OtherScrap && !advice.KnownScrap(it.Scrap):
			return &journal.Refusal{Code: journal.CodeScrap, Field: at + ".scrap", Detail: fmt.Sprintf("the catalogue has no %q; log it as \"other\" with a class and a name", it.Scrap)}
		}
	}
	return nil
}
