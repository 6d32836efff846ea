/** The page of the live preview in a browser, and what a browser may do with it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { escaped } from '../draw/svg.ts';
import { WrongUse } from './wrong-use.ts';

/** What is served, by the end of its address. */
export interface Served {
  readonly type: string;
  readonly content: string;
}

/** Nothing from outside, nothing inline: the page runs our one script, starts the thread of its sound, and wears our one sheet of styles. */
export const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self' blob:",
  "style-src 'self'",
  "connect-src 'self'",
  "img-src 'self' data:",
  "font-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** `dist` is the folder that this program runs from. */
export function pageFiles(dist: string, title: string): ReadonlyMap<string, Served> {
  const page = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${escaped(title)}</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="preview.css">
</head>
<body>
<main id="preview"></main>
<script src="preview.js"></script>
</body>
</html>
`;
  return new Map<string, Served>([
    ['', { type: 'text/html; charset=utf-8', content: page }],
    ['preview.js', { type: 'text/javascript; charset=utf-8', content: ownFile(dist, 'preview.js') }],
    ['preview.css', { type: 'text/css; charset=utf-8', content: ownFile(dist, '../client/media/preview.css') }],
  ]);
}

function ownFile(dist: string, name: string): string {
  const path = join(dist, name);
  try {
    return readFileSync(path, 'utf8');
  } catch {
    throw new WrongUse(
      `${path} is missing, without which there is no preview page: build or install the program again.`,
    );
  }
}
