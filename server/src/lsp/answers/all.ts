/** Every feature of the server that answers a question, one file each. */
import type { Answer } from '../desk.ts';
import { codeActions } from './code-actions.ts';
import { codeLenses } from './code-lenses.ts';
import { completion } from './completion.ts';
import { definition } from './definition.ts';
import { formatting } from './formatting.ts';
import { hover } from './hover.ts';
import { names } from './names.ts';
import { outline } from './outline.ts';
import { sound } from './sound.ts';
import { signatureHelp } from './signature-help.ts';
import { previewChanges } from './preview-changes.ts';

export const answers: readonly Answer[] = [
  codeActions,
  codeLenses,
  completion,
  definition,
  formatting,
  hover,
  names,
  outline,
  previewChanges,
  signatureHelp,
  sound,
];
