// SPDX-License-Identifier: MIT

package causes

// signs are the signs that data.NoteCause names. Each looks at one log.
var signs = map[string]func(*reader) Sign{
	"aged":             (*reader).aged,
	"alkaline":         (*reader).alkaline,
	"attenuation-high": func(r *reader) Sign { return r.final(-1) },
	"attenuation-low":  func(r *reader) Sign { return r.final(+1) },
	"boil-short":       (*reader).boilShort,
	"cooled-early":     (*reader).cooledEarly,
	"cooling-slow":     (*reader).coolingSlow,
	"dark-grain":       (*reader).darkGrain,
	"dms-light":        (*reader).dmsLight,
	"dry-hops-much":    (*reader).dryHopsMuch,
	"ferment-warm":     (*reader).fermentWarm,
	"gravity-high":     (*reader).gravityHigh,
	"gravity-under":    (*reader).gravityUnder,
	"ibu-over":         func(r *reader) Sign { return r.bitterness(+1) },
	"ibu-under":        func(r *reader) Sign { return r.bitterness(-1) },
	"kept-warm":        (*reader).keptWarm,
	"mash-cool":        func(r *reader) Sign { return r.mashTemperature(-1) },
	"mash-ph-high":     (*reader).mashPHHigh,
	"mash-ph-low":      (*reader).mashPHLow,
	"mash-warm":        func(r *reader) Sign { return r.mashTemperature(+1) },
	"not-aerated":      (*reader).notAerated,
	"on-yeast-long":    (*reader).onYeastLong,
	"packed-early":     (*reader).packedEarly,
	"pitch-low":        (*reader).pitchLow,
	"pitched-warm":     (*reader).pitchedWarm,
	"primed-less":      func(r *reader) Sign { return r.primed(-1) },
	"primed-more":      func(r *reader) Sign { return r.primed(+1) },
	"sparge-hot":       (*reader).spargeHot,
	"sparge-much":      (*reader).spargeMuch,
	"sulphate-high":    (*reader).sulphateHigh,
	"unproven":         (*reader).unproven,
	"yeast-phenolic":   (*reader).yeastPhenolic,
}
