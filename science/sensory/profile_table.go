// SPDX-License-Identifier: MIT

package sensory

import "math"

// ProfileTable is the analysis of one attribute that every assessor scored for
// every beer, equally often.
type ProfileTable struct {
	Assessors, Beers, Repeats int
	Means                     []float64 // of each beer

	// Sums of squares of assessors, beers, their interaction and repeats.
	SumAssessors, SumBeers, SumInteraction, SumRepeats float64

	F, P                       float64 // do the beers differ?
	FInteraction, PInteraction float64 // do the assessors disagree? NaN without repeats
}

// AnalyseProfile tests whether the beers differ in one attribute. Assessors are
// a sample of all who might taste, so the beers are measured against how much
// assessors disagree about them (the interaction), not against the repeats:
// that would take a few people for everybody. Scores[i][j] are the scores of
// assessor i for beer j.
//
//	SSassessor = k·r·Σ(ȳi.. − ȳ)²,  SSbeer = a·r·Σ(ȳ.j. − ȳ)²
//	SSinteraction = r·Σ(ȳij. − ȳi.. − ȳ.j. + ȳ)²,  SSrepeat = Σ(yijl − ȳij.)²
//	F = (SSbeer/(k − 1))/(SSinteraction/((a − 1)·(k − 1)))
//
// Units: squares of the scale; a assessors, k beers, r repeats.
//
//   - Source: naes1998, the choice of the error, from memory; iso13299, from memory.
//   - Valid: complete tables, scores of roughly normal scatter.
//   - Check: 5 assessors, 3 beers, 2 repeats: SS 1175.8, 1667.4667, 127.2, 147.0, F 52.436, p 2.524e-5; interaction F 1.622, p 0.1996; against R's aov.
//   - Tag: computed
func AnalyseProfile(scores [][][]float64) (ProfileTable, error) {
	if err := checkCells(scores); err != nil {
		return ProfileTable{}, err
	}
	t := ProfileTable{Assessors: len(scores), Beers: len(scores[0]), Repeats: len(scores[0][0])}
	a, k, r := float64(t.Assessors), float64(t.Beers), float64(t.Repeats)
	cells := make([][]float64, t.Assessors)
	assessors, beers, grand := make([]float64, t.Assessors), make([]float64, t.Beers), 0.0
	for i, row := range scores {
		cells[i] = make([]float64, t.Beers)
		for j, cell := range row {
			m := mean(cell)
			cells[i][j] = m
			assessors[i] += m / k
			beers[j] += m / a
			grand += m / (a * k)
			for _, y := range cell {
				t.SumRepeats += (y - m) * (y - m)
			}
		}
	}
	for i, row := range cells {
		t.SumAssessors += k * r * square(assessors[i]-grand)
		for j, m := range row {
			t.SumInteraction += r * square(m-assessors[i]-beers[j]+grand)
		}
	}
	for _, m := range beers {
		t.SumBeers += a * r * square(m-grand)
	}
	t.Means = beers
	t.test()
	return t, nil
}

func (t *ProfileTable) test() {
	df1, df2 := float64(t.Beers-1), t.errorDF()
	t.F = t.SumBeers / df1 / t.errorMean()
	t.P = ratingFTail(t.F, df1, df2)
	t.FInteraction, t.PInteraction = math.NaN(), math.NaN()
	if t.Repeats > 1 {
		repeats := float64(t.Assessors * t.Beers * (t.Repeats - 1))
		t.FInteraction = t.errorMean() / (t.SumRepeats / repeats)
		t.PInteraction = ratingFTail(t.FInteraction, df2, repeats)
	}
}

func (t ProfileTable) errorDF() float64   { return float64((t.Assessors - 1) * (t.Beers - 1)) }
func (t ProfileTable) errorMean() float64 { return t.SumInteraction / t.errorDF() }

// LSD returns how far two means must lie apart to differ at a level, each pair
// judged alone.
//
//	LSD = t(1 − α/2; (a − 1)·(k − 1))·√(2·MSinteraction/(a·r))
//
// Units: those of the scale.
//
//   - Source: fisherdesign1935, method, from memory.
//   - Valid: after [AnalyseProfile] found a difference.
//   - Check: the table of [AnalyseProfile] gives 4.112.
//   - Tag: computed
func (t ProfileTable) LSD(alpha float64) float64 {
	return ratingStudentQuantile(alpha, t.errorDF()) * math.Sqrt(2*t.errorMean()/float64(t.Assessors*t.Repeats))
}

// HSD returns how far two means must lie apart to differ at a level, all pairs
// judged together.
//
//	HSD = q(α; k, (a − 1)·(k − 1))·√(MSinteraction/(a·r))
//
// Units: those of the scale; q is the studentised range.
//
//   - Source: tukey1949, from memory.
//   - Valid: as [AnalyseProfile].
//   - Check: the table of [AnalyseProfile] gives 5.096.
//   - Tag: computed
func (t ProfileTable) HSD(alpha float64) float64 {
	return StudentisedRange(alpha, t.Beers, t.errorDF()) * math.Sqrt(t.errorMean()/float64(t.Assessors*t.Repeats))
}

func mean(x []float64) float64 {
	sum := 0.0
	for _, y := range x {
		sum += y
	}
	return sum / float64(len(x))
}

// variance returns the variance of a sample, by n − 1.
func variance(x []float64) float64 {
	m, sum := mean(x), 0.0
	for _, y := range x {
		sum += square(y - m)
	}
	return sum / float64(len(x)-1)
}

func square(x float64) float64 { return x * x }
