package server

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"encoding/json"
	"maps"
	"net/http"
	"net/http/httptest"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/labstack/echo/v4"

	"trayside/internal/label"
	"trayside/server/store"
	"trayside/sync/digest"
	"trayside/sync/exchange"
)

type description struct {
	OpenAPI string
	Paths   map[string]map[string]struct {
		OperationID string
		Security    []map[string][]string
		RequestBody *struct {
			Content map[string]struct{ Schema map[string]any }
		}
		Responses map[string]any
	}
	Components struct {
		Schemas map[string]struct {
			Required   []string
			Properties map[string]struct{ Enum []string }
		}
	}
}

func described(t *testing.T, s *Server) (d description) {
	t.Helper()
	rec := httptest.NewRecorder()
	s.Handler().ServeHTTP(rec, httptest.NewRequest(http.MethodGet, "/api/v1/openapi.json", nil))
	if rec.Code != http.StatusOK || !strings.HasPrefix(rec.Header().Get("Content-Type"), "application/json") {
		t.Fatalf("openapi.json: %d %s", rec.Code, rec.Header().Get("Content-Type"))
	}
	if err := json.Unmarshal(rec.Body.Bytes(), &d); err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(d.OpenAPI, "3.1") {
		t.Errorf("version %q, want 3.1", d.OpenAPI)
	}
	return d
}

func testServer(t *testing.T) *Server {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	s, err := New(Config{Store: store.NewMemory(), Console: key, App: fstest.MapFS{}})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestTheDescriptionHasEveryRouteAndNoOther(t *testing.T) {
	s := testServer(t)
	d := described(t, s)
	var documented, routed []string
	for path, methods := range d.Paths {
		for method := range methods {
			documented = append(documented, strings.ToUpper(method)+" "+path)
		}
	}
	param := regexp.MustCompile(`:(\w+)`)
	for _, r := range s.Handler().(*echo.Echo).Routes() {
		if r.Path != "/*" { // the app itself
			routed = append(routed, r.Method+" "+param.ReplaceAllString(r.Path, "{$1}"))
		}
	}
	slices.Sort(documented)
	slices.Sort(routed)
	if !slices.Equal(documented, routed) {
		t.Errorf("documented:\n%s\nrouted:\n%s", strings.Join(documented, "\n"), strings.Join(routed, "\n"))
	}
	ids := map[string]bool{}
	for _, r := range s.routes() {
		op := d.Paths[param.ReplaceAllString(r.path, "{$1}")][strings.ToLower(r.method)]
		if guarded := len(op.Security) > 0; guarded != (r.access >= device) {
			t.Errorf("%s %s: documented as needing a token: %v", r.method, r.path, guarded)
		}
		if (op.RequestBody != nil) != (r.method == http.MethodPost || r.method == http.MethodPut) || op.Responses["default"] == nil {
			t.Errorf("%s %s: body or refusals are not documented", r.method, r.path)
		}
		if ids[op.OperationID] {
			t.Errorf("operation %s is there twice", op.OperationID)
		}
		ids[op.OperationID] = true
	}
}

func TestTheDescriptionKnowsEveryMemberOfEveryMessage(t *testing.T) {
	d := described(t, testServer(t))
	messages := map[string]any{
		"Problem": Problem{}, "About": aboutAnswer{},
		"JoinRequest": joinRequest{}, "JoinAnswer": joinAnswer{},
		"InviteRequest": inviteRequest{}, "Invite": Invite{},
		"Waiting": waitingAnswer{}, "WaitingPhone": waitingPhone{}, "GrantRequest": grantRequest{},
		"NonceRequest": nonceRequest{}, "NonceAnswer": nonceAnswer{},
		"TokenRequest": tokenRequest{}, "TokenAnswer": tokenAnswer{},
		"ExchangeRequest": exchange.Request{}, "ExchangeAnswer": exchange.Answer{},
		"PhotoList": photoList{},
		"Hint":      exchange.Hint{}, "Result": exchange.Result{}, "Scope": exchange.Scope{},
		"ReconcileQuery": exchange.Query{}, "ReconcileReply": exchange.Reply{},
		"PrintRequest": printRequest{}, "Sheet": label.Sheet{}, "LabelToDraw": labelToDraw{},
		"CardToDraw": cardToDraw{}, "VesselToDraw": vesselToDraw{},
		"MonthSum": digest.MonthSum{}, "DaySum": digest.DaySum{}, "PartSum": digest.PartSum{},
	}
	for name, schema := range d.Components.Schemas {
		message, there := messages[name]
		if !there {
			if name != "Id" && name != "Role" && name != "Sum" { // no structs of their own
				t.Errorf("schema %s stands for no message", name)
			}
			continue
		}
		var want []string
		for f := range reflect.TypeOf(message).Fields() {
			if tag, _, _ := strings.Cut(f.Tag.Get("json"), ","); tag != "" {
				want = append(want, tag)
			}
		}
		slices.Sort(want)
		if got := slices.Sorted(maps.Keys(schema.Properties)); !slices.Equal(got, want) {
			t.Errorf("%s: described %v, the program has %v", name, got, want)
		}
		for _, r := range schema.Required {
			if !slices.Contains(want, r) {
				t.Errorf("%s: %s is required and does not exist", name, r)
			}
		}
	}
	for name := range messages {
		if _, there := d.Components.Schemas[name]; !there {
			t.Errorf("%s is not described", name)
		}
	}
	codes := slices.Sorted(slices.Values(d.Components.Schemas["Problem"].Properties["code"].Enum))
	if want := slices.Sorted(maps.Keys(statusOf)); !slices.Equal(codes, want) {
		t.Errorf("codes described %v, the program has %v", codes, want)
	}
}

func TestEveryReferenceOfTheDescriptionLeadsSomewhere(t *testing.T) {
	var doc any
	if err := json.Unmarshal(openapi, &doc); err != nil {
		t.Fatal(err)
	}
	refs := regexp.MustCompile(`"\$ref": "#/([^"]+)"`).FindAllStringSubmatch(string(openapi), -1)
	if len(refs) < 20 {
		t.Fatalf("found %d references; the pattern does not fit the file any more", len(refs))
	}
	for _, ref := range refs {
		at := doc
		for _, step := range strings.Split(ref[1], "/") {
			m, _ := at.(map[string]any)
			at = m[step]
		}
		if at == nil {
			t.Errorf("#/%s leads nowhere", ref[1])
		}
	}
}
