/** What must hold of every lesson in every key. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { analyze } from '../../server/src/analyze.ts';
import type { ShapeRule } from '../../server/src/lesson/lesson.ts';
import { readDocument } from '../../server/src/syntax/document.ts';
import { formatText } from '../../server/src/syntax/format.ts';
import { isGroup, type Line, type Part } from '../../server/src/syntax/tree.ts';
import { sameSymbol, transposeChord } from '../../server/src/theory/chord.ts';
import { keyOf, type Key } from '../../server/src/theory/key.ts';
import { parseNoteName, semitone } from '../../server/src/theory/note.ts';
import { intervalBetween } from '../../server/src/transpose/interval.ts';
import type { LossKind } from '../../server/src/transpose/transpose.ts';
import { generateLesson } from '../support/generate-lesson.ts';
import { mutate } from '../support/mutate.ts';
import { capoed, statedSettings, transposed } from '../support/transposed.ts';

const seeds = fc.integer({ min: 0, max: 0x7fff_ffff });
const tonics = fc.constantFrom(...'C C# Db D Eb E F F# Gb G Ab A Bb B Cb'.split(' '));

const inModeOf = (text: string, tonic: string): Key => keyOf(parseNoteName(tonic)!, statedSettings(text).key.mode)!;

/** The quick suite tries a few; `FUZZ_RUNS` lessons of the slow one take their place. */
const RUNS = Number(process.env.FUZZ_RUNS ?? 25);

function holds(runs: number, property: (seed: number, tonic: string) => void): void {
  fc.assert(fc.property(seeds, tonics, property), { numRuns: runs });
}

/** Fret lists in one spelling: with hyphens or without they are the same frets. */
const withoutHyphens = (text: string): string =>
  text.replace(/\b(?:[x\d]{1,2}-){2,}[x\d]{1,2}\b/g, (list) =>
    list.split('-').every((fret) => fret.length === 1) ? list.replaceAll('-', '') : list,
  );

/** What cannot be found again on the way back. */
const LOST: readonly LossKind[] = ['neck', 'spelling', 'fingers'];

/** The tree without words and places: statements, lines, groups and slots. */
function shapeOfText(text: string): readonly unknown[] {
  const ofPart = (part: Part): unknown => (isGroup(part) ? [part.label, ...part.parts.map(ofPart)] : part.label);
  const ofLine = (line: Line): unknown => [line.form, line.broken, ...line.parts.map(ofPart)];
  return readDocument(text).statements.map(({ tree }) => [tree.keyword, ofLine(tree.head), ...tree.body.map(ofLine)]);
}

