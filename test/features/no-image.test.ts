/** Whatever a lesson holds, neither a hover nor the preview loads a picture or anything else from outside. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import MarkdownIt from 'markdown-it';
import { analyze } from '../../server/src/analyze.ts';
import { completionsAt } from '../../server/src/features/completion.ts';
import { hoverAt } from '../../server/src/features/hover.ts';
import { figure, markdownOf } from '../../server/src/features/page.ts';
import { previewOf } from '../../server/src/features/preview.ts';
import { PLAIN_VIEW } from '../../server/src/protocol.ts';

const PICTURE = '![x](https://pictures.example/x.png)';
const MARKUP = '<img src=https://pictures.example/x.png>';
const WIDTH = 600;

/** Pictures wherever an author may write what they like. */
const LESSON = `; ${PICTURE} ${MARKUP}
lesson "${PICTURE} ${MARKUP}"
  by "${PICTURE}"
  focus "${PICTURE}", "${MARKUP}"
  licence "${PICTURE}"
key G major

progression quay
  G | D | Em

section verse "${PICTURE} ${MARKUP}"
  progression quay
  shape open-chords
  words ${PICTURE} | ${MARKUP}

text
  ${PICTURE} and ${MARKUP}
  {lesson.title} over {verse.1.chord}

note
  ${PICTURE} ${MARKUP}

variant gentle "${PICTURE} ${MARKUP}"
  capo 3

practice
  step "${PICTURE}" at 60 for 3 minutes
`;

/** As an editor would read a hover that it trusts with markup. */
const reader = new MarkdownIt({ html: true, linkify: true });
const loads = (html: string): readonly string[] =>
  html.match(/<(?:img|image|picture|video|audio|iframe|object|embed|link|script|source|use)\b[^>]*>|url\(/gi) ?? [];

describe('nothing is loaded from outside', () => {
  const analysis = analyze(LESSON);
  it('by a hover, wherever it is', () => {
    let hovers = 0;
    for (let offset = 0; offset <= LESSON.length; offset++) {
      const hover = hoverAt(analysis, offset);
      if (!hover) continue;
      hovers++;
      assert.deepEqual(loads(reader.render(markdownOf(hover.page))), [], LESSON.slice(offset, offset + 20));
    }
    assert.ok(hovers > 20);
  });
  it('by what completion says', () => {
    for (let offset = 0; offset <= LESSON.length; offset += 3)
      for (const { example } of completionsAt(analysis, offset)?.items ?? [])
        if (example !== undefined) assert.deepEqual(loads(reader.render(markdownOf([figure(example)]))), []);
  });
  it('by the preview, whose page could not either', () => {
    const { blocks } = previewOf(analysis, WIDTH, PLAIN_VIEW);
    const whole = blocks.map((block) => block.content).join('\n');
    assert.ok(whole.includes('pictures.example'), 'the words are shown');
    assert.deepEqual(loads(whole), []);
    const policy = /default-src 'none';[^`]*/.exec(readFileSync('client/src/preview/page.ts', 'utf8'))?.[0] ?? '';
    assert.match(policy, /^default-src 'none'; script-src 'nonce-/);
    assert.doesNotMatch(policy, /img-src|media-src|connect-src|font-src|frame-src|https?:/);
  });
});
