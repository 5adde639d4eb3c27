// SPDX-License-Identifier: MIT

// Package day lays a brew day out in time and says what can be done when a
// reading misses the plan.
//
// [Of] makes the day of one gyle from the snapshot of its plan and the log so
// far: the tasks from the weighing-out to the pitching on one time axis, each
// with its clock time and its numbers. What has happened is read from the log,
// and a slip pushes everything behind it. [Together] lays several gyles side by
// side and names the person or vessel that two of them want at once.
//
// At a reading that misses the plan there are options, not orders: FullKettle,
// KnockOut, Strike, MashPH, Tripped and SlowCooling give two to four tickets
// each, with what the beer would be and what it costs. Which one is taken is
// the brewer's choice and an entry of the log.
//
// The day rests on the snapshot alone, so that an old gyle looks as it did; the
// options need the plan itself, for its kinetics.
package day
