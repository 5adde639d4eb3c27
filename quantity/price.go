// SPDX-License-Identifier: MIT

package quantity

import (
	"strconv"
	"strings"
)

// Price is what an amount costs, as it stands on a bill: "1.60 €/kg",
// "4.50 €/100 g", "4.20 a pack". One of Mass, Volume, Energy and Packs is the
// amount that the money buys; the others are 0.
type Price struct {
	Amount float64 // of money
	Money  string  // as written: "€", "GBP"; empty where it isn't said
	Mass   Mass
	Volume Volume
	Energy float64 // kWh
	Packs  float64
}

// PerKilo returns the price of a kilogram, and whether the price is one of a
// mass.
func (p Price) PerKilo() (float64, bool) {
	if p.Mass <= 0 {
		return 0, false
	}
	return p.Amount / float64(p.Mass), true
}

const priceHint = `write what an amount costs: "1.60 €/kg", "4.50 €/100 g", "4.20 a pack", "0.35 €/kWh"`

// ParsePrice reads a price with the amount that it buys. The error is
// [*ParseError]: a price of nothing in particular can't be reckoned with.
func ParsePrice(text string) (Price, error) {
	fault := func(msg string) (Price, error) {
		return Price{}, &ParseError{Text: text, Msg: msg, Hint: priceHint}
	}
	money, per, ok := cutPrice(strings.Join(strings.Fields(text), " "))
	if !ok {
		return fault("a price says of how much it is")
	}
	p := Price{Money: strings.TrimSpace(strings.Map(notOfNumber, money))}
	number := strings.Map(ofNumber, strings.Replace(money, ",", ".", 1))
	amount, err := strconv.ParseFloat(number, 64)
	if err != nil || amount < 0 || strings.ContainsRune(money, '-') {
		return fault("there is no amount of money in it")
	}
	p.Amount = amount
	if !p.readAmount(per) {
		return fault(strconv.Quote(per) + " is no amount that something costs")
	}
	return p, nil
}

// cutPrice cuts a price into the money and what it buys.
func cutPrice(text string) (money, per string, ok bool) {
	for _, word := range []string{"/", " per ", " a ", " an ", " for "} {
		if money, per, ok = strings.Cut(text, word); ok {
			return money, strings.TrimSpace(per), true
		}
	}
	return text, "", false
}

// readAmount reads what the money buys; a unit alone is one of it.
func (p *Price) readAmount(per string) bool {
	if per == "" {
		return false
	}
	if per[0] < '0' || per[0] > '9' {
		per = "1 " + per
	}
	number, unit, _ := strings.Cut(per, " ")
	n, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
	switch strings.ToLower(unit) {
	case "kwh", "kilowatt-hour":
		p.Energy = n
		return err == nil && n > 0
	case "pack", "packs", "packet", "sachet", "sachets":
		p.Packs = n
		return err == nil && n > 0
	case "kilo", "kilos":
		per = number + " kg"
	case "pound":
		per = number + " lb"
	case "ounce":
		per = number + " oz"
	case "litre", "liter":
		per = number + " L"
	}
	if p.Mass, err = ParseMass(per); err == nil {
		return p.Mass > 0
	}
	p.Mass = 0
	p.Volume, err = ParseVolume(per)
	return err == nil && p.Volume > 0
}

func ofNumber(r rune) rune {
	if r >= '0' && r <= '9' || r == '.' {
		return r
	}
	return -1
}

func notOfNumber(r rune) rune {
	if r >= '0' && r <= '9' || r == '.' || r == ',' {
		return -1
	}
	return r
}
