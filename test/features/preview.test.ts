/** The preview: blocks that stay what they are while the text around them moves. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { analyze, Session } from '../../server/src/analyze.ts';
import { hashOf } from '../../server/src/features/preview-block.ts';
import { previewOf } from '../../server/src/features/preview.ts';
import type { Preview } from '../../server/src/features/preview.ts';
import { elementsOf } from '../support/markup.ts';

const LAMPS = readFileSync('samples/harbour-lamps.lesson', 'utf8');

/** The same lesson without its prose and what it shows. */
const MUSIC = LAMPS.replace(/^text\n(?: .*\n)+/m, '').replace(/^show .*\n/m, '');

const blocksOf = (preview: Preview): ReadonlyMap<string, string> =>
  new Map(preview.blocks.map(({ id, content }) => [id, content]));

describe('The preview', () => {
  it('has a title, systems and shapes for each section, and the sentence of care', () => {
    const { blocks } = previewOf(analyze(MUSIC), 960);
    assert.deepEqual(
      blocks.map(({ id }) => id),
      ['verse/title', 'verse/system/0', 'verse/system/1', 'verse/shapes', 'practice', 'care'],
    );
    for (const { content, hash } of blocks) {
      elementsOf(content);
      assert.equal(hash, hashOf(content));
    }
  });

  it('stays the same when lines move, while the places of the bars follow', () => {
    const session = new Session();
    const before = previewOf(analyze(LAMPS, session), 960);
    const after = previewOf(analyze(`; a line above\n\n${LAMPS}`, session), 960);
    assert.deepEqual(after.blocks, before.blocks);
    assert.equal(after.bars[0].place.startLine, before.bars[0].place.startLine + 2);
  });

  it('draws the same from a cold start as after an edit', () => {
    const session = new Session();
    previewOf(analyze(LAMPS, session), 960);
    const edited = LAMPS.replace('Em | D | G at 8', 'Em | C | G at 8');
    assert.deepEqual(previewOf(analyze(edited, session), 960), previewOf(analyze(edited), 960));
  });

  it('changes only the system in which a bar was changed', () => {
    const session = new Session();
    const before = blocksOf(previewOf(analyze(MUSIC, session), 960));
    const after = blocksOf(previewOf(analyze(MUSIC.replace('from 5: 0 -1 0', 'from 5: 0 -1 0 ; same'), session), 960));
    assert.deepEqual(after, before);
    const other = blocksOf(previewOf(analyze(MUSIC.replace('G at 8 | G held', 'G at 8 | G'), session), 960));
    assert.equal(other.get('verse/system/0'), before.get('verse/system/0'));
    assert.notEqual(other.get('verse/system/1'), before.get('verse/system/1'));
  });

  it('says where each bar is written', () => {
    const { bars } = previewOf(analyze(LAMPS), 960);
    assert.equal(bars.length, 8);
    const lines = LAMPS.split('\n');
    const second = bars[1];
    assert.equal(second.id, 'verse.2');
    assert.equal(
      lines[second.place.startLine].slice(second.place.startCharacter, second.place.endCharacter).trim(),
      'D',
    );
  });

  it('fits systems to the width, and draws widths beyond its limits as the nearest', () => {
    const analysis = analyze(MUSIC);
    const systems = (width: number): number =>
      previewOf(analysis, width).blocks.filter(({ id }) => id.includes('/system/')).length;
    assert.equal(systems(960), 2);
    assert.equal(systems(520), 4);
    assert.equal(systems(-5), systems(280));
    assert.equal(systems(NaN), systems(280));
    assert.equal(systems(1e9), systems(2400));
  });

  it('tells the facts in words', () => {
    const facts = new Map(previewOf(analyze(LAMPS), 960).facts.map(({ kind, text }) => [kind, text]));
    assert.equal(facts.get('key'), 'G major');
    assert.equal(facts.get('meter'), '3/4');
    assert.equal(facts.get('tempo'), 'quarter = 84');
    assert.equal(facts.get('tuning'), 'standard tuning, E A D G B E');
    assert.equal(facts.get('level'), 'level 3');
    assert.equal(facts.has('capo'), false);
    const capo = previewOf(analyze(`${LAMPS}\ncapo 3\n`), 960).facts;
    assert.equal(capo.find(({ kind }) => kind === 'key')?.text, 'G major, sounding Bb major');
    assert.equal(capo.find(({ kind }) => kind === 'capo')?.text, 'capo 3');
  });

  it('has one friendly block where there is nothing to draw', () => {
    for (const text of ['', 'lesson "New"\n', '\u0000']) {
      const { blocks } = previewOf(analyze(text), 960);
      assert.equal(blocks.length, 1);
      assert.match(blocks[0].content, /^<p class="nothing">/);
    }
  });

  it('shows a course by its days, and leads from each to its line', () => {
    const files: Readonly<Record<string, string>> = {
      'one.lesson': 'lesson "Two <lamps>"\n  level 1\n  focus "a steady thumb"\n  minutes 10\n',
    };
    const text = 'course "A week"\n  day 2 "two.lesson"\n  day 1 "one.lesson"\n';
    const place = { path: 'course.lesson', files: { read: (path: string) => files[path] ?? null } };
    const { title, facts, blocks, texts } = previewOf(analyze(text, new Session(), place), 960);
    assert.equal(title, 'A week');
    assert.deepEqual(
      facts.map(({ text: words }) => words),
      ['two days', '10 minutes in all', 'one error'],
    );
    assert.deepEqual(
      blocks.map(({ id }) => id),
      ['contents/0'],
    );
    elementsOf(blocks[0].content);
    assert.match(
      blocks[0].content,
      /Day 1 · Two &lt;lamps&gt;<\/b> <span class="small">level 1 · 10 minutes · a steady/,
    );
    assert.deepEqual(
      texts.map(({ step, place: { startLine } }) => [step, startLine]),
      [
        [0, 2],
        [1, 1],
      ],
    );
  });

  it('shows a file of parts by their names, with the comment above each', () => {
    const text =
      '; For all.\n\n; Close triads.\n; High up.\nshape window\n  strings 3 2 1\n  spacing close\ngrip A x02220\n';
    const { title, facts, blocks } = previewOf(analyze(text), 960);
    assert.deepEqual([title, ...facts.map((fact) => fact.text)], ['Parts', 'one shape', 'one grip', 'no findings']);
    assert.match(
      blocks[0].content,
      /<b>window<\/b> <span class="small">Close triads. High up.<\/span><pre>strings 3 2 1\nspacing close<\/pre>/,
    );
    assert.match(blocks[1].content, /<b>A x02220<\/b><\/li>/);
  });

  it('gives two sections of one name ids of their own', () => {
    const { blocks } = previewOf(analyze(`${LAMPS}\nsection verse "Again"\n  progression quay\n  shape lamp\n`), 960);
    assert.equal(new Set(blocks.map(({ id }) => id)).size, blocks.length);
  });

  it('shows text from a lesson as text', () => {
    const text = LAMPS.replace('The quay at dusk', '<img src=x onerror=alert(1)>').replace('Harbour', '<script>');
    for (const { content } of previewOf(analyze(text), 960).blocks) {
      const elements = elementsOf(content);
      assert.ok(!elements.includes('img') && !elements.includes('script'));
    }
  });
});
