package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"

	"trayside/server"
	"trayside/sync/roster"
)

// runInvite makes an invite in the machine owner's name: the phone that uses it
// is let in at once. It is also the way back when the last keeper's phone is lost.
func runInvite(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	f := newFlags("invite", "trayside invite --data DIR [--role keeper|feeder|viewer] [--base URL] [--json]", stderr)
	dir := f.String("data", "", "the household's data folder")
	role := f.String("role", string(roster.Keeper), "what the phone may do: keeper everything, feeder log entries, viewer read")
	base := f.String("base", "", "address that phones use; by default the one the server answers on")
	asJSON := f.Bool("json", false, "print the invite as one JSON line")
	if err := parse(f, args); err != nil {
		return err
	}
	switch {
	case *dir == "":
		return usage("invite: say where the data is kept: trayside invite --data DIR")
	case !roster.Role(*role).Valid():
		return usage("invite: --role %q: want keeper, feeder or viewer", *role)
	}
	name, err := baseOf(*base)
	if err != nil {
		return err
	}
	var v server.Invite
	err = withFolder(ctx, *dir, func(data *folder) error {
		s, err := server.New(server.Config{Store: data.store, Console: data.console})
		if err != nil {
			return err
		}
		if name == "" {
			name = "http://127.0.0.1:8080" // where serve answers if nothing else is said
			fmt.Fprintf(stderr, "No server runs here: the link fits one started at %s; --base names another.\n", name)
		}
		v, err = s.InviteByConsole(roster.Role(*role), name)
		return err
	}, func(c *console) error {
		if err := c.post(ctx, "/api/v1/invites", map[string]any{"role": *role}, &v); err != nil {
			return err
		}
		if name != "" {
			v.Link = name + "/join#" + v.Code
		}
		return nil
	})
	if err != nil {
		return err
	}
	if *asJSON {
		return json.NewEncoder(stdout).Encode(v)
	}
	return printLink(stdout, fmt.Sprintf("Scan or open this within 10 minutes to join as %s, or type %s in the app:", *role, v.Short), v.Link)
}
