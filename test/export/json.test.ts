/** The JSON of a lesson: its keys, their order, and what a program may rely on. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { lessonJson } from '../../server/src/export/json.ts';

interface Written {
  readonly version: number;
  readonly sections: readonly {
    readonly bars: readonly {
      readonly chords: readonly Record<string, unknown>[];
      readonly events: readonly Record<string, unknown>[];
    }[];
  }[];
  readonly passages: readonly Record<string, unknown>[];
  readonly findings: readonly Record<string, unknown>[];
}

const text = readFileSync('samples/harbour-lamps.lesson', 'utf8');
const written = (lesson: string): Written => JSON.parse(lessonJson(analyze(lesson))) as Written;

describe('A lesson as JSON', () => {
  it('has its keys in one order', () => {
    const json = written(text);
    assert.deepEqual(Object.keys(json), [
      'version',
      'title',
      'settings',
      'sections',
      'form',
      'passages',
      'practice',
      'findings',
      'variants',
    ]);
    assert.equal(json.version, 1);
    const [first] = json.sections[0].bars;
    assert.deepEqual(
      Object.keys(first.chords[0]),
      'symbol start length sounding names frets fingers notes intervals difficulty zone'.split(' '),
    );
    assert.deepEqual(
      Object.keys(first.events[0]),
      'start length ringing string fret note midi voice finger pluck stroke accent'.split(' '),
    );
  });

  it('says what the second bar of the quay sounds', () => {
    // By an independent calculation: x-x-4-0-3-5 is F#3 G3 D4 A4, over D the third, eleventh, root and fifth.
    const [chord] = written(text).sections[0].bars[1].chords;
    assert.equal(chord.symbol, 'D');
    assert.equal(chord.sounding, 'Dadd11/F#');
    assert.equal(chord.frets, 'x-x-4-0-3-5');
    assert.deepEqual(chord.notes, ['F#3', 'G3', 'D4', 'A4']);
    assert.deepEqual(chord.intervals, ['3', '11', '1', '5']);
  });

  it('has the prose with its facts, and what is shown between', () => {
    const body =
      'progression a\n  G | D\nsection s\n  progression a\ntext\n  Bar *one*: {s.1.chord},\n  {s.9.chord}\nshow s bar 2 as tab\n';
    assert.deepEqual(written(body).passages, [
      {
        kind: 'text',
        markdown: 'Bar *one*: {s.1.chord},\n{s.9.chord}',
        facts: [
          { path: 's.1.chord', value: 'G', start: 11, end: 22 },
          { path: 's.9.chord', value: null, start: 24, end: 35 },
        ],
        plain: 'Bar one: G, {s.9.chord}',
      },
      { kind: 'show', section: 's', first: 2, last: 2, view: 'tab' },
    ]);
  });

  it('gives findings their place, lines and UTF-16 characters from 0', () => {
    const [finding] = written('lesson "x"\nkey H major\n').findings;
    assert.deepEqual(Object.keys(finding), ['code', 'severity', 'message', 'range']);
    assert.deepEqual(finding.range, { start: { line: 1, character: 4 }, end: { line: 1, character: 11 } });
  });

  it('is the same from a cold start and ends with a line end', () => {
    assert.equal(lessonJson(analyze(text)), lessonJson(analyze(text)));
    assert.ok(lessonJson(analyze('')).endsWith('}\n'));
  });
});
