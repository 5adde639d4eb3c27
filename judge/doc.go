// SPDX-License-Identifier: MIT

// Package judge holds a beer against the rules of a style: a recipe as it is
// meant ([Recipe]) or as a plan realises it on a house ([Plan]).
//
// Every rule gets one verdict, and every part of a sum one more: where the beer
// stands, in numbers and in words, what the author says of it, and the smallest
// change that would mend it. Nothing is forbidden: a verdict advises, and the
// severity is the author's own. What the recipe doesn't say is unknown, with a
// phrase that says what is missing; it is never guessed.
//
// The rules are read by package style. Which of several changes is the better
// beer is not judged here: a mend looks at its own rule alone and may touch
// another, so judge again after it.
package judge
