/** A part that nothing calls for. */
import type { Definition } from '../lesson/lesson.ts';
import type { Rule } from './rule.ts';
import { deleteLines } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'unused-name',
  severity: 'hint',
  topic: 'names',
  title: 'A part that nothing calls for',
  why: 'It is written and checked, but no section plays it. Either a section should call for it, or it can go. In a file of parts for other lessons, which has no section, nothing is said.',
  fades: true,
  speaksOf: 'text',
  bad: `progression quay
  G | C

progression bridge
  Am | D

section verse
  progression quay
`,
  good: `progression quay
  G | C

progression bridge
  Am | D

section verse
  progression quay

section middle
  progression bridge
`,
  *check({ lesson, text }) {
    if (lesson.sections.length === 0) return;
    // Where a section calls for something that does not exist, what it means is perhaps only misspelt here.
    const missed = new Set(lesson.problems.flatMap((one) => (one.kind === 'unknown-name' ? one.data.kind : [])));
    const used = new Set(lesson.uses.map((use) => use.definition));
    for (const { names, brought, path } of lesson.imports) {
      for (const { name, span } of names) {
        const parts = brought.filter((part) => part.name === name);
        if (parts.length === 0 || parts.some((part) => used.has(part) || missed.has(part.kind))) continue;
        yield {
          span,
          message: `No section plays ${quoted(name)} of ${quoted(path)}; call for it, or take it out here.`,
        };
      }
    }
    const parts: readonly Definition[] = [
      ...lesson.shapes,
      ...lesson.grips,
      ...lesson.progressions,
      ...lesson.cells,
      ...lesson.contours,
      ...lesson.melodies,
      ...lesson.tabs,
    ];
    const seen = new Set<string>();
    for (const part of parts) {
      const { kind, name, span, whole } = part;
      // A name given twice has its own finding.
      const first = !seen.has(`${kind} ${name}`);
      seen.add(`${kind} ${name}`);
      if (used.has(part) || missed.has(kind) || !first) continue;
      yield {
        span,
        message: `No section plays ${kind} ${quoted(name)}; call for it, or delete it.`,
        fixes: [deleteLines(whole, text, `Delete ${quoted(`${kind} ${name}`)}`)],
      };
    }
  },
};
