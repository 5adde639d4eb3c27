// SPDX-License-Identifier: MIT

package publish

// Words are the sentences of a page that are the program's own, in one
// language. What the author wrote is never translated.
type Words struct {
	Lang string // as in HTML: "en"

	By, Style, RulesHead, RulesSay, RuleHead, RangeHead, WhyHead                            string
	RecipeHead, RecipeSays, AimsHead, GristHead, HopsHead, MashHead, WaterHead, YeastHead   string
	Malt, Share, Entry, Hop, Moment, Amount, Why                                            string
	OwnHead, OwnSays, NoScript, Starting, Ready, Forget, Units, Metric, US, Comma, Print    string
	SheetHead, Figures, Figure, Expected, Aim, Grist, Liquor, Mash, Kettle, Hops, Cellar    string
	Mass, Alpha, Bitterness, Kept, NotKept, Mind, Verdicts, Glass, GlassSays                string
	VersionsHead, Version, Change, Expect, DocumentHead, DocumentSays, MadeWith, FaultsHead string
	HouseHead, HouseSays, TakeRecipe, Safety                                                string
	Find, NothingFound, BeersHead, StylesHead, SiteMadeWith                                 string
	evidenceWords
}

// English is the language in which everything is complete.
var English = Words{
	Lang: "en",
	By:   "by", Style: "The style", RulesHead: "Its rules", RulesSay: "They advise; nothing is forbidden. A limit is where the author says the style ends.",
	RuleHead: "Of", RangeHead: "Within", WhyHead: "Because",
	RecipeHead: "The recipe", RecipeSays: "A recipe says what the beer is, not what to weigh: the weights follow from your brewery, below.",
	AimsHead: "Aims", GristHead: "Grist, shares of the weight", HopsHead: "Hops", MashHead: "Mash", WaterHead: "Water", YeastHead: "Yeast",
	Malt: "Malt", Share: "Share", Entry: "When", Hop: "Hop", Moment: "When", Amount: "How much", Why: "Why",
	OwnHead: "On your brewery", OwnSays: "Say what you know of your kit, malt, hops and water; what you leave stays as the author has it. Type numbers as you say them: 23 L, 6 US gal, 14 %/h, 64 °F.",
	NoScript: "This page can compute your own weights when scripts are allowed. Without them it shows the author's.",
	Starting: "Getting ready to compute …", Ready: "", Forget: "Back to the author's brewery", Units: "Units", Metric: "litres, kilograms, °C", US: "US gallons, pounds, °F", Comma: "decimal comma", Print: "Print the sheet",
	SheetHead: "Brew sheet", Figures: "The beer", Figure: "Figure", Expected: "Expected", Aim: "Aim", Grist: "Grist", Liquor: "Liquor", Mash: "Mash", Kettle: "Kettle", Hops: "Hops", Cellar: "Cellar",
	Mass: "Weight", Alpha: "Alpha acids", Bitterness: "Bitterness", Kept: "What is kept", NotKept: "What can't be kept", Mind: "Mind", Verdicts: "By the rules of the style", Glass: "In the glass",
	GlassSays:    "The same beer from a tilted edge (3 mm) to a pint (8 cm); the error is about 20 %.",
	VersionsHead: "How it came to be", Version: "Version", Change: "What changed", Expect: "What was expected",
	DocumentHead: "For your own gyle", DocumentSays: "The recipe as its document: save it as a file and open it with gyle.", MadeWith: "Made with gyle. This page keeps what you type in this browser only; it sends nothing anywhere.", FaultsHead: "Can't be read yet",
	HouseHead: "Your brewery as a document", HouseSays: "What you said above, for gyle: the same house gives the same numbers there.", TakeRecipe: "The recipe",
	Safety: "Hot liquor, steam, acids, gas and mains electricity can hurt: keep to the local code, and leave work on gas and electricity to those who are licensed for it. Alcohol is for adults; who drives doesn't drink.",
	Find:   "Find a beer, a style, a malt or a hop", NothingFound: "Nothing holds all these words.", BeersHead: "Beers", StylesHead: "Styles", SiteMadeWith: "Made with gyle. These pages follow nobody.",
	evidenceWords: englishEvidence,
}

