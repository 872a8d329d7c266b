// A general-purpose multi-pitch estimator (A. Klapuri, 2006, in essentia.js) on recorded mixes with known truth, for comparison with `-- accuracy`.
//   npm install --prefix FOLDER essentia.js && node tests/tools/multi_pitch.mjs FOLDER/node_modules/essentia.js MIXES [_plain|_coupled]
// MIXES holds mix_NN_*.flac, truth.csv and truth_tracks.csv. Needs node and sox. It knows no roles: any two of its pitches in a frame may serve.
import { execFileSync } from 'node:child_process';
import { readFileSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';

const [library, folder, pattern = '_plain'] = process.argv.slice(2);
if (!library || !folder) {
  console.error('usage: multi_pitch.mjs ESSENTIA_FOLDER MIXES [PATTERN]');
  process.exit(2);
}

const require = createRequire(import.meta.url);
const { Essentia, EssentiaWASM } = require(resolve(library));
const essentia = new Essentia(EssentiaWASM);
const rate = 44100, frame = 8192, hop = 441;
const rows = file => readFileSync(join(folder, file), 'utf8').trim().split(/\r?\n/).slice(1).map(line => line.split(','));
const heading = readFileSync(join(folder, 'truth.csv'), 'utf8').split(/\r?\n/)[0].split(',');
const intervals = new Map(rows('truth.csv').map(row => [row[heading.indexOf('mix')], row[heading.indexOf('interval')]]));
const tracks = new Map();
for (const [mix, time, played, sung] of rows('truth_tracks.csv')) {
  if (!tracks.has(mix)) tracks.set(mix, []);
  tracks.get(mix).push({ time: +time, played: +played, sung: +sung });
}

const median = list => list.toSorted((a, b) => a - b)[list.length >> 1];
const apart = (a, b) => Math.abs(1200 * Math.log2(a / b));
const total = { frames: 0, both: 0, one: 0 };
for (const file of readdirSync(folder).filter(name => name.endsWith('.flac') && name.includes(pattern)).toSorted()) {
  const mix = file.split('_')[1];
  if (intervals.get(mix).startsWith('unison')) continue;
  const raw = execFileSync('sox', [join(folder, file), '-t', 'raw', '-e', 'floating-point', '-b', '32', '-r', `${rate}`, '-c', '1', '-'], { maxBuffer: 1 << 28 });
  const sound = essentia.arrayToVector(new Float32Array(raw.buffer, raw.byteOffset, raw.length / 4));
  const found = essentia.MultiPitchKlapuri(sound, 10, frame, 0.8, hop, 1, 40, 1760, 40, 10, 55, rate).pitch;
  const truth = tracks.get(mix);
  let frames = 0, both = 0, one = 0;
  for (let i = 0; i < found.size(); i++) {
    const time = i * hop / rate;
    if (time < truth[0].time + 0.1 || time > truth.at(-1).time - 0.1) continue;
    const near = truth.filter(point => Math.abs(point.time - time) <= 0.05 && point.played && point.sung);
    if (near.length === 0) continue;
    const played = median(near.map(point => point.played)), sung = median(near.map(point => point.sung));
    const pitches = Array.from(essentia.vectorToArray(found.get(i))).filter(hz => hz > 0);
    const hasPlayed = pitches.some(hz => apart(hz, played) <= 25), hasSung = pitches.some(hz => apart(hz, sung) <= 25);
    frames++;
    both += hasPlayed && hasSung;
    one += hasPlayed !== hasSung;
  }
  total.frames += frames, total.both += both, total.one += one;
  console.log(`${file.padEnd(34)} ${intervals.get(mix).padEnd(12)} both within 25 c ${(both / frames).toFixed(2)}   one of them ${(one / frames).toFixed(2)}`);
}
console.log(`all but unisons: both within 25 c in ${(total.both / total.frames).toFixed(3)} of ${total.frames} frames, one of them in ${(total.one / total.frames).toFixed(3)}`);
