package trouble_test

import (
	"fmt"

	"trayside/internal/trouble"
	"trayside/internal/units"
)

// A tray smells sour and flies rise from it. The log knows that water ran out at the
// last squeeze and that the food is nearly gone.
func ExampleDiagnose() {
	r := trouble.Diagnose(trouble.Input{
		Today: 20_600,
		Signs: []trouble.Sign{trouble.SourSmell, trouble.FruitFlies},
		Log:   trouble.Log{Squeeze: "runs", Lying: 60, Eats: units.Grams(100), AreaCM2: 1200},
	})
	for _, f := range r.Findings {
		fmt.Println(f.Fit, f.Cause, f.Likely)
		for _, why := range f.Reasons {
			fmt.Println("   ", why.Of, why.Code, why.Band, why.Times)
		}
	}
	fmt.Println("tonight", r.Tonight[0].Code, r.Tonight[2])
	fmt.Println("feeding:", r.Feeding.Kind, r.Feeding.Cause)
	// Output:
	// best too-wet 824
	//     log moisture runs 5000
	//     sign sour-smell  3750
	// best uncovered-food 515
	//     sign fruit-flies  4250
	// could no-air 481
	//     sign sour-smell  4167
	//     log moisture runs 2000
	// could more-than-eaten 316
	//     log backlog eaten 143
	//     sign sour-smell  4167
	//     sign fruit-flies  2000
	// could acid-bed 217
	//     sign sour-smell  2500
	// tonight drain-sump {add-dry-bedding 150 g}
	// feeding: hold sour
}
