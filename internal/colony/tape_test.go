package colony

import (
	"bytes"
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"
	"unsafe"

	"pgregory.net/rapid"

	"trayside/internal/record"
)

// through is a Keep that was written and read back.
func through(t interface{ Fatal(...any) }, k *Keep) *Keep {
	back, err := ReadKeep(k.Append(nil))
	if err != nil {
		t.Fatal(err)
	}
	return back
}

// notKept are the fields of an Ensemble that its log says again, or that a Keep
// has none of.
var notKept = []string{"stack", "rates", "seed", "soft", "spare", "changes", "kept"}

// Every other field, however deep, is filled with a value of its own: one that the
// bytes leave out comes back as zero.
func TestAKeepsBytesHoldEveryFieldOfTheState(t *testing.T) {
	e := new(Ensemble)
	fill(reflect.ValueOf(e).Elem(), new(int), notKept)
	if len(e.particles) != crowd || e.ask == nil || len(e.said) == 0 {
		t.Fatalf("the filled state has %d particles, %d promises, ask %v", len(e.particles), len(e.said), e.ask)
	}
	for i := range e.particles {
		if len(e.particles[i].Food) == 0 || len(e.particles[i].Share) != 2 {
			t.Fatalf("particle %d: %d morsels, %d shares", i, len(e.particles[i].Food), len(e.particles[i].Share))
		}
	}
	k := &Keep{ensemble: e, digest: 7}
	if back := through(t, k); !reflect.DeepEqual(back, k) {
		a, b := reflect.ValueOf(back.ensemble).Elem(), reflect.ValueOf(e).Elem()
		for i := range a.NumField() {
			if x, y := fmt.Sprintf("%+v", a.Field(i)), fmt.Sprintf("%+v", b.Field(i)); x != y {
				t.Errorf("%s comes back as %.1500s, not %.1500s: give the new field a line in tape.go and bump keepVersion", a.Type().Field(i).Name, x, y)
			}
		}
		t.Errorf("what comes back is not what was kept (digest %d)", back.digest)
	}
}

// fill gives v and all in it values that differ from zero and, as far as they
// can, from each other.
func fill(v reflect.Value, n *int, but []string) {
	*n++
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			name := v.Type().Field(i).Name
			if slices.Contains(but, name) {
				continue
			}
			f := reflect.NewAt(v.Field(i).Type(), unsafe.Pointer(v.Field(i).UnsafeAddr())).Elem()
			switch name {
			case "particles":
				f.Set(reflect.MakeSlice(f.Type(), crowd, crowd))
				for k := range crowd {
					fill(f.Index(k), n, nil)
				}
			case "newest":
				f.SetInt(1 << 30) // above every meal
			case "strand", "Tray":
				if f.Kind() == reflect.Int {
					f.SetInt(1) // of a few
					continue
				}
				fill(f, n, nil)
			default:
				fill(f, n, nil)
			}
		}
	case reflect.Array:
		for i := range v.Len() {
			fill(v.Index(i), n, nil)
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fill(v.Index(0), n, nil)
		fill(v.Index(1), n, nil)
	case reflect.Map:
		v.Set(reflect.MakeMap(v.Type()))
		for range 3 {
			key, value := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
			fill(key, n, nil)
			fill(value, n, nil)
			v.SetMapIndex(key, value)
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem(), n, nil)
	case reflect.Float64:
		v.SetFloat(float64(*n) / 7)
	case reflect.Bool:
		v.SetBool(true)
	case reflect.String:
		v.SetString(fmt.Sprint("text ", *n))
	case reflect.Uint64:
		v.SetUint(uint64(*n))
	default:
		v.SetInt(int64(*n))
	}
}

