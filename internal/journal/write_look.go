package journal

import (
	"strings"
)

// look writes a quick check of a tray.
func (w *writer) look(in Intent) *Refusal {
	tray, r := w.checkTray("tray", in.Tray, in.InBin)
	if r != nil {
		return r
	}
	if in.Bin == "" {
		in.Bin = tray.Bin
	}
	if r := w.checkSpot("spot", in.Spot); r != nil {
		return r
	}
	set := fields{
		"leftovers": string(in.Leftovers), "squeeze": in.Squeeze, "smell": in.Smell, "note": strings.TrimSpace(in.Note),
		"visitors": in.Visitors, "cover": in.Cover, "covered": in.Covered, "signs": in.Signs, "unlogged": in.Unlogged,
	}
	for name, n := range map[string]*int64{
		"temp": in.Temp, "liquid": in.Liquid, "fill": in.Fill, "weight": in.Weight, "meter": in.Meter, "ph": in.PH,
	} {
		if n != nil {
			set[name] = *n
		}
	}
	if r := bounded(KindLook, set); r != nil {
		return r
	}
	says := false
	for _, value := range set {
		says = says || !blank(value)
	}
	if !says {
		return refuse(CodeEmpty, "leftovers", "a look says at least one thing: leftovers, a squeeze, a temperature, a smell, visitors or a note")
	}
	if in.Temp != nil {
		set["tempOf"] = in.TempOf
		if in.TempOf == "" {
			set["tempOf"] = "bed"
		}
	}
	set["bin"], set["tray"], set["spot"] = in.Bin, in.Tray, in.Spot
	if r := w.who(in, set); r != nil {
		return r
	}
	w.happened(w.fresh(KindLook), set)
	return nil
}
