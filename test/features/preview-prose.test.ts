/** The preview of a lesson with prose: in the order of the text, filled, and never more than text. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { analyze, Session } from '../../server/src/analyze.ts';
import { previewOf, type Preview } from '../../server/src/features/preview.ts';
import { elementsOf } from '../support/markup.ts';

const LAMPS = readFileSync('samples/harbour-lamps.lesson', 'utf8');
const MUSIC = `lesson "Two lamps"
key G major
progression quay
  G | D
section verse "At the quay"
  progression quay
section coda
  progression quay
`;

const preview = (text: string, session = new Session()): Preview => previewOf(analyze(text, session), 700);
const idsOf = (text: string): readonly string[] => preview(text).blocks.map(({ id }) => id);
const contentOf = (text: string, id: string): string =>
  preview(text).blocks.find((one) => one.id === id)?.content ?? '';

describe('prose in the preview', () => {
  it('stands where it is written, with the music that is shown between', () => {
    const text = `${MUSIC}text\n  One.\nshow coda as tab\nnote\n  Wait.\nshow verse as diagrams\ntext\n  Two.\nshow verse bar 2 as neck\n`;
    assert.deepEqual(
      idsOf(text).filter((id) => !id.includes('@rest')),
      [
        'text/1',
        'coda/title',
        'coda/system/0',
        'note/1',
        'verse/title',
        'verse/shapes',
        'text/2',
        'verse@2/title',
        'verse@2/necks',
        'left-out',
        'care',
      ],
    );
  });

  it('has all the music behind the first text where nothing is shown', () => {
    const order = idsOf(`note\n  Tune.\n${MUSIC}text\n  One.\ntext\n  Two.\n`).filter((id) => !id.includes('system'));
    const music = ['verse/title', 'verse/shapes', 'coda/title', 'coda/shapes'];
    assert.deepEqual(order, ['note/1', 'text/1', ...music, 'text/2', 'care']);
  });

  it('has the bars that no `show` sets below it all, so that every bar is drawn', () => {
    const { blocks, bars } = preview(LAMPS);
    const drawn = blocks.map(({ content }) => content).join('');
    for (const { id } of bars) assert.equal(drawn.split(`data-bar="${id}"`).length, 2, id);
    const titles = blocks.filter(({ id }) => id.endsWith('/title')).map(({ content }) => content);
    assert.deepEqual(titles, [
      '<h2 class="section-title">The quay at dusk <small>bars 1 to 4</small></h2>',
      '<h3 class="section-title">The quay at dusk <small>bars 5 to 8</small></h3>',
    ]);
  });

  it('is filled with what is played', () => {
    const [text] = preview(LAMPS).blocks;
    assert.match(text.content, /^<div class="prose"><h2>What the open string does<\/h2>/);
    assert.match(text.content, /the very same string is the <span class="filled">eleventh<\/span>; the name becomes/);
    assert.match(preview(`${LAMPS}\ncapo 3\n`).blocks[0].content, /<span class="filled">Fadd11\/A<\/span>/);
  });

  it('marks a note as the teacher’s', () => {
    assert.equal(
      contentOf(`${MUSIC}note\n  Sing it.\n`, 'note/1'),
      '<div class="prose note" role="note"><p class="whose">For the teacher</p><p>Sing it.</p>\n</div>',
    );
  });

  it('is one block that changes with its words and its facts, and with nothing else', () => {
    const session = new Session();
    const hashes = (text: string): ReadonlyMap<string, string> =>
      new Map(preview(text, session).blocks.map(({ id, hash }) => [id, hash]));
    const lesson = `${MUSIC}text\n  The first chord is {verse.1.chord}.\nshow verse\nnote\n  Wait.\n`;
    const before = hashes(lesson);
    const changed = (text: string): readonly string[] =>
      [...hashes(text)].filter(([id, hash]) => before.get(id) !== hash).map(([id]) => id);
    assert.deepEqual(changed(`; above\n${lesson}`), []);
    assert.deepEqual(changed(lesson.replace('Wait', 'Wait long')), ['note/1']);
    assert.deepEqual(changed(lesson.replace('first chord', 'opening')), ['text/1']);
    assert.ok(changed(lesson.replace('G | D', 'C | D')).includes('text/1'));
    assert.ok(!changed(lesson.replace('G | D', 'G | C')).includes('text/1'));
  });

  it('is the same from a cold start as after an edit', () => {
    const session = new Session();
    const lesson = `${MUSIC}text\n  {verse.1.sounds} {verse.2.sounds}\nshow verse bar 1\nshow verse bar 1\n`;
    preview(lesson, session);
    const edited = lesson.replace('G | D', 'Em | D');
    assert.deepEqual(preview(edited, session), preview(edited));
  });

  it('never becomes live markup, whatever it says', () => {
    const hostile = [
      '<script>alert(1)</script> <img src=x onerror=alert(1)> <a href="command:a">b</a>',
      '[a](javascript:alert(1)) [b](command:workbench.action.quit) [c](data:text/html,x) <javascript:alert(1)>',
      '![d](https://example.org/d.png) ![e](data:image/svg+xml,x) &#60;script&#62;',
      '{lesson.title} {<script>} **{lesson.title}** `{lesson.title}` [x](https://example.org "{lesson.title}")',
      '```<script>',
      '<style>*{display:none}</style>',
      '```',
    ];
    const lesson = MUSIC.replace('Two lamps', '<script>*x* [a](command:x) ![y](z)</script>').replace(
      'At the quay',
      '<iframe>',
    );
    const { blocks } = preview(`${lesson}text\n${hostile.map((line) => `  ${line}\n`).join('')}show verse as neck\n`);
    const allowed = new Set(
      'div h2 h3 p strong code pre span a small svg g text tspan path line rect circle figure figcaption b'.split(' '),
    );
    for (const { content } of blocks) {
      for (const element of elementsOf(content)) assert.ok(allowed.has(element), element);
      for (const [, address] of content.matchAll(/ (?:href|src)="([^"]*)"/g))
        assert.equal(address, 'https://example.org');
      assert.doesNotMatch(content, /<[^>]* on\w+=/);
    }
  });
});
