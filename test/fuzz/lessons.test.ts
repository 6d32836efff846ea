import assert from 'node:assert/strict';
import fc from 'fast-check';
import { Session, analyze } from '../../server/src/analyze.ts';
import { wordsOf } from '../../server/src/syntax/patterns.ts';
import { slotKinds } from '../../server/src/syntax/slots.ts';
import { statements } from '../../server/src/syntax/statements.ts';
import { formatText } from '../../server/src/syntax/format.ts';
import { startOfLine } from '../../server/src/syntax/format-lines.ts';
import { formatRange, formatTyped, TYPED } from '../../server/src/syntax/format-range.ts';
import { applyEdits } from '../../server/src/util/edits.ts';
import { Dice } from '../support/dice.ts';
import { losses } from '../support/format-losses.ts';
import { generateLesson } from '../support/generate-lesson.ts';
import { mutate, roughen } from '../support/mutate.ts';
import { problemsOf } from '../support/syntax-outline.ts';
import { meaningOf } from '../support/meaning.ts';
import { checkFindings, checkFormatting, plain, useAll, useFeatures } from '../support/use-all.ts';

/** How often each property is tried; the usual budget is some twenty seconds for all of them together. */
const RUNS = Number(process.env.FUZZ_RUNS ?? 100);
/** To try again what a failure reports. */
const SEED = process.env.FUZZ_SEED === undefined ? undefined : Number(process.env.FUZZ_SEED);

const seeds = fc.integer({ min: 0, max: 0x7fff_ffff });

/** Tries a property; what fails is reported with its seed. `share` of the runs, for properties that are dear or cheap. */
function holds<Value>(values: fc.Arbitrary<Value>, property: (value: Value) => void, share = 1): void {
  const numRuns = Math.max(1, Math.round(RUNS * share));
  fc.assert(
    fc.property(values, (value) => property(value)),
    { numRuns, ...(SEED === undefined ? {} : { seed: SEED }) },
  );
}

/** Words and signs that mean something somewhere, and some that mean nothing anywhere. */
const VOCABULARY: readonly string[] = [
  ...new Set(
    [
      statements.flatMap((form) => [form.keyword, ...wordsOf(form.head)]),
      statements.flatMap((form) => form.body.flatMap((line) => [line.keyword ?? '|', ...wordsOf(line.pattern)])),
      Object.values(slotKinds).map((kind) => kind.example),
      [
        'verse',
        'x02210',
        'p(bass)',
        'a1>',
        '+1#',
        '<12>',
        '{verse.1.chord}',
        '; allow stretch-wide',
        '♭3',
        '|',
        ':',
        ',',
      ],
      ['"', '“', '(', ')', '0', '-', '99999', '-1', '1/0', '0/4', 'H', '', '\t', '\u00a0', '%%', '__proto__', '🎸'],
    ].flat(),
  ),
];

/** Texts of words that come in no order at all, now and then with an indent. */
const soup = fc
  .array(fc.array(fc.constantFrom(...VOCABULARY), { maxLength: 9 }), { maxLength: 25 })
  .map((lines) => lines.map((words, i) => (i % 3 === 0 ? '' : '  ') + words.join(' ')).join('\n'));

const noise = fc.string({ unit: 'binary', maxLength: 400 });
const lines = fc
  .array(fc.string({ unit: fc.constantFrom(...' \t\n\r;|:,"()abGR#5/-+'), maxLength: 30 }), { maxLength: 20 })
  .map((some) => some.join('\n'));

describe('any text at all', function () {
  this.timeout(600_000);

  for (const [name, texts] of [
    ['noise', noise],
    ['lines of signs', lines],
    ['a soup of words', soup],
  ] as const) {
    it(`${name} is read, formatted and drawn`, () => {
      holds(texts, (text) => void useAll(text, new Session()), 4);
    });
  }
});

describe('generated lessons', function () {
  this.timeout(600_000);

  it('read without a problem, and can be used', () => {
    holds(seeds, (seed) => {
      const text = generateLesson(seed);
      assert.deepEqual(problemsOf(text), []);
      useAll(text, new Session());
    });
  });
  it('can be used with slips and after accidents', () => {
    holds(seeds, (seed) => {
      useAll(generateLesson(seed, { only: 'broken' }), new Session());
      useAll(mutate(generateLesson(seed), seed), new Session());
    });
  });
  it('come out the same however they were laid out', () => {
    holds(
      seeds,
      (seed) => {
        const text = formatText(generateLesson(seed));
        assert.equal(formatText(roughen(text, seed)), text);
      },
      2,
    );
  });
  it('mean the same when they are formatted', () => {
    holds(seeds, (seed) => {
      for (const text of [
        generateLesson(seed),
        mutate(generateLesson(seed), seed),
        generateLesson(seed, { only: 'broken' }),
      ]) {
        checkFormatting(text);
        assert.deepEqual(meaningOf(formatText(text)), meaningOf(text));
      }
    });
  });
  it('say the same when a part of them is laid out, chosen or just written', () => {
    holds(seeds, (seed) => {
      const text = mutate(roughen(generateLesson(seed), seed), seed);
      const dice = new Dice(seed);
      const start = dice.between(0, text.length);
      const range = formatRange(text, { start, end: dice.between(start, text.length) });
      assert.deepEqual(losses(text, applyEdits(text, range)), []);
      for (const typed of TYPED) {
        const edits = formatTyped(text, start, typed);
        // The cursor's own line may join a body by its indent; what stands above says what it said.
        const above = edits.filter(({ span }) => span.end < startOfLine(text, start));
        assert.deepEqual(losses(text, applyEdits(text, above)), []);
      }
    });
  });
  it('mean the same after edits as from a cold start', () => {
    holds(
      seeds,
      (seed) => {
        const session = new Session();
        let text = generateLesson(seed);
        for (let edit = 0; edit < 4; edit++) {
          const warm = analyze(text, session);
          const cold = analyze(text);
          assert.deepEqual(plain(warm.findings), plain(cold.findings));
          assert.deepEqual(plain(warm.score), plain(cold.score));
          text = mutate(text, seed + edit);
        }
      },
      0.5,
    );
  });
  it('answer an editor at any place, whole or broken', () => {
    holds(
      seeds,
      (seed) => {
        const text = mutate(generateLesson(seed), seed);
        const analysis = analyze(text);
        const dice = new Dice(seed);
        for (let asked = 0; asked < 8; asked++) useFeatures(analysis, dice.between(0, text.length));
      },
      0.5,
    );
  });
  it('can be used after every fix', () => {
    holds(
      seeds,
      (seed) => {
        const text = generateLesson(seed, { only: 'broken' });
        for (const { fixes } of analyze(text).findings.slice(0, 12))
          for (const fix of fixes) checkFindings(analyze(applyEdits(text, fix.edits)));
      },
      0.15,
    );
  });
});
