// SPDX-License-Identifier: MIT

package quantity

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// number is a number as it was written: value is what it is worth, text how
// Go would write it, digits how many significant digits were given.
// Doubt is set when its comma may part thousands: "1,250".
type number struct {
	text   string
	value  float64
	digits int
	doubt  *trouble
}

// shifted returns the number with its decimal point moved to the right by so
// many places, rounded once: 1042.4 shifted by -3 is exactly what 1.0424 is.
func (n number) shifted(places int) float64 {
	mantissa, exponent, _ := strings.Cut(n.text, "e")
	e, _ := strconv.Atoi(exponent)
	value, _ := strconv.ParseFloat(mantissa+"e"+strconv.Itoa(e+places), 64)
	return value
}

// decimals returns how many decimals were written.
func (n number) decimals() int {
	mantissa, _, _ := strings.Cut(n.text, "e")
	_, decimals, _ := strings.Cut(mantissa, ".")
	return len(decimals)
}

// cleaner unifies the signs that look alike.
var cleaner = strings.NewReplacer(
	"\u2212", "-", // minus sign
	"\u00a0", " ", "\u202f", " ", "\u2009", " ", "\u200a", " ", "\u2007", " ", "\t", " ",
	"º", "°", "˚", "°", "℃", "°C", "℉", "°F", "μ", "µ", "\u212a", "K", // look-alikes
)

// clean unifies spaces, signs and look-alikes.
func clean(s string) string {
	if isClean(s) {
		return s
	}
	return strings.Join(strings.Fields(cleaner.Replace(s)), " ")
}

// isClean reports whether a text is of plain characters with single spaces
// between them, as most are.
func isClean(s string) bool {
	space := true
	for i := range len(s) {
		c := s[i]
		if c < ' ' || c >= 0x7f || c == ' ' && space {
			return false
		}
		space = c == ' '
	}
	return !space || s == ""
}

// compacter takes away what makes no difference between units.
var compacter = strings.NewReplacer(" per ", "/", " ", "", ".", "", "(", "", ")", "",
	"degrees", "°", "degree", "°", "deg", "°", "³", "3", "₂", "2", "₃", "3", "⋅", "·", "-", "")

// compact returns the spelling of a unit under which it is looked up.
func compact(unit string) string {
	return compacter.Replace(strings.ToLower(unit))
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// digitsAt returns how many digits stand at the beginning of s.
func digitsAt(s string) int {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	return n
}

// cutBeforeDigit parts "h 15 min" into "h" and "15 min". A minus sign stays
// with its number.
func cutBeforeDigit(s string) (before, after string) {
	i := strings.IndexFunc(s, func(r rune) bool { return '0' <= r && r <= '9' })
	if i < 0 {
		return s, ""
	}
	before, negative := strings.CutSuffix(strings.TrimSpace(s[:i]), "-")
	if negative {
		return strings.TrimSpace(before), "-" + s[i:]
	}
	return before, s[i:]
}

// scan parts a cleaned text into a number and what follows it.
func scan(s string) (number, string, *trouble) {
	rest := s
	sign := ""
	if rest != "" && (rest[0] == '-' || rest[0] == '+') {
		sign = strings.TrimPrefix(rest[:1], "+")
		rest = strings.TrimLeft(rest[1:], " ")
	}
	whole, rest := scanWhole(rest)
	doubt := doubtfulComma(whole, rest)
	decimals, rest, fault := scanDecimals(rest)
	if fault != nil {
		return number{}, "", fault
	}
	if whole == "" && decimals == "" {
		return number{}, "", missing(s)
	}
	exponent, rest := scanExponent(rest)
	n, fault := makeNumber(sign, whole, decimals, exponent)
	n.doubt = doubt
	return n, strings.TrimSpace(rest), fault
}

func missing(s string) *trouble {
	if s == "" {
		return &trouble{"nothing is written", ""}
	}
	return &trouble{"it doesn't begin with a number", ""}
}

// makeNumber puts the parts of a number together.
func makeNumber(sign, whole, decimals string, exponent int) (number, *trouble) {
	text := sign + whole
	if whole == "" {
		text += "0"
	}
	if decimals != "" {
		text += "." + decimals
	}
	if exponent != 0 {
		text += "e" + strconv.Itoa(exponent)
	}
	value, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return number{}, &trouble{"the number is too large", ""}
	}
	return number{text: text, value: value, digits: len(strings.TrimLeft(whole+decimals, "0"))}, nil
}

