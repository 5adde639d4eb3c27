// SPDX-License-Identifier: MIT

package main

import (
	"html"
	"io"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

var (
	formField  = regexp.MustCompile(`(?s)<input\b[^>]*>|<textarea\b[^>]*>.*?</textarea>|<select\b[^>]*>.*?</select>`)
	formOption = regexp.MustCompile(`<option\b[^>]*\bselected\b[^>]*>`)
)

// formAt reads the fields of a page with what stands in them. Our own pages are
// regular enough for it.
func formAt(t testing.TB, address string) url.Values {
	t.Helper()
	answer, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusOK {
		t.Fatalf("form at %s: %s, %v", address, answer.Status, err)
	}
	form := url.Values{}
	for _, field := range formField.FindAllString(string(text), -1) {
		name := attribute(field, "name")
		kind := attribute(field, "type")
		if name == "" || (kind == "checkbox" || kind == "radio") && !strings.Contains(field, " checked") {
			continue
		}
		form.Add(name, fieldValue(field))
	}
	if len(form) == 0 {
		t.Fatalf("no form at %s", address)
	}
	return form
}

func fieldValue(field string) string {
	switch {
	case strings.HasPrefix(field, "<textarea"):
		_, inner, _ := strings.Cut(field, ">")
		return html.UnescapeString(strings.TrimPrefix(strings.TrimSuffix(inner, "</textarea>"), "\n"))
	case strings.HasPrefix(field, "<select"):
		return attribute(formOption.FindString(field), "value")
	}
	return attribute(field, "value")
}

func attribute(tag, name string) string {
	_, rest, found := strings.Cut(tag, " "+name+`="`)
	if !found {
		return ""
	}
	value, _, _ := strings.Cut(rest, `"`)
	return html.UnescapeString(value)
}
