// Command fieldtrial runs the field trial of the advice and prints its table; see
// internal/fieldtrial. It is what "go run ./cmd/dev bench fieldtrial" starts, a
// program of its own because cmd/dev imports nothing of the product.
//
// Households are shared out among the processors; the outcome does not depend on
// how many there are.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/signal"
	"runtime"
	"sync"
	"syscall"
	"time"

	"trayside/internal/fieldtrial"
)

func main() {
	households := flag.Int("households", 200, "how many virtual households")
	days := flag.Int("days", fieldtrial.Days, "how long each keeps its worms, at most a year")
	seed := flag.Uint64("seed", 1, "of everything that is drawn")
	each := flag.Bool("each", false, "also write one line for each household and policy")
	workers := flag.Int("workers", runtime.GOMAXPROCS(0), "how many households at a time")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	began := time.Now()
	years := run(ctx, *seed, *households, *days, max(1, *workers))
	if ctx.Err() != nil {
		os.Exit(130)
	}
	if *each {
		fmt.Print(fieldtrial.Lines(years))
	}
	fmt.Print(fieldtrial.Table(*seed, *days, years))
	fmt.Fprintf(os.Stderr, "in %s\n", time.Since(began).Round(time.Second))
}

// run keeps every household by every policy.
func run(ctx context.Context, seed uint64, households, days, workers int) []fieldtrial.Year {
	years := make([]fieldtrial.Year, households)
	next := make(chan int)
	var all sync.WaitGroup
	for range workers {
		all.Go(func() {
			for n := range next {
				h := fieldtrial.Draw(fieldtrial.Of(seed, n))
				for _, p := range fieldtrial.Policies {
					years[n] = append(years[n], fieldtrial.Keep(h, p, days))
				}
			}
		})
	}
	for n := 0; n < households && ctx.Err() == nil; n++ {
		next <- n
	}
	close(next)
	all.Wait()
	return years
}
