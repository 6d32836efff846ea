/** A fact in the braces of a prose that the lesson does not have. */
import { factAt, isKnown } from '../truth/facts.ts';
import type { Rule } from './rule.ts';
import { deleteSpan, replaceWith } from './shared/fixes.ts';

export const rule: Rule = {
  code: 'unknown-fact',
  severity: 'error',
  topic: 'words',
  title: 'A fact that the lesson does not have',
  why: 'What stands in braces is worked out from the music, so that the words can never say something else than what is played. Where the lesson has no such fact, a student would read the braces themselves.',
  bad: `progression quay
  G | D

section verse
  progression quay

text
  Over {verse.1.chord} and {verse.2.sound} the open string rings.
`,
  good: `progression quay
  G | D

section verse
  progression quay

text
  Over {verse.1.chord} and {verse.2.sounds} the open string rings.
`,
  *check({ lesson, score }) {
    for (const passage of lesson.passages) {
      if (passage.kind === 'show') continue;
      for (const { path, pathSpan, span } of passage.facts) {
        const fact = factAt(path, lesson, score);
        if (isKnown(fact)) continue;
        const at = { start: pathSpan.start + fact.at.start, end: pathSpan.start + fact.at.end };
        const [right] = fact.near;
        const fixes =
          right === undefined ? [] : [right === '' ? deleteSpan(at, 'Take it out') : replaceWith(at, right)];
        yield { span: at.end > at.start ? at : span, message: fact.unknown, fixes };
      }
    }
  },
};