func TestAKeepThatWentThroughBytesGoesOnToTheSameBits(t *testing.T) {
	seen := 0
	rapid.Check(t, func(t *rapid.T) {
		in := named(aLog(t))
		kept := Follow(in).Kept()
		if kept == nil {
			return
		}
		seen++
		back := through(t, kept)
		if !reflect.DeepEqual(back, kept) {
			t.Fatal("the Keep itself differs")
		}
		in.Today += record.Day(rapid.IntRange(0, 9).Draw(t, "days later"))
		in.Meals = append(in.Meals, scraps("feeding/later", in.Today, "tray/a", 200))
		l := aLook(in.Today, "tray/a", record.LeftSome)
		l.ID = "look/later"
		in.Looks = append(in.Looks, l)
		if log := stackOf(in); !back.fits(&log) {
			t.Fatal("the Keep is passed over")
		}
		a, b, whole := Resume(in, kept, nil), Resume(in, back, nil), Follow(in)
		for what, e := range map[string]*Ensemble{"in memory": a, "from bytes": b} {
			if !bytes.Equal(e.keep().Append(nil), whole.keep().Append(nil)) || !reflect.DeepEqual(e.Estimate(), whole.Estimate()) {
				t.Fatalf("gone on from a Keep %s: %v; from the beginning: %v", what, e.Estimate().Live, whole.Estimate().Live)
			}
		}
	})
	if seen == 0 {
		t.Error("no log was long enough to keep anything of")
	}
}

// The bytes are the same natively and as wasm, and whoever changes what they
// mean is reminded of keepVersion: both stand in one file.
func TestTheFrozenKeepHasTheSameBytesEverywhere(t *testing.T) {
	in := twoTrays()
	in.Bin = "bin/frozen"
	b := Follow(in).Kept().Append(nil)
	compareFrozen(t, "testdata/keep.txt", []string{fmt.Sprintf("version %d, %d bytes, hash %016x", keepVersion, len(b), hash(string(b)))})
}

func TestBytesThatAreNoKeepAreRefused(t *testing.T) {
	in := twoTrays()
	in.Bin = "bin/damaged"
	kept := Follow(in).Kept()
	whole := kept.Append(nil)
	refused := func(what string, b []byte) {
		t.Helper()
		if _, err := ReadKeep(b); err == nil {
			t.Errorf("%s was read", what)
		}
	}
	refused("nothing", nil)
	refused("a byte too much", append(slices.Clone(whole), 0))
	for n := 0; n < len(whole); n += 1 + len(whole)/997 {
		refused(fmt.Sprintf("%d of %d bytes", n, len(whole)), whole[:n])
	}
	other := slices.Clone(whole)
	other[0] += 2 // the varint of the next version
	refused("another version", other)
	unsound := through(t, kept)
	unsound.ensemble.particles[5].Fertile = math.NaN()
	refused("a fraction that is none", unsound.Append(nil))
	unsound = through(t, kept)
	unsound.ensemble.particles[5].strand = len(strands)
	refused("a strand that there is not", unsound.Append(nil))
	unsound = through(t, kept)
	unsound.ensemble.particles[0].Food[0].Tray = 2
	refused("a morsel in a tray that there is not", unsound.Append(nil))
}

func TestAKeepOfAnotherLogIsPassedOver(t *testing.T) {
	in := twoTrays()
	in.Bin = "bin/mine"
	kept := through(t, Follow(in).Kept())
	for what, change := range map[string]func(*Input){
		"another bin":     func(in *Input) { in.Bin = "bin/other" },
		"another species": func(in *Input) { in.Species = record.Dendrobaena },
		"fewer meals":     func(in *Input) { in.Meals = in.Meals[:3] },
		"fewer trays":     func(in *Input) { in.Trays = in.Trays[:1] },
		"an earlier day":  func(in *Input) { in.Today = kept.ensemble.day - 1 },
	} {
		other := *in
		change(&other)
		if Resume(&other, kept, nil).kept == kept {
			t.Errorf("%s went on from it", what)
		}
	}
	if Resume(in, kept, nil).kept != kept {
		t.Error("its own log did not go on from it")
	}
}

// Whatever is read without an error is a state that a log can go on from.
func FuzzReadKeep(f *testing.F) {
	in := twoTrays()
	in.Bin = "bin/fuzz"
	whole := Follow(in).Kept().Append(nil)
	f.Add(whole)
	f.Add(whole[:200])
	f.Add([]byte{2})
	f.Fuzz(func(t *testing.T, b []byte) {
		k, err := ReadKeep(b)
		if err != nil {
			return
		}
		if again := k.Append(nil); !reflect.DeepEqual(through(t, k), k) || len(again) > len(b) {
			t.Fatal("what was read is not what is written")
		}
		if log := stackOf(in); k.ensemble.day > 0 && k.ensemble.day <= in.Today {
			k.digest = log.digest(k.ensemble.day) // as if the log were its own
		}
		Resume(in, k, nil)
	})
}
