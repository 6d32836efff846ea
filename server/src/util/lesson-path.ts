/** Paths from file to file as lessons write them: relative, with slashes, and inside one root folder. */

/**
 * Where `written` in the file `from` leads, both counted from the root: `week/a.lesson` and `../parts.lesson` give
 * `parts.lesson`. Undefined where it leads out of the root, or is no relative path.
 */
export function pathFrom(from: string, written: string): string | undefined {
  const path = written.replaceAll('\\', '/');
  if (path === '' || path.startsWith('/') || /^[a-z][a-z\d+.-]*:/i.test(path)) return undefined;
  const steps = from.split('/').slice(0, -1);
  for (const step of path.split('/')) {
    if (step === '' || step === '.') continue;
    if (step !== '..') steps.push(step);
    else if (steps.pop() === undefined) return undefined;
  }
  return steps.length === 0 ? undefined : steps.join('/');
}
