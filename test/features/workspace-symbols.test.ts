/** What of a lesson can be looked for by name, and what is near to what is typed. */
import assert from 'node:assert/strict';
import { namedThings, rankOf } from '../../server/src/features/workspace-symbols.ts';
import { readDocument } from '../../server/src/syntax/document.ts';
import { dedented } from '../support/check-features.ts';

describe('names of the workspace', () => {
  it('are titles, sections and variants with theirs, and parts', () => {
    const text = dedented(`
      lesson "Harbour lamps"
        level 3
      use bell from "parts.lesson"
      shape lamp
        strings 4 2 1
      grip G 320003
      progression quay
        G | D
      cell
      section verse "The quay at dusk"
        progression quay
      section coda
      variant gentle "Gentler"
        tempo 60
      claim no barre
    `);
    assert.deepEqual(
      namedThings(readDocument(text)).map(
        ({ kind, name, span }) => `${kind} ${name} [${text.slice(span.start, span.end)}]`,
      ),
      [
        'lesson Harbour lamps ["Harbour lamps"]',
        'part lamp [lamp]',
        'part quay [quay]',
        'section verse "The quay at dusk" [verse]',
        'section coda [coda]',
        'section gentle "Gentler" [gentle]',
      ],
    );
  });

  it('are found by their signs in order, the nearer the more alike', () => {
    const near = (typed: string, ...names: readonly string[]): readonly string[] =>
      names
        .map((name) => ({ name, rank: rankOf(name, typed) }))
        .filter(({ rank }) => rank !== undefined)
        .sort((a, b) => a.rank! - b.rank!)
        .map(({ name, rank }) => `${rank} ${name}`);
    assert.deepEqual(near('lamp', 'clamps', 'low amp', 'Harbour lamps', 'lamps', 'Lamp', 'bell', 'pmal'), [
      '0 Lamp',
      '1 lamps',
      '2 Harbour lamps',
      '3 clamps',
      '4 low amp',
    ]);
    assert.deepEqual(near('etude', 'Étude in E'), ['1 Étude in E']);
    assert.deepEqual(near('hl', 'Harbour lamps', 'lh'), ['4 Harbour lamps']);
    assert.deepEqual(near('harbour l', 'Harbour lamps'), ['1 Harbour lamps']);
    assert.deepEqual(near('', 'lamp'), ['1 lamp']);
  });
});
