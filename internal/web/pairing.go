// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"net/http"
	"net/netip"
	"slices"
	"strings"
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// sessionCookie holds the token of a paired device.
const sessionCookie = "gyle-session"

// devicesSetting is the setting of the book that lists the paired devices.
const devicesSetting = "web.devices"

// pairedFor is how long a device stays paired.
const pairedFor = 400 * 24 * time.Hour

// device is a paired device. Of its token only the hash is kept.
type device struct {
	ID   string    `json:"id"`
	Hash string    `json:"hash"`
	Name string    `json:"name"`
	At   time.Time `json:"at"`
}

// devices are the paired devices and the code that pairs the next one.
type devices struct {
	mu       sync.Mutex
	book     Book
	now      func() time.Time
	code     string
	list     []device
	attempts attempts
}

func readDevices(ctx context.Context, book Book, now func() time.Time) (*devices, error) {
	d := &devices{book: book, now: now, code: newCode(), attempts: newAttempts(now)}
	text, err := book.Setting(ctx, devicesSetting, "[]")
	if err != nil {
		return nil, fmt.Errorf("read paired devices: %w", err)
	}
	if err := json.Unmarshal([]byte(text), &d.list); err != nil {
		return nil, fmt.Errorf("read paired devices: %w", err)
	}
	return d, nil
}

// codeLetters has no letters or digits that are taken for one another.
const codeLetters = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"

// newCode returns eight letters, one of 10¹² codes.
func newCode() string {
	var b [8]byte
	rand.Read(b[:]) // never fails
	for i := range b {
		b[i] = codeLetters[int(b[i])%len(codeLetters)]
	}
	return string(b[:4]) + "-" + string(b[4:])
}

// plainCode is a code without what people put between its letters.
func plainCode(code string) string {
	return strings.Map(func(r rune) rune {
		if r == '-' || r == ' ' {
			return -1
		}
		return r
	}, strings.ToUpper(code))
}

func (d *devices) currentCode() string {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.code
}

// pair takes a code and returns the token of a new device. A code is good for
// one device.
func (d *devices) pair(ctx context.Context, from netip.Addr, code, name string) (token string, err error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if !d.attempts.allow(from) {
		return "", errTooManyAttempts
	}
	if subtle.ConstantTimeCompare([]byte(plainCode(code)), []byte(plainCode(d.code))) != 1 {
		return "", errWrongCode
	}
	token = rand.Text()
	list := append(slices.Clone(d.list), device{ID: rand.Text()[:12], Hash: hashOf(token), Name: name, At: d.now()})
	if err := d.keep(ctx, list); err != nil {
		return "", err
	}
	d.code = newCode()
	return token, nil
}

func (d *devices) unpair(ctx context.Context, id string) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.keep(ctx, slices.DeleteFunc(slices.Clone(d.list), func(x device) bool { return x.ID == id }))
}

func (d *devices) keep(ctx context.Context, list []device) error {
	text, err := json.Marshal(list)
	if err != nil {
		return err
	}
	if err := d.book.SetSetting(ctx, devicesSetting, string(text)); err != nil {
		return fmt.Errorf("keep paired devices: %w", err)
	}
	d.list = list
	return nil
}

// knows reports whether a request comes from a paired device.
func (d *devices) knows(r *http.Request) bool {
	cookie, err := r.Cookie(sessionCookie)
	if err != nil {
		return false
	}
	hash := hashOf(cookie.Value)
	return slices.ContainsFunc(d.paired(), func(x device) bool {
		return subtle.ConstantTimeCompare([]byte(x.Hash), []byte(hash)) == 1
	})
}

// paired lists the devices whose time isn't up.
func (d *devices) paired() (list []device) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, x := range d.list {
		if d.now().Sub(x.At) < pairedFor {
			list = append(list, x)
		}
	}
	return list
}

func hashOf(token string) string {
	sum := sha256.Sum256([]byte(token))
	return hex.EncodeToString(sum[:])
}

// attempts limits how often codes are tried: five at once and one each twelve
// seconds from one address, twenty at once and one each three seconds in all.
type attempts struct {
	now  func() time.Time
	all  *rate.Limiter
	each map[netip.Addr]*rate.Limiter
}

// maxAddresses bounds the memory of attempts.
const maxAddresses = 1000

func newAttempts(now func() time.Time) attempts {
	return attempts{now: now, all: rate.NewLimiter(rate.Every(3*time.Second), 20), each: map[netip.Addr]*rate.Limiter{}}
}

func (a *attempts) allow(from netip.Addr) bool {
	one := a.each[from]
	if one == nil {
		if len(a.each) >= maxAddresses {
			clear(a.each) // the limit in all still holds
		}
		one = rate.NewLimiter(rate.Every(12*time.Second), 5)
		a.each[from] = one
	}
	return one.AllowN(a.now(), 1) && a.all.AllowN(a.now(), 1)
}
