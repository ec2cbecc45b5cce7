// Package evaluate measures how well charts are read: it compares readings with
// those of human analysts, and fits the weights of package function to them.
//
//	pieces, err := evaluate.Read(file)
//	readings := evaluate.Analyze(pieces)
//	var s evaluate.Score
//	for i := range pieces {
//		s = s.Add(evaluate.Compare(&pieces[i], &readings[i]))
//	}
//	s.KeyShare() // 0.81: of a hundred chords, 81 are in the analyst's key
//
// [Read] states the format of annotated pieces. All measures count chords as
// played, whatever their length, and only those that the analyst gave a key;
// silences count nowhere. Keys are the same if their tonics sound alike and
// their thirds agree: annotations know major and minor alone, so dorian counts
// as minor, mixolydian as major. Where only the tonic is the analyst's
// ([Piece.TonicOnly]), it alone decides, in every measure.
//
//   - Key, tonic: the share of chords in the analyst's key; on the same tonic.
//   - Weighted: the mean of the scores that MIREX gives to near misses in its
//     audio key detection task: 1 for the key, 0.5 for the key a fifth above,
//     0.3 for the relative, 0.2 for the parallel key. They are taken chord by
//     chord here, of local keys, where MIREX takes one of a piece; a fifth
//     below counts nothing, as in C. Raffel et al., "mir_eval: a transparent
//     implementation of common MIR metrics", ISMIR 2014.
//   - Changes: F1, the harmonic mean of precision and recall, of key changes.
//     One is found if a change to the same key stands at most one counted chord
//     away; none is used twice. The first key of a piece is no change.
//   - Label: of the chords whose key is right, the share with the analyst's
//     degree and target. Labels are compared as named: VIIdim7/V is not #IVdim7.
//     An augmented sixth counts as bVI.
//   - Applied: F1 of applied chords among those whose key is right; one is found
//     if the same degree is tonicised.
//
// F1 is taken over the counts of all pieces together. [Calibration] tells
// whether confidences mean what they say, with the expected calibration error
// and the Brier score; [Margin] how unlikely we hold the analyst's keys. [Measure]
// takes all of them. [Worst] lists the passages in which reading and analyst
// differ most.
//
// # Another corpus
//
// Write it in the format of [Read], a file for each analyst, and measure it with
// the weights as they are: they have not seen it, so that the figures are honest.
// To fit weights to it,
//
//	examples := evaluate.Weigh([][]evaluate.Piece{pieces}, nil)
//	fit := evaluate.Fit{Start: function.Default(), Pull: evaluate.Pulls(1), Steps: 50}
//	folds, err := fit.Folds(examples, 5)
//
// and look at the results out of fold ([Folds.Out]). Where they fall far behind
// those in fold, pull harder or bring more pieces; where they are no better than
// before, the corpus asks for nothing that the weights do not have. Only then
// fit on all of it, fit.Run(examples). On pieces that the weights have seen
// before, start from [Blank]. [Held] says which terms stay where they are, and
// why. examples/evaluate does all of this from the command line.
package evaluate
