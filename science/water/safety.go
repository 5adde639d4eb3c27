// SPDX-License-Identifier: MIT

package water

// SafetyRules are the cautions to show wherever acids, salts or lime are planned.
var SafetyRules = []string{
	"Use food grade only.",
	"Pour acid into water, never water into acid.",
	"Never let acid meet a chlorine cleaner (poisonous gas) or a caustic one (violent heat).",
	"Wear goggles and gloves for strong lactic or phosphoric acid, any hydrochloric or sulfuric acid, and slaked lime.",
	"Weigh salts on a scale that shows 0.1 g, better 0.01 g.",
	"Metabisulfite is a sulfite: tell drinkers who react to it.",
	"Sodium and potassium matter to people on a medical diet.",
	"Some countries restrict acids or salts in beer: check your own rules.",
}

// The cautions of the acids.
const (
	safetyLactic       = "Irritates skin and burns eyes: goggles and gloves. Pour acid into water."
	safetyDilute       = "Keep out of eyes: goggles. Pour acid into water."
	safetyPhosphoric   = "Corrodes metal and burns skin and eyes: goggles and gloves. Pour acid into water."
	safetyHydrochloric = "Burns eyes and skin; gives off poisonous chlorine with bleach: goggles and gloves, and away from cleaners. Pour acid into water."
	safetyFuming       = "Gives off biting fumes that hurt lungs and rust steel: take a solution of 10 % or less. Goggles, gloves, open air; poisonous chlorine with bleach. Pour acid into water."
	safetySulfuric     = "Burns eyes and skin: goggles and gloves. Pour acid into water."
	safetyConcentrated = "Chars skin and cloth, and boils and spits when it meets water: take a solution of 10 % or less. Only for trained people with face shield, apron and gloves. Pour acid into water, slowly, never the reverse."
)
