package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"trayside/internal/colony"
)

const simulateHow = `trayside simulate --trial FILE.json [--json]

Runs an experiment with worms in a dish and tells how many there are, what they
weigh, lay and eat. FILE.json holds one object:

  species                   eisenia-fetida (stands for E. andrei too),
                            dendrobaena-hortensis, eudrilus-eugeniae,
                            perionyx-excavatus or not-sure
  area_cm2                  surface of the dish
  temp_c                    °C, or a list of [day, °C]: each holds from its day on
  moisture_pct              % of wet mass
  start                     {"adults", "adult_mg", "juveniles", "juvenile_mg", "cocoons"}
  feed                      [{"day", "g", "food"}]; food is cattle-manure, horse-manure,
                            activated-sludge, coffee-pulp or an id of the catalogue,
                            such as potato-peel; foods of one day are one meal
  remove                    [{"day", "g"}]: uneaten food taken out, g or "all"
  remove_cocoons_every_days take the cocoons out every so many days
  days                      how long it runs
  report_every_days         days from row to row; without it only the last day

Days count from 0. What is there on a day is counted before that day's food,
removals and taking of cocoons, and removals come before the food.`

func runSimulate(_ context.Context, args []string, stdout, stderr io.Writer) error {
	f := newFlags("simulate", simulateHow, stderr)
	file := f.String("trial", "", "the trial, or - for standard input")
	asJSON := f.Bool("json", false, "print one JSON object")
	if err := parse(f, args); err != nil {
		return err
	}
	if *file == "" {
		return usage("simulate: name the file that holds the trial: --trial FILE.json")
	}
	text, err := readAll(*file)
	if err != nil {
		return fmt.Errorf("simulate: the trial cannot be read: %w", err)
	}
	trial, err := readTrial(text)
	if err != nil {
		return usage("simulate: %s: %v", *file, err)
	}
	rows := trial.Run()
	if *asJSON {
		return json.NewEncoder(stdout).Encode(struct {
			Rows []colony.Row `json:"rows"`
		}{rows})
	}
	return simulateTable(stdout, rows)
}

func readAll(file string) ([]byte, error) {
	if file == "-" {
		return io.ReadAll(os.Stdin)
	}
	return os.ReadFile(file)
}

// simulateTable is the answer for people.
func simulateTable(w io.Writer, rows []colony.Row) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%5s %9s %10s %9s %9s %9s %9s %10s %10s\n", "day", "adults", "juveniles", "cocoons", "laid", "mean mg", "live g", "eaten g", "left g")
	for _, r := range rows {
		fmt.Fprintf(&b, "%5d %9.1f %10.1f %9.1f %9.1f %9.1f %9.2f %10.1f %10.1f\n",
			r.Day, r.Adults, r.Juveniles, r.Cocoons, r.Laid, r.MeanMG, r.LiveG, r.EatenG, r.LeftG)
	}
	b.WriteString("\nLaid and eaten are since the row before. A trial on paper is a mean over many dishes.\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// foods lists what a trial may feed, for messages.
func foods() string {
	names := colony.FareNames()
	slices.Sort(names)
	return strings.Join(names, ", ") + " or an id of the catalogue, such as potato-peel"
}
