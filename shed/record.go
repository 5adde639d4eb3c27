// SPDX-License-Identifier: MIT

package shed

// LotRecord is the account of a lot for programs, in kg.
type LotRecord struct {
	Lot      string      `json:"lot"`
	What     string      `json:"what"`
	List     string      `json:"list"` // malts, hops, yeasts or salts
	Counted  *float64    `json:"counted,omitempty"`
	Used     float64     `json:"used"`
	Reserved float64     `json:"reserved"`
	Left     *float64    `json:"left,omitempty"` // absent: the lot wasn't weighed
	Short    float64     `json:"short,omitempty"`
	Uses     []UseRecord `json:"uses"`
}

// UseRecord is one use of a lot for programs.
type UseRecord struct {
	Gyle string  `json:"gyle"`
	Day  string  `json:"day"`
	Mass float64 `json:"mass"`
	How  How     `json:"how"`
}

// Records returns accounts of lots for programs.
func Records(lots []Lot) []LotRecord {
	list := []LotRecord{}
	for _, l := range lots {
		r := LotRecord{Lot: l.Name, What: l.What, List: l.List, Used: float64(l.Used), Reserved: float64(l.Reserved), Short: float64(l.Short), Uses: []UseRecord{}}
		if l.Counted != nil {
			counted, left := float64(*l.Counted), float64(l.Left)
			r.Counted, r.Left = &counted, &left
		}
		for _, u := range l.Uses {
			r.Uses = append(r.Uses, UseRecord{u.Gyle, u.Day.String(), float64(u.Mass), u.How})
		}
		list = append(list, r)
	}
	return list
}
