package main

import (
	"bytes"
	"context"
	"crypto/ecdsa"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"strconv"
	"time"

	"trayside/server"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
	"trayside/sync/roster"
	"trayside/sync/roster/p256"
)

// console speaks to the running server of a data folder as the device it is:
// the founding key is a keeper's, so there is no other way in beside the phones'.
type console struct {
	base, home string
	key        *ecdsa.PrivateKey
	token      string
}

// dial finds the running server of a folder and gets a token.
func dial(ctx context.Context, dir string) (*console, error) {
	at, err := readServing(dir)
	if err != nil {
		return nil, fmt.Errorf("%w, but it left no word where it answers: %w", errBusy, err)
	}
	key, err := consoleKey(dir)
	if err != nil {
		return nil, err
	}
	c := &console{base: at.Address, home: at.Household, key: key}
	return c, c.login(ctx)
}

// login gets a token for the key.
func (c *console) login(ctx context.Context) error {
	pub, err := p256.PublicKey(c.key)
	if err != nil {
		return err
	}
	dev := roster.DeviceID(pub)
	var first struct{ Nonce string }
	if err := c.post(ctx, "/api/v1/nonce", map[string]any{"dev": dev}, &first); err != nil {
		return err
	}
	sig, err := p256.SignText(c.key, "trayside-token:"+c.home+":"+first.Nonce)
	if err != nil {
		return err
	}
	var second struct{ Token string }
	if err := c.post(ctx, "/api/v1/token", map[string]any{"dev": dev, "nonce": first.Nonce, "sig": sig}, &second); err != nil {
		return err
	}
	c.token = second.Token
	return nil
}

// post asks the server. A log of years takes more requests than it answers at
// once, so post waits and asks again when it is told to.
func (c *console) post(ctx context.Context, path string, body, into any) error {
	text, err := json.Marshal(body)
	if err != nil {
		return err
	}
	for {
		wait, err := c.ask(ctx, path, text, into)
		if wait == 0 {
			return err
		}
		select {
		case <-time.After(wait):
		case <-ctx.Done():
			return errors.Join(ctx.Err(), err)
		}
	}
}

// longestWait is how long a person at a terminal waits without a word.
const longestWait = 30 * time.Second

// direct asks the server itself, whatever proxy the environment names: the token
// is a keeper's, and the address is this machine's own.
var direct = &http.Client{Transport: &http.Transport{}}

// ask posts once. wait is above 0 if the server says to come again after it.
func (c *console) ask(ctx context.Context, path string, text []byte, into any) (wait time.Duration, err error) {
	ctx, cancel := context.WithTimeout(ctx, 30*time.Second)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodPost, c.base+path, bytes.NewReader(text))
	if err != nil {
		return 0, err
	}
	req.Header.Set("Content-Type", "application/json")
	if c.token != "" {
		req.Header.Set("Authorization", "Bearer "+c.token)
	}
	res, err := direct.Do(req)
	if err != nil {
		return 0, fmt.Errorf("ask the running server: %w", err)
	}
	defer res.Body.Close()
	answer, err := io.ReadAll(io.LimitReader(res.Body, 16<<20))
	if err != nil {
		return 0, fmt.Errorf("ask the running server: %w", err)
	}
	if res.StatusCode < 300 {
		return 0, json.Unmarshal(answer, into)
	}
	var p server.Problem
	if json.Unmarshal(answer, &p) != nil || p.Detail == "" {
		return 0, fmt.Errorf("the running server answered %s to %s", res.Status, path)
	}
	if s, err := strconv.Atoi(res.Header.Get("Retry-After")); err == nil && s > 0 && res.StatusCode == http.StatusTooManyRequests {
		if after := time.Duration(s) * time.Second; after <= longestWait {
			wait = after
		}
	}
	return wait, fmt.Errorf("the running server says: %s", p.Detail)
}

// readLog gives everything in a data folder's log, whether a server runs or not.
func readLog(ctx context.Context, dir string) (ops []oplog.Sealed, err error) {
	var texts []string
	err = withFolder(ctx, dir, func(data *folder) error {
		s, err := server.New(server.Config{Store: data.store, Console: data.console})
		if err != nil {
			return err
		}
		home, err := oplog.ParseID(s.Household())
		if err != nil {
			return err
		}
		return data.store.Log(home).View(func(snap exchange.Snapshot) error {
			head, err := snap.Head()
			if err != nil {
				return err
			}
			list, err := snap.Since(0, int(head.N))
			for _, a := range list {
				texts = append(texts, string(a.Bytes))
			}
			return err
		})
	}, func(c *console) error {
		for req := (exchange.Request{Ops: []string{}}); ; {
			var a exchange.Answer
			if err := c.post(ctx, exchange.PathExchange, req, &a); err != nil {
				return err
			}
			texts = append(texts, a.Ops...)
			if !a.More {
				return nil
			}
			req.After = a.Next
		}
	})
	for _, text := range texts {
		op, err := oplog.Open([]byte(text))
		if err != nil {
			return nil, fmt.Errorf("read the log of %s: %w", dir, err)
		}
		ops = append(ops, op)
	}
	return ops, err
}

// withFolder calls closed with the opened folder, or running with the way to
// the server that has it open. It makes no household where there is none.
func withFolder(ctx context.Context, dir string, closed func(*folder) error, running func(*console) error) error {
	if !isFolder(dir) {
		return fmt.Errorf("there is no household in the folder %q; give the one that trayside serve uses: trayside serve makes one", dir)
	}
	data, err := openFolder(dir, slog.New(slog.DiscardHandler))
	if errors.Is(err, errBusy) {
		c, err := dial(ctx, dir)
		if err != nil {
			return err
		}
		return running(c)
	}
	if err != nil {
		return err
	}
	return errors.Join(closed(data), data.close())
}
