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

/**
 * How the file `from` writes the way to the file `to`, both whole addresses: `../parts.lesson`. Undefined where no relative path
 * leads from one to the other.
 */
export function pathTo(from: string, to: string): string | undefined {
  const origin = /^[a-z][a-z\d+.-]*:(?:\/\/[^/]*)?\//i.exec(from)?.[0];
  if (origin === undefined || !to.startsWith(origin)) return undefined;
  const steps = from.slice(origin.length).split('/').slice(0, -1);
  const others = to.slice(origin.length).split('/');
  let same = 0;
  while (same < steps.length && same < others.length - 1 && steps[same] === others[same]) same++;
  return [...steps.slice(same).map(() => '..'), ...others.slice(same)].join('/');
}
