/** Whatever is done to a sample, no new error comes of it, and what was laid out stays so. */
import assert from 'node:assert/strict';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { analyze, Session, type Analysis } from '../../../server/src/analyze.ts';
import type { Action } from '../../../server/src/features/actions/action.ts';
import { actionsAt, carriedOut } from '../../../server/src/features/actions/registry.ts';
import { formatText } from '../../../server/src/syntax/format.ts';
import { applyEdits } from '../../../server/src/util/edits.ts';

/** In each folder with a `library.lesson` paths count from there. */
const samples: readonly (readonly [root: string, path: string])[] = [
  ...lessonsIn('samples').map((path) => ['samples/', path] as const),
  ...lessonsIn('samples/library').map((path) => ['samples/library/', path] as const),
];

function lessonsIn(folder: string): readonly string[] {
  return readdirSync(folder).filter((name) => name.endsWith('.lesson'));
}

const read = (path: string): string | null => (existsSync(path) ? readFileSync(path, 'utf8') : null);

/**
 * A claim may be false and a fact be missing of other music, and a text in another key be out of the neck's reach; both are said where it happens. A part
 * that moved away is read from the file that was made.
 */
const BY_RIGHT: ReadonlySet<string> = new Set(['false-claim', 'unknown-fact', 'file-missing']);
const IN_ANOTHER_KEY: ReadonlySet<string> = new Set([
  'no-voicing',
  'pin-against-shape',
  'not-playable',
  'notes-not-playable',
  'notes-too-fast',
]);

const errors = (analysis: Analysis): readonly string[] =>
  analysis.ownFindings
    .filter(({ severity, code }) => severity === 'error' && !BY_RIGHT.has(code))
    .map(({ code }) => code);

/** By kind of action, so that each is tried once in a sample: what one chord can have done, others can. */
const sortOf = ({ id }: Action): string => (id.startsWith('claim') ? id : id.split(' ')[0]);

/** In how many samples each is tried: some in the quick suite, in the slow one all. */
const MOST_SAMPLES = process.env.FUZZ_RUNS === undefined ? 2 : Infinity;

describe('actions on the samples', () => {
  const samplesOf = new Map<string, number>();
  for (const [root, path] of samples) {
    it(`${root}${path}`, function () {
      this.timeout(20_000);
      const text = readFileSync(`${root}${path}`, 'utf8');
      const session = new Session();
      const made: Record<string, string> = {};
      const files = { read: (one: string) => made[one] ?? read(`${root}${one}`) };
      const analysis = analyze(text, session, { path, files });
      const before = errors(analysis);
      const isLaidOut = formatText(text) === text;
      const tried = new Set<string>();
      for (const offset of placesIn(analysis)) {
        for (const action of actionsAt(analysis, { start: offset, end: offset })) {
          const sort = sortOf(action);
          const times = samplesOf.get(sort) ?? 0;
          if (action.disabled !== undefined || tried.has(sort) || times >= MOST_SAMPLES) continue;
          tried.add(sort);
          samplesOf.set(sort, times + 1);
          const { edits, newFile } = carriedOut(analysis, action, 'made-here.lesson');
          if (newFile !== undefined) made['made-here.lesson'] = newFile;
          const after = applyEdits(text, edits);
          const found = errors(analyze(after, session, { path, files })).filter(
            (code) => action.kind !== 'refactor.rewrite.key' || !IN_ANOTHER_KEY.has(code),
          );
          assert.deepEqual(found, before, `${action.title}: ${found.join()}`);
          if (isLaidOut) assert.equal(formatText(after), after, action.title);
          if (newFile !== undefined) assert.equal(formatText(newFile), newFile, action.title);
        }
      }
    });
  }
});

/** The name of each part and section, its key, and the first two chords of each progression. */
function placesIn({ document, lesson }: Analysis): readonly number[] {
  const heads = document.statements.map(({ tree, start }) => start + tree.head.keyword.end + 1);
  const chords = lesson.progressions
    .filter(({ from }) => !from)
    .flatMap(({ bars }) => bars.slice(0, 2).flatMap(({ chords: all }) => all.map(({ symbolSpan }) => symbolSpan.end)));
  return [...heads, ...chords];
}
