/** Words of the language whose meaning is not worked out yet. */
import type { Span } from '../util/span.ts';
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'not-used-yet',
  severity: 'information',
  topic: 'words',
  title: 'Understood, but without effect yet',
  why: 'The line is part of the language and is read and kept, but this version does not play, show or check anything by it. Nothing needs to be mended.',
  bad: `lesson "Low bells"

variant higher "Two frets up"
  capo 2
`,
  good: `lesson "Low bells"

; For a higher voice: capo 2.
`,
  *check({ lesson }) {
    // Once a word: a lesson with ten claims is told so once, at the first.
    const places = new Map<string, Span[]>();
    for (const { keyword, span } of lesson.later) places.set(keyword, [...(places.get(keyword) ?? []), span]);
    for (const [keyword, [span, ...others]] of places) {
      const all = others.length === 0 ? '' : ` (${others.length + 1} of them)`;
      const message = `${quoted(keyword)} is read and kept, but has no effect in this version yet${all}.`;
      yield { span, message, related: others.map((one) => ({ span: one, message: 'Another one is here.' })) };
    }
  },
};