describe('a lesson in another key', function () {
  this.timeout(120_000);

  it('is the same text again on the way back, where nothing was said to be lost', () => {
    let returned = 0;
    holds(RUNS, (seed, tonic) => {
      const text = formatText(generateLesson(seed));
      const there = transposed(text, inModeOf(text, tonic));
      const back = transposed(there.text, statedSettings(text).key);
      if ([...there.losses, ...back.losses].some(({ kind }) => LOST.includes(kind))) return;
      returned++;
      assert.equal(withoutHyphens(formatText(back.text)), withoutHyphens(text));
    });
    // About half of them hold nothing that is lost on the way.
    assert.ok(returned > RUNS / 5, `only ${returned} of ${RUNS} came back`);
  });

  it('reads as the same tree, and every word of it as something', () => {
    holds(RUNS, (seed, tonic) => {
      const text = generateLesson(seed);
      const { text: moved, losses } = transposed(text, inModeOf(text, tonic));
      if (losses.some(({ kind }) => kind === 'fingers')) return;
      assert.deepEqual(shapeOfText(moved), shapeOfText(text));
    });
  });

  it('has the chords and keys of the interval, in every bar', () => {
    holds(Math.ceil(RUNS / 5), (seed, tonic) => {
      const text = generateLesson(seed);
      const to = inModeOf(text, tonic);
      const { text: moved, losses } = transposed(text, to);
      if (losses.some(({ kind }) => kind === 'spelling')) return;
      const [before, after] = [analyze(text).lesson, analyze(moved).lesson];
      const { letters, semitones } = intervalBetween(before.settings.key, to);
      assert.deepEqual(after.settings.key, to);
      for (const [s, { plan }] of before.sections.entries()) {
        for (const [b, bar] of plan.bars.entries()) {
          for (const [c, { chord, scale }] of bar.chords.entries()) {
            const other = after.sections[s].plan.bars[b].chords[c];
            assert.equal(other.chord === undefined, chord === undefined);
            if (chord && other.chord)
              assert.ok(sameSymbol(other.chord, transposeChord(chord, letters, semitones)), `${chord.symbol} ${tonic}`);
            assert.equal(other.scale.length, scale.length);
          }
        }
      }
    });
  });

  it('sounds an interval away on every string whose tone a rule or a grip settles, where none rings open by rule', () => {
    let compared = 0;
    const settled = (rule: ShapeRule): boolean =>
      rule.open.length === 0 && rule.open !== 'any' && (rule.tones?.every((tone) => tone !== 'any') ?? false);
    holds(60, (seed, tonic) => {
      const text = generateLesson(seed);
      const to = inModeOf(text, tonic);
      const { text: moved, losses } = transposed(text, to);
      if (losses.some(({ kind }) => kind === 'neck')) return;
      const [before, after] = [analyze(text), analyze(moved)];
      const { semitones } = intervalBetween(before.lesson.settings.key, to);
      for (const [s, { plan }] of before.lesson.sections.entries()) {
        for (const [b, bar] of plan.bars.entries()) {
          for (const [c, planned] of bar.chords.entries()) {
            if (planned.rule !== undefined && !settled(plan.rules[planned.rule])) continue;
            const [was, is] = [before, after].map(({ score }) => score.sections[s].bars[b].chords[c].voicing);
            if (!was || !is) continue;
            compared++;
            assert.deepEqual(
              is.strings.map(({ string, midi }) => [string, midi % 12]),
              was.strings.map(({ string, midi }) => [string, (midi + semitones) % 12]),
            );
          }
        }
      }
    });
    assert.ok(compared > 5, `only ${compared} chords were compared`);
  });

  it('tells of each grip and pin whose open strings are pressed or left', () => {
    holds(RUNS, (seed, tonic) => {
      const text = generateLesson(seed);
      const to = inModeOf(text, tonic);
      if (semitone(to.tonic) === semitone(statedSettings(text).key.tonic)) return;
      const { losses } = transposed(text, to);
      const told = (start: number): boolean =>
        losses.some(({ kind, span }) => (kind === 'open' || kind === 'neck') && span.start === start);
      for (const found of text.matchAll(/(?:^grip \S+ |\bas )([x\d-]+)/gm)) {
        const rings = found[1].split(found[1].includes('-') ? '-' : '').includes('0');
        if (rings) assert.ok(told(found.index + found[0].length - found[1].length), found[0]);
      }
    });
  });

  it('is some text whatever the text was, and edits that do not overlap', () => {
    holds(150, (seed, tonic) => {
      const text = mutate(generateLesson(seed, { only: 'broken' }), seed);
      const to = inModeOf(text, tonic);
      for (const { losses } of [transposed(text, to), capoed(text, to)]) {
        for (const { span } of losses) assert.ok(0 <= span.start && span.start <= span.end && span.end <= text.length);
      }
    });
  });
});

describe('a lesson under another capo', function () {
  this.timeout(120_000);

  it('differs in the line of the capo alone, and sounds in the key', () => {
    holds(100, (seed, tonic) => {
      const text = generateLesson(seed);
      const to = inModeOf(text, tonic);
      const { text: moved } = capoed(text, to);
      const lines = (one: string): readonly string[] => one.split('\n').filter((line) => !/^(no )?capo\b/.test(line));
      assert.deepEqual(lines(moved), lines(text));
      const [before, after] = [statedSettings(text), statedSettings(moved)];
      const { capo } = before.instrument;
      if (capo?.strings) return;
      // Both sound as far above their shapes as the capo lies: what it was is taken off, what it is put on.
      const risen = (after.instrument.capo?.fret ?? 0) - (capo?.fret ?? 0);
      const half = before.instrument.tuning.name === 'half-step-down' ? -1 : 0;
      const sounding = semitone(before.key.tonic) + half + (capo?.fret ?? 0) + risen;
      assert.equal((sounding + 24) % 12, semitone(to.tonic));
    });
  });
});
