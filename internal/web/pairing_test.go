// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"testing"
	"time"
)

func TestPairing(t *testing.T) {
	b := fullBook(t)
	told := ""
	s := newTestServer(t, Options{Book: b, LAN: true, OnPair: func(device, next string) { told = device + " " + next }})
	phone := far(t, s)
	want(t, phone.get("/recipe"), http.StatusSeeOther)
	want(t, phone.get("/pair"), http.StatusOK, "Pair this device")
	want(t, phone.get("/static/book.css"), http.StatusOK)
	want(t, phone.get("/devices"), http.StatusSeeOther)
	want(t, phone.post("/pair", url.Values{"code": {"AAAA-AAAA"}}), http.StatusUnprocessableEntity, "isn&#39;t the code")
	code := s.PairingCode()
	want(t, phone.post("/pair", url.Values{"code": {strings.ToLower(strings.Replace(code, "-", " ", 1))}, "name": {"Phone"}}), http.StatusSeeOther)
	if told != "Phone "+s.PairingCode() || s.PairingCode() == code {
		t.Errorf("told %q; the code is %s, was %s", told, s.PairingCode(), code)
	}
	want(t, phone.get("/recipe"), http.StatusOK, "Ferry Brown 4")
	want(t, phone.get("/devices"), http.StatusForbidden)
	session := phone.cookies[len(phone.cookies)-1]
	if !session.HttpOnly || session.SameSite != http.SameSiteLaxMode || strings.Contains(b.settings[devicesSetting], session.Value) {
		t.Errorf("session cookie %+v, kept as %s", session, b.settings[devicesSetting])
	}
	other := far(t, s)
	want(t, other.post("/pair", url.Values{"code": {code}}), http.StatusUnprocessableEntity)

	id := s.devices.paired()[0].ID
	want(t, near(t, s).post("/devices/"+id+"/unpair", nil), http.StatusSeeOther)
	want(t, phone.get("/recipe"), http.StatusSeeOther)
}

func TestPairingAttemptsAreLimited(t *testing.T) {
	now := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	s := newTestServer(t, Options{Book: fullBook(t), LAN: true, Now: func() time.Time { return now }})
	phone := far(t, s)
	try := func() int { return phone.post("/pair", url.Values{"code": {"x"}}).Code }
	for range 5 {
		if got := try(); got != http.StatusUnprocessableEntity {
			t.Fatalf("status %d", got)
		}
	}
	if got := try(); got != http.StatusTooManyRequests {
		t.Errorf("sixth attempt: status %d", got)
	}
	if got := phone.post("/pair", url.Values{"code": {s.PairingCode()}}).Code; got != http.StatusTooManyRequests {
		t.Errorf("the right code went through: %d", got)
	}
	for i := range 20 {
		phone.from = "192.168.7." + strconv.Itoa(100+i) + ":1"
		try()
	}
	phone.from = "192.168.7.99:1"
	if got := try(); got != http.StatusTooManyRequests {
		t.Errorf("many addresses together: status %d", got)
	}
	now = now.Add(time.Minute)
	if got := try(); got != http.StatusUnprocessableEntity {
		t.Errorf("a minute later: status %d", got)
	}
}

func TestOtherDevicesAreRefusedWithoutLAN(t *testing.T) {
	want(t, far(t, newTestServer(t, Options{Book: fullBook(t)})).get("/"), http.StatusForbidden)
}
