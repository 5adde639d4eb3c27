// SPDX-License-Identifier: MIT

package calendar

// Record is a calendar for programs. Days are written 2026-03-07; a stay ends
// on the day on which its vessel is free again.
type Record struct {
	House   string        `json:"house"`
	Today   string        `json:"today"`
	Vessels []string      `json:"vessels"`
	Stays   []StayRecord  `json:"stays"`
	Clashes []ClashRecord `json:"clashes"`
	Nowhere []string      `json:"nowhere"` // gyles that name no vessel of a house with several, or no day
}

// StayRecord is a stay for programs.
type StayRecord struct {
	Gyle   string `json:"gyle"`
	Title  string `json:"title"`
	Vessel string `json:"vessel"`
	From   string `json:"from"`
	Free   string `json:"free"`
	Days   int    `json:"days"`
	State  State  `json:"state"`
	Why    string `json:"why"` // where the end comes from
}

// ClashRecord is a clash for programs.
type ClashRecord struct {
	Vessel string `json:"vessel"`
	Wanted string `json:"wanted"` // by this gyle; empty: one that isn't in the book yet
	From   string `json:"from"`
	Has    string `json:"has"` // the gyle that is in the way
	Until  string `json:"until"`
	Free   string `json:"free,omitempty"` // first day on which the vessel is free for as long
	Else   string `json:"else,omitempty"` // vessel that is free on the day that was wanted
}

// Record returns the calendar for programs.
func (c *Calendar) Record(house string, nowhere []string) Record {
	r := Record{House: house, Today: c.Today.String(), Vessels: c.Vessels, Stays: []StayRecord{}, Clashes: []ClashRecord{}, Nowhere: append([]string{}, nowhere...)}
	for _, s := range c.Stays {
		r.Stays = append(r.Stays, StayRecord{s.Gyle, s.Title, s.Vessel, s.From.String(), s.To.String(), s.Days(), s.State, s.Why})
	}
	for _, clash := range c.Clashes {
		r.Clashes = append(r.Clashes, clash.Record())
	}
	return r
}

// Record returns the clash for programs.
func (c *Clash) Record() ClashRecord {
	r := ClashRecord{Vessel: c.Want.Vessel, Wanted: c.Want.Gyle, From: c.Want.From.String(), Has: c.Has.Gyle, Until: c.Has.To.String(), Else: c.Else}
	if c.Free != nil {
		r.Free = c.Free.String()
	}
	return r
}
