/** What is shown where the pointer rests: on a chord, a name, a note of a part, a setting, a keyword. */
import type { Analysis } from '../analyze.ts';
import { covers, type Span } from '../util/span.ts';
import { chordPage } from './hover-chord.ts';
import { factHoverAt } from './hover-facts.ts';
import { claimAt } from './hover-claim.ts';
import { notePage } from './hover-notes.ts';
import { partPage } from './hover-parts.ts';
import { settingPage } from './hover-settings.ts';
import { variantAt } from './hover-variant.ts';
import { code, figure, line, type Block } from './page.ts';
import { whereIs, type Place } from './place.ts';

export interface Hover {
  /** What the words are about. */
  readonly span: Span;
  readonly page: readonly Block[];
}

/** Undefined where there is nothing to say. */
export function hoverAt(analysis: Analysis, offset: number): Hover | undefined {
  const place = whereIs(analysis, offset);
  const found = hoverOf(analysis, place);
  return found && found.page.length > 0 ? found : undefined;
}

function hoverOf(analysis: Analysis, place: Place): Hover | undefined {
  if (place.inside === 'prose') return factHoverAt(analysis, place.offset);
  const { keyword, name, chord, setting } = place;
  // What a variant sets and claims is so in the variant.
  const here = variantAt(analysis, place.offset) ?? analysis;
  if (keyword) {
    const meaning = setting ? settingPage(here, setting) : (claimAt(here, place.offset)?.page ?? []);
    return { span: keyword, page: [...referenceOf(place), ...meaning] };
  }
  if (name && name.kind !== 'grip') {
    const page = partPage(analysis, name);
    return page && { span: name.span, page };
  }
  if (chord) {
    const page = chordPage(analysis, chord);
    return page && { span: chord.span, page };
  }
  if (name) {
    const page = partPage(analysis, name);
    return page && { span: name.span, page };
  }
  const claim = place.inside === 'words' ? claimAt(here, place.offset) : undefined;
  if (claim && covers(claim.span, place.offset)) return claim;
  const note = place.inside === 'words' ? notePage(analysis, place.offset) : undefined;
  if (note) return note;
  return setting && { span: setting.span, page: settingPage(here, setting) };
}

/** The line of the reference: what the keyword says, and an example. */
function referenceOf({ form, lineForm }: Place): Block[] {
  const known = lineForm ?? form;
  if (!known) return [];
  return [line(code(known.keyword ?? known.example), `: ${known.says}`), figure(known.example)];
}
