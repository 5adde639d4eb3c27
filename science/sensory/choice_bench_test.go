// SPDX-License-Identifier: MIT

package sensory

import "testing"

func BenchmarkTest(b *testing.B) {
	for _, protocol := range Protocols() {
		b.Run(string(protocol), func(b *testing.B) {
			for b.Loop() {
				Choice{protocol, 25, 40}.Test(0.05)
			}
		})
	}
}

func BenchmarkJudge(b *testing.B) {
	for b.Loop() {
		Choice{Triangle, 17, 40}.Judge(Rule{Alpha: 0.05, Limit: 0.2, Beta: 0.1})
	}
}

func BenchmarkRecognition(b *testing.B) {
	r := Recognition{20, 24, 12, 24}
	b.Run("test", func(b *testing.B) {
		for b.Loop() {
			r.P()
			r.Distance()
		}
	})
	b.Run("interval", func(b *testing.B) {
		for b.Loop() {
			r.DistanceInterval(0.95)
		}
	})
}

func BenchmarkBelief(b *testing.B) {
	for b.Loop() {
		belief := Choice{Triangle, 7, 12}.Belief()
		belief.BayesFactor()
		belief.Interval(0.95)
	}
}

func BenchmarkLiking(b *testing.B) {
	for b.Loop() {
		Votes{4, 5, 11}.Liking(0.95)
	}
}

func BenchmarkSessions(b *testing.B) {
	s := Sessions{{Triangle, 5, 10}, {Triangle, 6, 12}, {Triangle, 15, 18}}
	b.Run("p", func(b *testing.B) {
		for b.Loop() {
			s.P()
		}
	})
	b.Run("homogeneity", func(b *testing.B) {
		for b.Loop() {
			s.Homogeneity()
		}
	})
	b.Run("common", func(b *testing.B) {
		for b.Loop() {
			s.Common(0.95)
		}
	})
}

func BenchmarkReplicates(b *testing.B) {
	r := Replicates{Protocol: Triangle}
	for _, right := range []int{2, 3, 1, 3, 3, 0, 2, 3, 1, 2, 3, 1, 0, 3, 2} {
		r.Assessors = append(r.Assessors, Answered{right, 3})
	}
	b.Run("dispersion", func(b *testing.B) {
		for b.Loop() {
			r.Dispersion()
		}
	})
	b.Run("fit", func(b *testing.B) {
		for b.Loop() {
			r.CorrectedBetaBinomial()
		}
	})
}

func BenchmarkPositions(b *testing.B) {
	for b.Loop() {
		Positions{5, 7, 12}.Bias()
	}
}

func BenchmarkPanelSize(b *testing.B) {
	for b.Loop() {
		Design{Triangle, 0.05}.PanelSize(0.8, Triangle.AtShare(0.3))
	}
}

func BenchmarkTwoStage(b *testing.B) {
	for b.Loop() {
		Design{Triangle, 0.05}.TwoStage(18, 36)
	}
}
