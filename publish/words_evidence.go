// SPDX-License-Identifier: MIT

package publish

import "gyle/quantity"

// evidenceWords are the sentences about tastings and brews. {1} and so on are
// places for numbers.
type evidenceWords struct {
	PanelSaid, TastingsHead, Question, TastedBeers, Conditions, TastingSays string
	BrewedHead, BrewedSays, OnHouse, Planned, Brewed                        string

	WeightHead string // of advice and limits

	CanTell, Count, Shown, SmallShown, BelowLimit, NotShown, NotShownAlone  string
	Preferred, NotPreferred, Profile, ProfileSame, Ranked, Void, Unanswered string

	figures map[quantity.Figure]string
}

var englishEvidence = evidenceWords{
	PanelSaid: "The panel, blind", TastingsHead: "Tastings", Question: "The question", TastedBeers: "The beers",
	TastingSays: "It speaks of these bottles and this panel, not of all who drink the beer. That nothing was shown never means that the beers are the same.",
	BrewedHead:  "As it was brewed", BrewedSays: "Reckoned from the log of the brew day; in brackets what the readings leave open.", OnHouse: "on", Planned: "Planned", Brewed: "Brewed",
	WeightHead: "advice, limit", CanTell: "About {1} of tasters can tell them apart ({2} to {3}, {4} interval).",
}

var germanEvidence = evidenceWords{
	PanelSaid: "Das Blindpanel", TastingsHead: "Verkostungen", Question: "Die Frage", TastedBeers: "Die Biere",
	TastingSays: "Das gilt für diese Flaschen und dieses Panel, nicht für alle, die das Bier trinken. Wo nichts gezeigt wurde, heißt das nie, dass die Biere gleich sind.",
	BrewedHead:  "Wie es gebraut wurde", BrewedSays: "Aus dem Protokoll des Brautags berechnet; in Klammern, was die Messungen offen lassen.", OnHouse: "auf", Planned: "Geplant", Brewed: "Gebraut",
	WeightHead: "Rat, Grenze", CanTell: "Etwa {1} der Verkoster können sie unterscheiden ({2} bis {3}, Bereich zu {4}).",
	Count:        "{1} von {2} richtig, Raten gibt {3} (p {4})",
	Shown:        "Unterschied gezeigt: {1}.",
	SmallShown:   "Kleiner Unterschied gezeigt: {1}; weniger als {2} der Verkoster können ihn bemerken.",
	BelowLimit:   "Nicht gezeigt: {1}; falls es einen Unterschied gibt, bemerken ihn weniger als {2} der Verkoster.",
	NotShown:     "Nicht gezeigt; bis zu {2} der Verkoster könnten sie trotzdem unterscheiden: {1}.",
	Preferred:    "{7} wird bevorzugt: {1} gegen {2} Stimmen (p {3}; {4} bis {5}, Bereich zu {6}).",
	NotPreferred: "Keine Vorliebe gezeigt: {1} gegen {2} Stimmen (p {3}; {4} bis {5}, Bereich zu {6}).", NotShownAlone: "Nicht gezeigt: {1}.",
	Profile: "Verschieden sind: {1}.", ProfileSame: "Kein Merkmal unterscheidet sich so, dass es neben allen anderen Fragen bestehen bliebe.",
	Ranked: "Reihenfolge: {1} (p {2}).", Void: "Ungültig: die Antworten beweisen nichts.", Unanswered: "Niemand hat geantwortet.",
	figures: map[quantity.Figure]string{
		quantity.OG: "Stammwürze", quantity.FG: "Restextrakt", quantity.ABV: "Alkohol", quantity.Bitterness: "Bittere", quantity.BeerColor: "Farbe",
		quantity.CO2: "Kohlensäure", quantity.MashPH: "Maische-pH", quantity.Attenuation: "Vergärungsgrad", quantity.BUGU: "BU:GU", quantity.ResidualAlkalinity: "Restalkalität",
		quantity.SulfateToChloride: "Sulfat zu Chlorid",
	},
}
