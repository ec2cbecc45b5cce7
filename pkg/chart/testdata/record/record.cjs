// Writes ../keys.json: the chords of the keys with at most seven sharps or
// flats, and the notes of chords on their tonics.
const fs = require('fs');
const { Chord, Key } = require('tonal');

const major = ['Cb', 'Gb', 'Db', 'Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#'];
const minor = ['Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#', 'G#', 'D#', 'A#'];

// Our name of a quality, and the library's where that is another.
const qualities = [
  ['', 'M'], ['m'], ['dim'], ['aug'], ['sus4'], ['sus2'], ['5'], ['6'], ['m6'], ['6/9', '69'], ['m6/9', 'm69'], ['maj7'], ['7'], ['m7'], ['m7b5'],
  ['dim7'], ['m(maj7)', 'mMaj7'], ['7#5'], ['7b5'], ['maj7#5'], ['maj7#11'], ['7sus4'], ['9'], ['maj9'], ['m9'], ['9sus4'], ['11'], ['m11'], ['13'], ['7alt'],
  ['add9', 'Madd9'], ['7b9'], ['7#9'], ['7#11'], ['7b9#11'], ['13#11'],
];

const rows = {
  version: require('tonal/package.json').version,
  major: major.map(tonic => {
    const k = Key.majorKey(tonic);
    return { tonic, chords: k.chords, dominants: k.secondaryDominants.filter(c => c), supertonics: k.secondaryDominantSupertonics.filter(c => c) };
  }),
  minor: minor.map(tonic => {
    const k = Key.minorKey(tonic);
    return { tonic, natural: k.natural.chords, harmonic: k.harmonic.chords, melodic: k.melodic.chords };
  }),
  notes: [...new Set([...major, ...minor])].flatMap(tonic => qualities.map(([ours, theirs]) => {
    const c = Chord.get(tonic + (theirs ?? ours));
    if (c.empty) throw new Error(tonic + ours);
    return { tonic, quality: ours, notes: c.notes };
  })),
};
const list = name => `"${name}": [\n${rows[name].map(r => JSON.stringify(r)).join(',\n')}\n]`;
fs.writeFileSync(`${__dirname}/../keys.json`, `{"version": "${rows.version}",\n${['major', 'minor', 'notes'].map(list).join(',\n')}\n}\n`);