// German is complete as well. The lines that the engine computes stay English.
var German = Words{
	Lang: "de",
	By:   "von", Style: "Der Stil", RulesHead: "Seine Regeln", RulesSay: "Sie raten; verboten ist nichts. Eine Grenze ist da, wo für den Verfasser der Stil endet.",
	RuleHead: "Von", RangeHead: "Zwischen", WhyHead: "Weil",
	RecipeHead: "Das Rezept", RecipeSays: "Ein Rezept sagt, was das Bier ist, nicht, was man abwiegt: die Gewichte ergeben sich unten aus der eigenen Anlage.",
	AimsHead: "Ziele", GristHead: "Schüttung, Anteile am Gewicht", HopsHead: "Hopfen", MashHead: "Maische", WaterHead: "Wasser", YeastHead: "Hefe",
	Malt: "Malz", Share: "Anteil", Entry: "Wann", Hop: "Hopfen", Moment: "Wann", Amount: "Wie viel", Why: "Warum",
	OwnHead: "Auf Ihrer Anlage", OwnSays: "Tragen Sie ein, was Sie von Anlage, Malz, Hopfen und Wasser wissen; der Rest bleibt wie beim Verfasser. Zahlen so, wie man sie sagt: 23 L, 14 %/h, 18 °C.",
	NoScript: "Mit erlaubten Skripten rechnet diese Seite die eigenen Gewichte aus. Ohne sie zeigt sie die des Verfassers.",
	Starting: "Gleich kann gerechnet werden …", Ready: "", Forget: "Zurück zur Anlage des Verfassers", Units: "Einheiten", Metric: "Liter, Kilogramm, °C", US: "US-Gallonen, Pfund, °F", Comma: "Dezimalkomma", Print: "Sudblatt drucken",
	SheetHead: "Sudblatt", Figures: "Das Bier", Figure: "Größe", Expected: "Erwartet", Aim: "Ziel", Grist: "Schüttung", Liquor: "Brauwasser", Mash: "Maische", Kettle: "Pfanne", Hops: "Hopfen", Cellar: "Keller",
	Mass: "Gewicht", Alpha: "Alphasäure", Bitterness: "Bittere", Kept: "Was gehalten wird", NotKept: "Was sich nicht halten lässt", Mind: "Zu beachten", Verdicts: "Nach den Regeln des Stils", Glass: "Im Glas",
	GlassSays:    "Dasselbe Bier vom schrägen Rand (3 mm) bis zum Krug (8 cm); der Fehler ist etwa 20 %.",
	VersionsHead: "Wie es entstand", Version: "Fassung", Change: "Was sich änderte", Expect: "Was erwartet wurde",
	DocumentHead: "Für das eigene gyle", DocumentSays: "Das Rezept als Dokument: als Datei speichern und mit gyle öffnen.", MadeWith: "Mit gyle gemacht. Diese Seite merkt sich Eingaben nur in diesem Browser; sie sendet nichts.", FaultsHead: "Noch nicht lesbar",
	HouseHead: "Ihre Anlage als Dokument", HouseSays: "Was oben steht, für gyle: dieselbe Anlage gibt dort dieselben Zahlen.", TakeRecipe: "Das Rezept",
	Safety: "Heißes Wasser, Dampf, Säuren, Gas und Netzstrom können verletzen: örtliche Vorschriften einhalten, Arbeiten an Gas und Strom den dafür Zugelassenen überlassen. Alkohol ist für Erwachsene; wer fährt, trinkt nicht.",
	Find:   "Bier, Stil, Malz oder Hopfen finden", NothingFound: "Nichts hat alle diese Wörter.", BeersHead: "Biere", StylesHead: "Stile", SiteMadeWith: "Mit gyle gemacht. Diese Seiten verfolgen niemanden.",
	evidenceWords: germanEvidence,
}

// Languages are the languages of pages, by their code.
var Languages = map[string]*Words{"en": &English, "de": &German}
