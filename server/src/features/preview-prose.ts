/** The prose of the preview: each text and note as one part, written anew only where its words or its facts have changed. */
import type { Lesson } from '../lesson/lesson.ts';
import type { Prose, ProseText } from '../lesson/prose.ts';
import { filledProse } from '../prose/filled.ts';
import { proseHtml } from '../prose/markdown.ts';
import type { Score } from '../realise/score.ts';
import { block, type PreviewContent } from './preview-block.ts';

/** By the words, which are the same object from version to version; the last facts that were filled into them, and where. */
const written = new WeakMap<ProseText, { readonly facts: string; readonly block: PreviewContent }>();

export function proseBlock(id: string, prose: Prose, lesson: Lesson, score: Score): PreviewContent {
  const filled = filledProse(prose, lesson, score);
  const facts = JSON.stringify([prose.kind, filled.facts.map(({ value }) => value ?? null)]);
  const known = written.get(prose.prose);
  if (known?.facts === facts) return known.block.id === id ? known.block : { ...known.block, id };
  const html = proseHtml(filled);
  const made = block(id, prose.kind === 'note' ? noteOf(html) : `<div class="prose">${html}</div>`);
  written.set(prose.prose, { facts, block: made });
  return made;
}

/** Marked as the teacher's by words and by its frame, not by colour alone. */
const noteOf = (html: string): string =>
  `<div class="prose note" role="note"><p class="whose">For the teacher</p>${html}</div>`;
