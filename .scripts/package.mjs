// Packs the extension for the editor into dist/stringcourse.vsix, the same bytes from the same sources.
import { execFileSync } from 'node:child_process';

/** The time that every file in the archive is given, unless the caller has one: the first of January 2025. In seconds. */
const SAME_TIME_EVERYWHERE = '1735689600';

const env = { SOURCE_DATE_EPOCH: SAME_TIME_EVERYWHERE, ...process.env };
const args = ['package', '--no-dependencies', '--allow-missing-repository', '--no-rewrite-relative-links'];
execFileSync('node_modules/.bin/vsce', [...args, '--out', 'dist/stringcourse.vsix'], { env, stdio: 'inherit' });
