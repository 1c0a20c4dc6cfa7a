package trouble_test

import (
	"encoding/json"
	"fmt"
	"hash/fnv"
	"slices"
	"strings"
	"testing"

	"trayside/internal/trouble"
)

// frozenSum stands for every answer of the rows below. It is the same natively and
// as wasm, so that a phone and a server that hold the same entries say the same. A
// new sum is a changed network: read what the rows now say before writing it here.
const frozenSum = "c0d1fcc5f1db2229"

func TestPhoneAndServerSayTheSame(t *testing.T) {
	sum := fnv.New64a()
	for _, c := range slices.Concat(sure, likelyRows) {
		for _, log := range []trouble.Log{{}, c.log} {
			b, err := json.Marshal(diagnose(t, log, c.sign, trouble.WormsLeaving))
			if err != nil {
				t.Fatal(err)
			}
			if strings.Contains(string(b), "null") {
				t.Errorf("%s: a list is null: %s", c.sign, b)
			}
			sum.Write(b)
		}
	}
	if got := fmt.Sprintf("%016x", sum.Sum64()); got != frozenSum {
		t.Errorf("the answers sum to %s, want %s", got, frozenSum)
	}
}
