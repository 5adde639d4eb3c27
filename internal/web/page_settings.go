// SPDX-License-Identifier: MIT

package web

import "net/http"

func (s *Server) settings(w http.ResponseWriter, r *http.Request) error {
	sheet := Sheet{Title: "Settings", Chapter: "settings"}
	if r.URL.Query().Get("done") == "saved" {
		sheet.Notice = &Notice{Text: "Kept in this browser."}
	}
	return s.show(w, r, http.StatusOK, "page_settings", sheet)
}

func (s *Server) saveSettings(w http.ResponseWriter, r *http.Request) error {
	if err := readForm(r); err != nil {
		return err
	}
	h := hand{
		US:     r.PostFormValue("units") == "us",
		Comma:  r.PostFormValue("decimal") == "comma",
		Author: shortName(r.PostFormValue("author")),
	}
	http.SetCookie(w, h.cookie())
	return seeOther(w, r, "/settings?done=saved")
}
