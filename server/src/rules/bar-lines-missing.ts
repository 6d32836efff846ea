/** A progression without a single bar line. */
import type { ProgressionDefinition } from '../lesson/lesson.ts';
import type { Rule } from './rule.ts';
import { counted, quoted } from './shared/words.ts';

/** Fewer chords than these often do share a bar. */
const FEWEST_CHORDS = 4;

export const rule: Rule = {
  code: 'bar-lines-missing',
  severity: 'information',
  topic: 'music',
  title: 'A progression without bar lines',
  why: 'Chords that no bar line parts share one bar, and each is that much shorter. It may be meant, as in a turnaround with a chord a beat; far more often every chord has a bar of its own and the lines were left out.',
  bad: `progression quay
  G D Em C

section verse
  progression quay
`,
  good: `progression quay
  G | D | Em | C

section verse
  progression quay
`,
  *check({ lesson, text }) {
    for (const progression of lesson.progressions) {
      const bar = progression.bars.find(({ chords }) => chords.length >= FEWEST_CHORDS);
      if (!bar || isDivided(progression, text)) continue;
      const edits = progression.bars.flatMap(({ chords }) =>
        chords.slice(0, -1).map(({ span }) => ({ span: { start: span.end, end: span.end }, text: ' |' })),
      );
      yield {
        span: bar.span,
        message: `No bar line parts these ${counted(bar.chords.length, 'chord')}, so they share one bar; if each has a bar of its own, write ${quoted('|')} between them.`,
        fixes: [{ title: `Write ${quoted('|')} between the chords`, edits }],
      };
    }
  },
};

/** Whether bar lines part it somewhere, or strokes count its beats. */
const isDivided = ({ whole }: ProgressionDefinition, text: string): boolean =>
  text
    .slice(whole.start, whole.end)
    .split(/\r\n|\r|\n/)
    .some((line) => /\||\s[/%](?:\s|$)/.test(line.replace(/(?:^|\s);.*/, '')));
