// SPDX-License-Identifier: MIT

// Package gyle holds the gyle document: the record of one brewing, from the
// weighing-out to the last bottle. It has a snapshot of the plan that was
// brewed to and a log that only grows.
//
// The log keeps every reading exactly as it was read, with the temperature of
// the sample, the instrument and the place; every deed (grain in, hops in,
// pitch); interruptions, notes, choices. Nothing is overwritten: a correction
// is an entry of its own that points at the one it corrects, and [Log.Current]
// shows both. Logs of several devices are brought together by [Merge].
//
// The package computes nothing. It knows that "26,4 @95" is a volume read hot,
// not how large it is when cold; that is the business of science/gravity and of
// package reconstruct. What a brew day looks like is the business of package day.
package gyle
