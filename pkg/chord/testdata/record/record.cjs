// Writes ../recorded.json: every spelling below on every root, and the notes
// each library reads; null where it refuses the symbol.
const fs = require('fs');
const { Chord } = require('tonal');
const { chordParserFactory } = require('chord-symbol/lib/chord-symbol.js');

const roots = ['C', 'F#', 'Bb', 'Eb', 'A', 'Db', 'G', 'B'];

const spellings = `
  "" M maj m min - dim ° o aug + sus sus4 sus2 sus24 5
  6 M6 m6 -6 6/9 69 m69 m6/9 add9 add2 2 (add9) madd9 m(add9) add11 add13 add4 4 (b6) m(b6)
  7 maj7 M7 ma7 Maj7 Δ Δ7 m7 min7 mi7 -7 dim7 °7 o7 ø ø7 m7b5 m7(b5) min7(b5) -7b5 -7(b5) m7-5
  mM7 m/maj7 m(maj7) mMaj7 mΔ7 -Δ7 -maj7 oM7 dim(maj7)
  +7 aug7 7#5 7(#5) 7+5 7aug 7b5 7(b5) 7-5 maj7#5 M7#5 maj7(#5) maj7b5 M7b5 +M7 +maj7
  9 maj9 M9 Δ9 m9 -9 mM9 mMaj9 9#5 9b5 m9b5 m9(b5) maj9#5 maj9#11 9#11 9b13 dim9 ø9
  11 maj11 m11 -11 m11b5 m11(b5) 7(11) m7(11) m7add11 m(11)
  13 maj13 m13 13#11 maj13#11 13b9 13#9 13b5 9(13) 7(13) 7add13 7(b9,13)
  7b9 7(b9) 7#9 7(#9) 7b9#11 7(b9,#11) 7b9b13 7#9b13 7(#9,b13) 7#11 7(#11) maj7#11 M7#11 maj7(#11) 7b13 7(b13) 7b5b9 7b9b5 7#5#9 7#5b9 7(b9,#5) 7b9#9
  7alt alt 7sus 7sus4 9sus 9sus4 13sus 13sus4 maj7sus4 M9sus4 7sus(b9) 7sus4(b9) 7b9sus4 13sus(b9) sus4add9 sus(b9) sus9
  7no5 7omit5 9no5 13no5 7(no5) no3 7omit3 7add6 m#5 m7#5 +add9 6#11 69#11 6/9#11
`.trim().split(/\s+/).map(s => s === '""' ? '' : s);

const basses = ['C/E', 'C7/Bb', 'F#m7/E', 'Bb/C', 'Ebmaj7/G', 'A7b9/C#', 'Dm7b5/Ab', 'G13/B', 'C6/9/E'];

const version = name => require(`${name}/package.json`).version;
const parse = chordParserFactory();

function viaTonal(symbol) {
  const c = Chord.get(symbol);
  return c.empty ? null : c.notes;
}

function viaChordSymbol(symbol) {
  const c = parse(symbol);
  return c.error ? null : c.normalized.notes;
}

const symbols = [...roots.flatMap(r => spellings.map(s => r + s)), ...basses];
const lines = symbols.map(symbol => JSON.stringify({ symbol, tonal: viaTonal(symbol), chordSymbol: viaChordSymbol(symbol) }));
const versions = JSON.stringify({ tonal: version('tonal'), chordSymbol: version('chord-symbol') });
fs.writeFileSync(`${__dirname}/../recorded.json`, `{"versions": ${versions},\n"symbols": [\n${lines.join(',\n')}\n]}\n`);
