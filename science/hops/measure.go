// SPDX-License-Identifier: MIT

package hops

import (
	"math"

	"gyle/quantity"
)

// massToBU is the share of the absorbing matter that was taken to be
// iso-alpha acids when the scale of bitterness was made.
const massToBU = 5.0 / 7

// BUFromAbsorbance returns the bitterness units of a laboratory reading.
//
//	BU = 50 · A275    absorbance of the iso-octane extract at 275 nm, 1 cm
//
// Units: BU; the absorbance is of 1 cm.
//
//   - Source: asbcbeer23, summary read; factor and wavelength quoted in later texts; EBC 9.8 alike.
//   - Valid: as the method says; repeatable to about 1 BU, between laboratories 2 to 4 BU.
//   - Check: 32.0 for 0.640.
//   - Tag: second-hand
func BUFromAbsorbance(a275 float64) quantity.IBU { return quantity.IBU(50 * a275) }

// BUFromContent returns the bitterness units of a beer with the given
// iso-alpha acids and other matter that absorbs alike (oxidised and dissolved
// alpha acids, some polyphenol, malt).
//
//	BU = 5/7 · (IAA + N)
//
// Units: IAA, N in mg/L.
//
//   - Source: asbcbeer23, summary; the factor quoted in later texts.
//   - Valid: N is 0.4·IAA in fresh beer of kettle hops, and then BU = IAA.
//   - Check: IAA 40, N 16: 40.0.
//   - Tag: second-hand
func BUFromContent(iso, other quantity.Concentration) quantity.IBU {
	return quantity.IBU(massToBU * float64(iso+other))
}

// OtherAbsorbing returns the matter that absorbs like iso-alpha acids without
// being any: [BUFromContent] solved for N.
//
//	N = 7/5·BU − IAA
//
// Units: N, IAA in mg/L.
//
//   - Source: asbcbeer23, summary; the factor quoted in later texts.
//   - Valid: as [BUFromContent].
//   - Check: kishimoto2021, 47.5 BU with 39.9 mg/L: 26.6 mg/L.
//   - Tag: second-hand
func OtherAbsorbing(bu quantity.IBU, iso quantity.Concentration) quantity.Concentration {
	return quantity.Concentration(float64(bu)/massToBU) - iso
}

// BitterEquivalent returns the iso-alpha acids that would taste as bitter as
// the mixture: humulinones 66 ± 13 %, hulupones 84 ± 10 %, alpha acids about 10 %.
//
//	B = IAA + 0.66·Hum + 0.84·Hul + 0.10·alpha
//
// Units: mg/L.
//
//   - Source: algazzali2016, abstract; the weight of alpha acids second-hand from maye2018.
//   - Valid: beers of ordinary strength.
//   - Check: 30 IAA, 15 Hum, 12 alpha: 41.1.
//   - Tag: second-hand
func BitterEquivalent(iso, humulinones, hulupones, alpha quantity.Concentration) quantity.Concentration {
	return iso + 0.66*humulinones + 0.84*hulupones + 0.10*alpha
}

// IsoThreshold is the concentration of iso-alpha acids that was noticed in an
// unhopped lager, with the range among tasters (kolpin2009, abstract).
var IsoThreshold = quantity.Band{Low: 4.5, Mid: 7.1, High: 11.2}

// NoticeableDifference returns the difference of bitterness that most tasters
// notice.
//
//	5 BU below 40 BU, 15 % above
//
// Units: BU.
//
//   - Source: practice.
//   - Valid: beers alike in everything else.
//   - Check: 5 at 30, 9 at 60.
//   - Tag: common practice
func NoticeableDifference(b quantity.IBU) quantity.IBU {
	if b < 40 {
		return 5
	}
	return 0.15 * b
}

// The half-lives of the two kinds of iso-alpha acids in beer.
const (
	transShare       = 0.32
	cisHalfMonths    = 60.0
	transHalfMonths  = 12.0
	transHalfHarsher = 8.0 // nearer to the losses at 20 °C of araki2002
	daysPerMonth     = 365.25 / 12
)

// IsoLeft returns the share of the iso-alpha acids left in beer kept for time
// d at temperature t.
//
//	f = 0.68·2^(−m/60) + 0.32·2^(−m/12)    m = months · 3^((T − 20)/10)
//
// Units: months, T in °C.
//
//   - Source: dekeukeleire2000, half-lives quoted in later texts; the factor of three per 10 K from araki2002.
//   - Valid: 4–30 °C; araki2002 lost trans-iso-alpha acids faster, see [IsoLeftHarsher].
//   - Check: 0.926, 0.861, 0.752 and 0.595 after 3, 6, 12 and 24 months at 20 °C.
//   - Tag: second-hand
func IsoLeft(d quantity.Duration, t quantity.Temperature) float64 {
	return isoLeft(d, t, transHalfMonths)
}

// IsoLeftHarsher is [IsoLeft] with a half-life of the trans kind of 8 months.
//
//	f = 0.68·2^(−m/60) + 0.32·2^(−m/8)    m = months · 3^((T − 20)/10)
//
// Units: months, T in °C.
//
//   - Source: araki2002, quoted in later texts: 45 % of the trans kind lost on day 200 at 20 °C.
//   - Valid: 4–30 °C.
//   - Check: trans loss on day 200 is 43 %.
//   - Tag: estimate
func IsoLeftHarsher(d quantity.Duration, t quantity.Temperature) float64 {
	return isoLeft(d, t, transHalfHarsher)
}

func isoLeft(d quantity.Duration, t quantity.Temperature, transHalf float64) float64 {
	months := d.Days() / daysPerMonth * math.Pow(3, (t.Celsius()-20)/10)
	return (1-transShare)*math.Exp2(-months/cisHalfMonths) + transShare*math.Exp2(-months/transHalf)
}
