package colony

import "testing"

func BenchmarkTheEnsembleOverFiveYears(b *testing.B) {
	in := fiveYears()
	for b.Loop() {
		Gather(in)
	}
}

func BenchmarkOneNewEntryOnAKeep(b *testing.B) {
	in := fiveYears()
	kept := Gather(in).Kept()
	in.Looks = append(in.Looks, aLook(in.Today, "tray/low", "none"))
	for b.Loop() {
		Resume(in, kept, nil).Estimate()
	}
}
