/** `stringcourse export`: a lesson as tab, drawing, data or sound. */
import { parseArgs } from 'node:util';
import { analyze, Session } from '../analyze.ts';
import { NARROWEST_SHEET, USUAL_SHEET_WIDTH, WIDEST_SHEET } from '../draw/sheet.ts';
import { USUAL_WIDTH } from '../draw/text-tab.ts';
import { lessonJson } from '../export/json.ts';
import { lessonSvg } from '../export/svg.ts';
import { lessonText } from '../export/text.ts';
import { lessonWav, refuseSoundOptions, SOUND_HELP, SOUND_OPTIONS } from './export-sound.ts';
import { locationOf, readText, writeOutput } from './files.ts';
import { shownVariant } from './shown-variant.ts';
import { complain, say } from './terminal.ts';
import { oneOf, wholeNumber, WrongUse } from './wrong-use.ts';

export const EXPORT_HELP = `stringcourse export FILE --to tab|svg|json|wav [--variant NAME] [--out FILE] [--width N] [--force]

Writes a lesson to standard output, or to --out. FILE may be - for standard input.

  --to tab     plain text, the prose between the tab; --width in columns, ${USUAL_WIDTH} where nothing is said
  --to svg     a drawing; --width in pixels, ${USUAL_SHEET_WIDTH} where nothing is said
  --to json    what is played and what was found, as data
  --to wav     what is heard, 44.1 kHz, 16 bits, two channels; with what is told below
  --variant    one of the lesson’s variants instead of the lesson; json has them all in any case
  --force      overwrite --out even where this program did not write it

For --to wav:

${SOUND_HELP}`;

const NARROWEST_TEXT = 20;
const WIDEST_TEXT = 1000;

/** The exit status. */
export function exportLesson(args: readonly string[]): number {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      to: { type: 'string' },
      out: { type: 'string' },
      width: { type: 'string' },
      variant: { type: 'string' },
      force: { type: 'boolean', default: false },
      ...SOUND_OPTIONS,
    },
  });
  if (positionals.length !== 1) throw new WrongUse('export takes one lesson: stringcourse export FILE --to tab');
  if (values.to === undefined)
    throw new WrongUse('export must be told what to write: --to tab, --to svg, --to json or --to wav.');
  const to = oneOf(values.to, '--to', ['tab', 'svg', 'json', 'wav']);
  if (to !== 'wav') refuseSoundOptions(values);
  else if (values.width !== undefined) throw new WrongUse('--width is for what is seen, not for --to wav.');
  const width =
    values.width === undefined
      ? undefined
      : to === 'svg'
        ? wholeNumber(values.width, '--width', NARROWEST_SHEET, WIDEST_SHEET)
        : wholeNumber(values.width, '--width', NARROWEST_TEXT, WIDEST_TEXT);
  const whole = analyze(readText(positionals[0]), new Session(), locationOf(positionals[0]));
  const analysis = shownVariant(whole, values.variant);
  const content = {
    tab: () => lessonText(analysis, { width: width ?? USUAL_WIDTH, notes: false }),
    svg: () => lessonSvg(analysis, width ?? USUAL_SHEET_WIDTH),
    json: () => lessonJson(analysis),
    wav: () => lessonWav(analysis, values),
  }[to]();
  if (values.out === undefined || values.out === '-') {
    if (to === 'wav' && process.stdout.isTTY) throw new WrongUse('A terminal cannot show sound: --out lesson.wav.');
    say(content);
  } else writeOutput(values.out, content, values.force);
  if (analysis.findings.some((finding) => finding.severity === 'error'))
    complain('the lesson has errors, so that parts of it may be missing; stringcourse check tells them.');
  return 0;
}
