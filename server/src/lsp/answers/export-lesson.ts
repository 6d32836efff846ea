/** Answers with a lesson as a file of another kind, which the client then writes. */
import type { CancellationToken } from 'vscode-languageserver';
import { variantNamed, type Analysis } from '../../analyze.ts';
import { USUAL_SHEET_WIDTH } from '../../draw/sheet.ts';
import { USUAL_WIDTH } from '../../draw/text-tab.ts';
import { lessonJson } from '../../export/json.ts';
import { soundingOf } from '../../export/sounding.ts';
import { lessonSvg } from '../../export/svg.ts';
import { lessonText } from '../../export/text.ts';
import { wavBlocks, wavHead, WAV_RATE } from '../../export/wav.ts';
import { EXPORT_LESSON, type ExportFormat, type ExportLesson, type LessonExported } from '../../protocol.ts';
import type { Answer } from '../desk.ts';

/** What is longer would be a message of a hundred megabytes. In seconds. */
const LONGEST_SOUND = 300;
/** Between two of these the server does whatever else it is asked. In samples. */
const SAMPLES_AT_ONCE = WAV_RATE;
const HAS_ERRORS = 'The lesson has errors, so that parts of it may be missing.';

export const exportLesson: Answer = {
  offers: () => ({}),
  listen({ connection, about, idle }) {
    connection.onRequest(
      EXPORT_LESSON,
      about<ExportLesson, LessonExported | null>(
        'an export',
        async ({ analysis }, { to, variant }, token) => {
          const shown = variant === undefined ? analysis : variantNamed(analysis, variant);
          if (!shown) return { says: 'The lesson has no such variant any more.' };
          const written = await WRITERS[to](shown, idle, token);
          const hasErrors = shown.findings.some(({ severity }) => severity === 'error');
          return { ...(hasErrors && { says: HAS_ERRORS }), ...written };
        },
        null,
      ),
    );
  },
};

type Writer = (
  analysis: Analysis,
  idle: () => Promise<void>,
  token: CancellationToken,
) => LessonExported | Promise<LessonExported>;

const WRITERS: Readonly<Record<ExportFormat, Writer>> = {
  tab: (analysis) => ({ text: lessonText(analysis, { width: USUAL_WIDTH, notes: false }) }),
  svg: (analysis) => ({ text: lessonSvg(analysis, USUAL_SHEET_WIDTH) }),
  json: (analysis) => ({ text: lessonJson(analysis) }),
  wav: soundFile,
};

async function soundFile(
  analysis: Analysis,
  idle: () => Promise<void>,
  token: CancellationToken,
): Promise<LessonExported> {
  const timeline = soundingOf(analysis, {});
  if (timeline.notes.length === 0) return { says: 'There is nothing to hear: no note of it is played.' };
  if (timeline.isCut || timeline.seconds > LONGEST_SOUND)
    return {
      says: `It lasts more than ${LONGEST_SOUND / 60} minutes: stringcourse export writes it, or a part of it.`,
    };
  const blocks: Uint8Array[] = [];
  let size = 0;
  let atOnce = 0;
  for (const block of wavBlocks(timeline, { countIn: false, click: false })) {
    blocks.push(block);
    size += block.length;
    atOnce += block.length / 4;
    if (atOnce < SAMPLES_AT_ONCE) continue;
    atOnce = 0;
    await idle();
    if (token.isCancellationRequested) return {};
  }
  return { parts: [wavHead(size), ...blocks].map(inBase64) };
}

function inBase64(bytes: Uint8Array): string {
  let signs = '';
  for (const byte of bytes) signs += String.fromCharCode(byte);
  return btoa(signs);
}
