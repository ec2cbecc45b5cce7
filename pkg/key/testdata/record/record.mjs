// Writes ../tonal.json: see README.md.
import { readFileSync, writeFileSync } from "node:fs";
import { Key, Scale } from "tonal";

const version = JSON.parse(readFileSync(new URL("node_modules/tonal/package.json", import.meta.url))).version;

const tonics = "C C# Db D D# Eb E F F# Gb G G# Ab A A# Bb B".split(" ");

const kinds = [
  "major", "dorian", "phrygian", "lydian", "mixolydian", "minor", "locrian",
  "melodic minor", "dorian b2", "lydian augmented", "lydian dominant", "mixolydian b6", "locrian #2", "altered",
  "harmonic minor", "locrian 6", "major augmented", "dorian #4", "phrygian dominant", "lydian #9", "ultralocrian",
  "diminished", "half-whole diminished", "whole tone", "major pentatonic", "minor pentatonic", "blues", "bebop",
];

const scales = {};
for (const kind of kinds) {
  scales[kind] = {};
  for (const tonic of tonics) {
    const { empty, notes } = Scale.get(`${tonic} ${kind}`);
    if (empty) throw new Error(`tonal has no ${tonic} ${kind}`);
    scales[kind][tonic] = notes.join(" ");
  }
}

const signatures = { major: {}, minor: {} };
for (const tonic of "Cb Gb Db Ab Eb Bb F C G D A E B F# C#".split(" ")) {
  signatures.major[tonic] = Key.majorKey(tonic).alteration;
}
for (const tonic of "Ab Eb Bb F C G D A E B F# C# G# D# A#".split(" ")) {
  signatures.minor[tonic] = Key.minorKey(tonic).alteration;
}

const out = { source: "tonal", version, scales, signatures };
writeFileSync(new URL("../tonal.json", import.meta.url), JSON.stringify(out, null, 1) + "\n");
