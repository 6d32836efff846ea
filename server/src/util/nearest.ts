/** Finds the word somebody meant: edit distance, with two swapped neighbours counted as one slip. */

const LONGEST_WORD = 40;

/** How many letters must be added, dropped, changed or swapped; at most `limit` + 1. */
export function distance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit || a.length > LONGEST_WORD || b.length > LONGEST_WORD) return limit + 1;
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let best = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, beforeLast[j - 2] + 1);
      row.push(best);
    }
    beforeLast = last;
    last = row;
  }
  return Math.min(last[b.length], limit + 1);
}

/** The one candidate nearest to `found`, if it is near enough to be a slip; undefined where two are equally near. */
export function nearest(found: string, candidates: Iterable<string>): string | undefined {
  const lower = found.toLowerCase();
  const limit = found.length <= 3 ? 1 : found.length <= 5 ? 1 : 2;
  let best: string | undefined;
  let bestDistance = limit + 1;
  let tied = false;
  for (const candidate of candidates) {
    const away = distance(lower, candidate.toLowerCase(), limit);
    if (away < bestDistance) {
      best = candidate;
      bestDistance = away;
      tied = false;
    } else if (away === bestDistance && away <= limit && candidate !== best) {
      tied = true;
    }
  }
  return tied || bestDistance > limit || bestDistance >= found.length ? undefined : best;
}
