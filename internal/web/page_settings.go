// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"net/http"
)

// NameSetting is the setting of the book that keeps its name.
const NameSetting = "book.name"

// bookName is what the running head calls the book.
func (s *Server) bookName(ctx context.Context) string {
	name, err := s.book.Setting(ctx, NameSetting, "")
	if err != nil {
		s.log.Error("read the name of the book", "error", err)
	}
	if name == "" {
		return s.book.Name()
	}
	return name
}

func (s *Server) settings(w http.ResponseWriter, r *http.Request) error {
	sheet := Sheet{Title: "Settings", Chapter: "settings"}
	if r.URL.Query().Get("done") == "saved" {
		sheet.Notice = &Notice{Text: "Kept."}
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
	if name := shortName(r.PostFormValue("book")); name != s.bookName(r.Context()) {
		if err := s.book.SetSetting(r.Context(), NameSetting, name); err != nil {
			return err
		}
	}
	http.SetCookie(w, h.cookie())
	return seeOther(w, r, "/settings?done=saved")
}
