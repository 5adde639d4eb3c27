// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"html/template"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"rsc.io/qr"
)

// pairBody is the form in which a device types the code.
type pairBody struct {
	Code, Name string
	Fault      string
}

func (s *Server) pair(w http.ResponseWriter, r *http.Request) error {
	if !s.options.LAN {
		return ErrNotFound
	}
	if atThisMachine(r) {
		return seeOther(w, r, "/devices")
	}
	return s.showPair(w, r, http.StatusOK, pairBody{Code: r.URL.Query().Get("code"), Name: deviceName(r)})
}

func (s *Server) showPair(w http.ResponseWriter, r *http.Request, status int, body pairBody) error {
	return s.draw(w, r, status, "page_pair", "bare", Sheet{Title: "Pair this device", Body: body})
}

func (s *Server) savePair(w http.ResponseWriter, r *http.Request) error {
	if !s.options.LAN {
		return ErrNotFound
	}
	if err := readForm(r); err != nil {
		return err
	}
	body := pairBody{Code: r.PostFormValue("code"), Name: shortName(r.PostFormValue("name"))}
	token, err := s.devices.pair(r.Context(), addressOf(r.RemoteAddr), body.Code, body.Name)
	switch {
	case errors.Is(err, errTooManyAttempts):
		body.Fault = "Too many codes were tried. Wait a minute."
		return s.showPair(w, r, http.StatusTooManyRequests, body)
	case errors.Is(err, errWrongCode):
		body.Fault = "That isn't the code, or it was used already. The machine that keeps the book shows the present one."
		return s.showPair(w, r, http.StatusUnprocessableEntity, body)
	case err != nil:
		return err
	}
	if s.options.OnPair != nil {
		s.options.OnPair(body.Name, s.devices.currentCode())
	}
	http.SetCookie(w, &http.Cookie{
		Name: sessionCookie, Value: token, Path: "/", MaxAge: int(pairedFor.Seconds()),
		HttpOnly: true, SameSite: http.SameSiteLaxMode,
	})
	return seeOther(w, r, "/")
}

// deviceName guesses what the reader calls the device.
func deviceName(r *http.Request) string {
	agent := r.UserAgent()
	for _, known := range []string{"iPhone", "iPad", "Android", "Windows", "Macintosh", "Linux"} {
		if strings.Contains(agent, known) {
			return known
		}
	}
	return ""
}

// deviceBody is the list of paired devices and the code for the next.
type deviceBody struct {
	Devices []device
	Links   []link
	Code    string
}

// link is an address for another device, with its QR code.
type link struct {
	Address string
	QR      template.HTML
}

func (s *Server) deviceList(w http.ResponseWriter, r *http.Request) error {
	if !atThisMachine(r) {
		return errNotHere
	}
	body := deviceBody{Devices: s.devices.paired(), Code: s.devices.currentCode()}
	for _, address := range s.options.Links {
		drawing, err := qrDrawing(address + "pair?code=" + url.QueryEscape(body.Code))
		if err != nil {
			return err
		}
		body.Links = append(body.Links, link{address, drawing})
	}
	return s.show(w, r, http.StatusOK, "page_devices", Sheet{Title: "Devices", Chapter: "settings", Body: body})
}

func (s *Server) unpair(w http.ResponseWriter, r *http.Request) error {
	if !atThisMachine(r) {
		return errNotHere
	}
	if err := s.devices.unpair(r.Context(), r.PathValue("id")); err != nil {
		return err
	}
	return seeOther(w, r, "/devices")
}

// quiet is the white rim that readers of QR codes need, in modules.
const quiet = 4

// qrDrawing draws an address as SVG. The address must be ASCII.
func qrDrawing(address string) (template.HTML, error) {
	code, err := qr.Encode(address, qr.M)
	if err != nil {
		return "", err
	}
	size := strconv.Itoa(code.Size + 2*quiet)
	var b strings.Builder
	b.WriteString(`<svg class="qr" viewBox="0 0 ` + size + ` ` + size + `" role="img" aria-label="QR code of the address with the code" shape-rendering="crispEdges">`)
	b.WriteString(`<rect width="` + size + `" height="` + size + `" fill="#fff"/><path fill="#000" d="`)
	for y := range code.Size {
		for x := range code.Size {
			if code.Black(x, y) {
				b.WriteString("M" + strconv.Itoa(x+quiet) + " " + strconv.Itoa(y+quiet) + "h1v1h-1z")
			}
		}
	}
	b.WriteString(`"/></svg>`)
	return template.HTML(b.String()), nil
}
