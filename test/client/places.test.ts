/** The cursor in the text, and what of the preview it is at. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { chordAt, idsAt, textAt } from '../../client/media/places.ts';
import { analyze } from '../../server/src/analyze.ts';
import { previewOf } from '../../server/src/features/preview.ts';

/** The preview of a text, and where its `<|>` is. */
function at(text: string) {
  const analysis = analyze(text.replace('<|>', ''));
  return { ...previewOf(analysis, 900), cursor: analysis.lines.positionAt(text.indexOf('<|>')) };
}

const bars = (text: string): readonly string[] => {
  const { bars: all, cursor } = at(text);
  return idsAt(all, cursor);
};
const chord = (text: string) => {
  const { bars: all, cursor } = at(text);
  return chordAt(all, cursor);
};

const LESSON = (line: string, more = ''): string =>
  `key C major\nprogression p\n  ${line}\nsection verse\n  progression p\n${more}`;

describe('A cursor in the text', () => {
  it('is at the bar whose words hold it, and at a bar line at the one before', () => {
    assert.deepEqual(bars(LESSON('C | <|>G | F')), ['verse.2']);
    assert.deepEqual(bars(LESSON('C | G <|>| F')), ['verse.2']);
    assert.deepEqual(bars(LESSON('C | G | F', 'no<|>te\n  Words.\n')), []);
    assert.deepEqual(bars(LESSON('C | G | F').replace('  C |', '<|>  C |')), ['verse.1']);
  });
  it('is at the chord that holds it', () => {
    assert.deepEqual(chord(LESSON('C | G Am<|> at 5 F | C')), { bar: 'verse.2', chord: 1 });
    assert.deepEqual(chord(LESSON('C | G Am at<|> 5 F | C')), { bar: 'verse.2', chord: 1 });
    assert.deepEqual(chord(LESSON('C | <|>G Am | C')), { bar: 'verse.2', chord: 0 });
    assert.equal(chord(LESSON('C', '<|>\n')), undefined);
  });
  it('is at the bar that a prose tells of', () => {
    const text = LESSON('C | G', 'text\n  Over {verse.2.ch<|>ord} it rings.\n');
    assert.deepEqual(bars(text), ['verse.2']);
    assert.deepEqual(chord(text), { bar: 'verse.2', chord: 0 });
  });
  it('is in a prose or at a step', () => {
    const lamps = readFileSync('samples/harbour-lamps.lesson', 'utf8');
    const found = (words: string) => {
      const { texts, cursor } = at(lamps.replace(words, `${words}<|>`));
      const { block, step } = textAt(texts, cursor) ?? {};
      return [block, step];
    };
    assert.deepEqual(found('What the open'), ['text/1', undefined]);
    assert.deepEqual(found('step "The ripple"'), ['practice', 1]);
    assert.deepEqual(found('at 60 for 3 minutes\n'), ['practice', 1]);
    assert.deepEqual(found('capo'), [undefined, undefined]);
  });
});
