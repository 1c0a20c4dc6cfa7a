package main

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"encoding/json"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"os"
	"path/filepath"

	"trayside/server"
	"trayside/server/store"
)

// The data folder:
//
//	log/           the database
//	photos/        pictures, one file each
//	console.pem    the founding key: whoever has it is a keeper for ever
//	serving.json   while a server runs: where it answers
const (
	logName     = "log"
	photosName  = "photos"
	consoleName = "console.pem"
	servingName = "serving.json"
)

// errBusy says that a server has the folder's database open.
var errBusy = errors.New("another trayside has this data folder open")

// folder is an opened data folder.
type folder struct {
	dir     string
	console *ecdsa.PrivateKey
	store   *store.Badger
	photos  *store.PhotoFiles
}

// openFolder opens a data folder and makes what is missing in a new one. The
// error is errBusy if a server has it open.
func openFolder(dir string, log *slog.Logger) (*folder, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("make the data folder: %w", err)
	}
	console, err := consoleKey(dir)
	if err != nil {
		return nil, err
	}
	st, err := store.Open(filepath.Join(dir, logName), store.Options{Log: log})
	if store.IsLocked(err) {
		return nil, errBusy
	}
	if err != nil {
		return nil, fmt.Errorf("%w; if the folder was copied while a server ran, copy it again with the server stopped", err)
	}
	photos, err := store.OpenPhotos(filepath.Join(dir, photosName), nil)
	if err != nil {
		return nil, errors.Join(err, st.Close())
	}
	return &folder{dir, console, st, photos}, nil
}

// isFolder tells whether a data folder is there, be it a damaged one.
func isFolder(dir string) bool {
	for _, name := range []string{consoleName, logName} {
		if _, err := os.Stat(filepath.Join(dir, name)); err == nil {
			return true
		}
	}
	return false
}

// foundIfEmpty founds a household in a folder that holds nothing, and leaves any
// other as it is.
func foundIfEmpty(dir string) error {
	if held, err := os.ReadDir(dir); err != nil || len(held) > 0 {
		return nil // whoever reads it says what is wrong
	}
	data, err := openFolder(dir, slog.New(slog.DiscardHandler))
	if err != nil {
		return err
	}
	_, err = server.New(server.Config{Store: data.store, Console: data.console})
	return errors.Join(err, data.close())
}

// consoleKey reads the founding key, or makes one for a folder without a log:
// a log without its key belongs to a household this program cannot speak for.
func consoleKey(dir string) (*ecdsa.PrivateKey, error) {
	name := filepath.Join(dir, consoleName)
	text, err := os.ReadFile(name)
	if errors.Is(err, fs.ErrNotExist) {
		if _, err := os.Stat(filepath.Join(dir, logName)); err == nil {
			return nil, fmt.Errorf("%s is missing although there is a log; put the key file that belongs to it back", name)
		}
		return newConsoleKey(name)
	}
	if err != nil {
		return nil, fmt.Errorf("read the console's key: %w", err)
	}
	block, _ := pem.Decode(text)
	if block == nil {
		return nil, fmt.Errorf("%s is not a PEM file; put the key file that belongs to this folder back", name)
	}
	key, err := x509.ParsePKCS8PrivateKey(block.Bytes)
	console, ok := key.(*ecdsa.PrivateKey)
	if err != nil || !ok || console.Curve != elliptic.P256() {
		return nil, fmt.Errorf("%s holds no P-256 key; put the key file that belongs to this folder back", name)
	}
	return console, nil
}

func newConsoleKey(name string) (*ecdsa.PrivateKey, error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	der, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		return nil, err
	}
	text := pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: der})
	if err := writeWhole(name, text); err != nil {
		return nil, fmt.Errorf("write the console's key: %w", err)
	}
	return key, nil
}

// writeWhole writes a private file so that it is there whole or not at all.
func writeWhole(name string, text []byte) error {
	f, err := os.CreateTemp(filepath.Dir(name), filepath.Base(name)+".*") // made for its owner alone
	if err != nil {
		return err
	}
	_, err = f.Write(text)
	err = errors.Join(err, f.Sync(), f.Close())
	if err == nil {
		err = os.Rename(f.Name(), name)
	}
	if err != nil {
		os.Remove(f.Name())
	}
	return err
}

// serving tells other commands where the server of a folder answers.
type serving struct {
	Address   string `json:"address"` // http://host:port, reached from this machine
	Household string `json:"household"`
	PID       int    `json:"pid"`
}

func (f *folder) writeServing(s serving) error {
	text, err := json.Marshal(s)
	if err != nil {
		return err
	}
	return writeWhole(filepath.Join(f.dir, servingName), text)
}

func readServing(dir string) (s serving, err error) {
	text, err := os.ReadFile(filepath.Join(dir, servingName))
	if err != nil {
		return s, err
	}
	return s, json.Unmarshal(text, &s)
}

func (f *folder) close() error {
	err := os.Remove(filepath.Join(f.dir, servingName))
	if errors.Is(err, fs.ErrNotExist) {
		err = nil
	}
	return errors.Join(err, f.store.Close())
}
