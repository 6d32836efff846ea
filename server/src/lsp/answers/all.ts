/** Every feature of the server that answers a question, one file each. */
import type { Answer } from '../desk.ts';
import { callHierarchy } from './call-hierarchy.ts';
import { codeActions } from './code-actions.ts';
import { codeLenses } from './code-lenses.ts';
import { completion } from './completion.ts';
import { definition } from './definition.ts';
import { documentLinks } from './document-links.ts';
import { exportLesson } from './export-lesson.ts';
import { fileRenames } from './file-renames.ts';
import { formatting } from './formatting.ts';
import { hover } from './hover.ts';
import { inlayHints } from './inlay-hints.ts';
import { keys } from './keys.ts';
import { linkedEditing } from './linked-editing.ts';
import { names } from './names.ts';
import { outline } from './outline.ts';
import { selectionRanges } from './selection-ranges.ts';
import { semanticTokens } from './semantic-tokens.ts';
import { sound } from './sound.ts';
import { signatureHelp } from './signature-help.ts';
import { previewChanges } from './preview-changes.ts';
import { summary } from './summary.ts';
import { workspaceDiagnostics } from './workspace-diagnostics.ts';
import { workspaceSymbols } from './workspace-symbols.ts';

export const answers: readonly Answer[] = [
  callHierarchy,
  codeActions,
  codeLenses,
  completion,
  definition,
  documentLinks,
  exportLesson,
  fileRenames,
  formatting,
  hover,
  inlayHints,
  keys,
  linkedEditing,
  names,
  outline,
  previewChanges,
  selectionRanges,
  semanticTokens,
  signatureHelp,
  summary,
  sound,
  workspaceDiagnostics,
  workspaceSymbols,
];
