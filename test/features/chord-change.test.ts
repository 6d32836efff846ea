/** What a reader chooses in the preview, as an edit of the text: what the lesson plays afterwards is what was chosen. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { changeOf } from '../../server/src/features/chord-change.ts';
import { chordHere } from '../../server/src/features/preview-chord.ts';
import { addressOf } from '../../server/src/features/preview-places.ts';
import { formatFretList } from '../../server/src/fretboard/frets.ts';
import type { PreviewChange } from '../../server/src/protocol.ts';

const LAMPS = readFileSync('samples/harbour-lamps.lesson', 'utf8');
const OPEN =
  'key C major\n\nprogression p\n  C | F at 1 | G held | %\n\nsection s\n  progression p\n  shape open-chords\n';

function changed(text: string, bar: string, change: PreviewChange, chord = 0) {
  const analysis = analyze(text);
  const here = chordHere(analysis, addressOf(analysis, bar, chord)!)!;
  const { says, edits } = changeOf(analysis, here, change);
  let after = text;
  for (const { span, text: words } of [...edits].reverse())
    after = after.slice(0, span.start) + words + after.slice(span.end);
  const again = analyze(after);
  const address = addressOf(again, bar, chord);
  const frets = address && chordHere(again, address)?.score.voicing?.frets;
  const lines = after.split('\n').filter((line, at) => line !== text.split('\n')[at]);
  return { says, after, lines, frets: frets && formatFretList(frets), edits };
}

describe('A voicing that is chosen', () => {
  it('is written behind the chord as frets', () => {
    const { lines, frets, says } = changed(OPEN, 's.1', { kind: 'pin', frets: 'x-3-5-5-5-3' });
    assert.deepEqual(lines, ['  C as x-3-5-5-5-3 | F at 1 | G held | %']);
    assert.equal(frets, 'x-3-5-5-5-3');
    assert.equal(says, 'C as x-3-5-5-5-3');
  });
  it('is written as a position where that says it', () => {
    // The shape of three strings has one voicing of Em a fret position.
    const { lines, frets } = changed(LAMPS, 'verse.3', { kind: 'pin', frets: 'x-x-5-0-5-7' });
    assert.equal(frets, 'x-x-5-0-5-7');
    assert.match(lines[0], /Em at 5 \|/);
  });
  it('takes the place of another pin, and leaves what else is said of the chord', () => {
    assert.deepEqual(changed(OPEN, 's.2', { kind: 'pin', frets: 'x-x-3-2-1-1' }).lines, [
      '  C | F as x-x-3-2-1-1 | G held | %',
    ]);
    assert.deepEqual(changed(OPEN, 's.3', { kind: 'pin', frets: '3-2-0-0-0-3' }).lines, [
      '  C | F at 1 | G as 3-2-0-0-0-3 held | %',
    ]);
  });
  it('is set free again', () => {
    assert.deepEqual(changed(OPEN, 's.2', { kind: 'unpin' }).lines, ['  C | F | G held | %']);
    assert.deepEqual(changed(OPEN, 's.1', { kind: 'unpin' }).edits, []);
  });
  it('is not written where no chord stands, which is said', () => {
    const repeat = changed(OPEN, 's.4', { kind: 'pin', frets: '3-2-0-0-0-3' });
    assert.deepEqual(repeat.edits, []);
    assert.match(repeat.says, /repeats the one before/);
    assert.deepEqual(changed(OPEN, 's.1', { kind: 'pin', frets: 'nonsense' }).edits, []);
    assert.deepEqual(changed(OPEN, 's.1', { kind: 'pin', frets: 'x-3-2' }).edits, []);
  });
  it('tells where else the same words are played', () => {
    const twice = `${OPEN}\nsection t\n  progression p\n`;
    assert.equal(
      changed(twice, 's.1', { kind: 'pin', frets: 'x-3-5-5-5-3' }).says,
      'C as x-3-5-5-5-3; the same words are played at one more place',
    );
  });
});

describe('An open string that is chosen', () => {
  it('joins the shape’s line, or leaves it', () => {
    const added = changed(LAMPS, 'verse.1', { kind: 'open', string: 6, rings: true });
    assert.deepEqual(added.lines, ['  open 6 3']);
    assert.equal(added.says, 'shape lamp: open 6 3');
    const dropped = changed(LAMPS, 'verse.1', { kind: 'open', string: 3, rings: false });
    assert.equal(dropped.after, LAMPS.replace('  open 3\n', ''));
  });
  it('gets a line where the shape had none', () => {
    const without = LAMPS.replace('  open 3\n', '');
    const { after, frets } = changed(without, 'verse.1', { kind: 'open', string: 3, rings: true });
    assert.equal(after, without.replace('  strings 4 2 1\n', '  strings 4 2 1\n  open 3\n'));
    assert.equal(frets, 'x-x-9-0-8-10');
    const windows = changed(without.replaceAll('\n', '\r\n'), 'verse.1', { kind: 'open', string: 3, rings: true });
    assert.match(windows.after, /strings 4 2 1\r\n {2}open 3\r\n/);
  });
  it('is not written into shapes that are not here, nor on strings that carry the chord', () => {
    for (const [text, bar, string] of [
      [OPEN, 's.1', 6],
      [LAMPS, 'verse.1', 1],
    ] as const) {
      const { edits, says } = changed(text, bar, { kind: 'open', string, rings: true });
      assert.deepEqual(edits, []);
      assert.match(says, /no open line/);
    }
  });
});
