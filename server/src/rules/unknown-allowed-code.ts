/** A comment that allows a finding which does not exist. */
import { nearest } from '../util/nearest.ts';
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'unknown-allowed-code',
  severity: 'warning',
  topic: 'words',
  title: 'A finding that is allowed but does not exist',
  why: 'A comment `; allow CODE` silences a finding on its line. With a code that no finding has it silences nothing, and whoever wrote it believes that it does.',
  bad: `grip Am x02210 ; allow strech-wide
`,
  good: `grip Am x02210 ; allow stretch-wide
`,
  *check({ lesson, text, codes }) {
    for (const { code, span } of lesson.allowed) {
      if (codes.includes(code)) continue;
      const start = text.indexOf(code, span.start);
      const place = start >= 0 && start < span.end ? { start, end: start + code.length } : span;
      const right = nearest(code, codes);
      const mend = right ? `do you mean ${quoted(right)}?` : 'take the code from the finding itself.';
      yield {
        span: place,
        message: `No finding is called ${quoted(code)}, so nothing is allowed by this; ${mend}`,
        fixes: right ? [replaceWith(place, right)] : [],
      };
    }
  },
};
