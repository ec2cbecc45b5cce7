// Package key models keys, modes and scales as they are spelled, and the
// chords that belong to them.
//
//	k := key.MustParse("Eb major")
//	k.Signature() // -3
//	k.Sevenths()  // Ebmaj7 Fm7 Gm7 Abmaj7 Bb7 Cm7 Dm7b5
//
// A [Key] is a tonic and a [Mode]: major, minor, dorian, phrygian, lydian,
// mixolydian. Its signature may lie beyond seven sharps or flats; such keys are
// answered like others, and [Key.Simplify] names the one that is written
// instead, [Key.InUse] the one that players know. An [Instrument] has the key of
// its part, a [Cycle] all twelve. Minor as a mode of keys means all its forms;
// where one scale has to stand for it, it is the natural.
//
// A [Scale] is a tonic and a [ScaleKind], one of the modes of the major, melodic
// minor and harmonic minor scales or one of the scales of other than seven
// notes that players use over chords. Melodic minor is the ascending form. The
// chords of harmonic and melodic minor come from their scales:
//
//	key.HarmonicMinorScale.On(k.Tonic()).Sevenths()
//
// Degrees count from the major scale of the tonic in every mode: Eb in C minor
// is b3. A tonic is always written in upper case.
//
// Which key a chord progression is in, and which scale goes with a chord there,
// is out of scope: that depends on the chords around it.
//
// Signatures, scales and diatonic chords follow Robert Hutchinson, Music Theory
// for the 21st-Century Classroom, chapters 2, 3, 7, 8 and 31.
package key