// scanWhole reads the digits before the decimal mark. Spaces may part groups
// of three: "1 250".
func scanWhole(s string) (digits, rest string) {
	n := digitsAt(s)
	digits, rest = s[:n], s[n:]
	if n == 0 || n > 3 || digits[0] == '0' {
		return digits, rest
	}
	for strings.HasPrefix(rest, " ") && digitsAt(rest[1:]) == 3 {
		digits, rest = digits+rest[1:4], rest[4:]
	}
	return digits, rest
}

// scanDecimals reads the decimal mark and the digits after it.
func scanDecimals(s string) (digits, rest string, fault *trouble) {
	if s == "" || (s[0] != '.' && s[0] != ',') {
		return "", s, nil
	}
	n := digitsAt(s[1:])
	digits, rest = s[1:1+n], s[1+n:]
	if n == 0 {
		return "", s, nil
	}
	if len(rest) > 1 && (rest[0] == '.' || rest[0] == ',') && isDigit(rest[1]) {
		return "", "", &trouble{"it has two decimal marks", "write one comma or point, before the decimals, and no mark between thousands"}
	}
	return digits, rest, nil
}

// doubtfulComma reports a comma that may as well part thousands: it has one to
// three digits before it, not beginning with 0, and exactly three behind.
func doubtfulComma(whole, rest string) *trouble {
	if whole == "" || len(whole) > 3 || whole[0] == '0' || !strings.HasPrefix(rest, ",") || digitsAt(rest[1:]) != 3 {
		return nil
	}
	decimals := rest[1:4]
	return &trouble{
		fmt.Sprintf("does the comma begin the decimals or part thousands? %s.%s or %s%s?", whole, decimals, whole, decimals),
		fmt.Sprintf("write %q or %q", whole+"."+decimals, whole+decimals),
	}
}

// superscripts in the order of their digits.
const superscripts = "⁰¹²³⁴⁵⁶⁷⁸⁹"

// scanExponent reads "e6", "×10⁶", "x 10^6".
func scanExponent(s string) (exponent int, rest string) {
	if len(s) > 1 && (s[0] == 'e' || s[0] == 'E') {
		if e, after, ok := scanInteger(s[1:]); ok {
			return e, after
		}
		return 0, s
	}
	after := strings.TrimLeft(s, " ")
	for _, sign := range []string{"×", "x", "*", "·"} {
		ten, found := strings.CutPrefix(after, sign)
		power, isTen := strings.CutPrefix(strings.TrimLeft(ten, " "), "10")
		if !found || !isTen {
			continue
		}
		if e, end, ok := scanInteger(strings.TrimPrefix(plainDigits(power), "^")); ok {
			return e, end
		}
	}
	return 0, s
}

// plainDigits writes the superscripts at the beginning of s as plain digits.
func plainDigits(s string) string {
	var b strings.Builder
	for i, r := range s {
		at := -1
		if unicode.IsOneOf([]*unicode.RangeTable{unicode.No}, r) {
			at = strings.IndexRune(superscripts, r)
		}
		switch {
		case r == '⁻':
			b.WriteByte('-')
		case at >= 0:
			b.WriteByte('0' + byte(len([]rune(superscripts[:at]))))
		default:
			return b.String() + s[i:]
		}
	}
	return b.String()
}

// scanInteger reads a small integer at the beginning of s.
func scanInteger(s string) (value int, rest string, ok bool) {
	sign := 0
	if s != "" && (s[0] == '-' || s[0] == '+') {
		sign = 1
	}
	n := digitsAt(s[sign:])
	if n == 0 || n > 4 {
		return 0, s, false
	}
	value, err := strconv.Atoi(s[:sign+n])
	return value, s[sign+n:], err == nil
}
