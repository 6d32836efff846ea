/** Answers what the words of a line may be, and which of them the cursor is at. */
import { SignatureHelpTriggerKind, type SignatureHelp, type SignatureHelpParams } from 'vscode-languageserver';
import { line } from '../../features/page.ts';
import { signatureAt } from '../../features/signature.ts';
import { markup } from '../convert.ts';
import type { Answer } from '../desk.ts';

export const signatureHelp: Answer = {
  offers: () => ({ signatureHelpProvider: { triggerCharacters: [' '] } }),
  listen({ connection, about, client }) {
    connection.onSignatureHelp(
      about<SignatureHelpParams, SignatureHelp | null>(
        'signature help',
        (lesson, { position, context }) => {
          const asked = (context?.triggerKind ?? SignatureHelpTriggerKind.Invoked) === SignatureHelpTriggerKind.Invoked;
          const found = signatureAt(lesson.analysis, lesson.offsetOf(position), asked);
          if (!found) return null;
          const { markdownSignatures, parameterPlaces } = client();
          const documentation = markup([line(found.says)], markdownSignatures);
          const signatures = found.signatures.map(({ text, parameters, active }) => ({
            label: text,
            documentation,
            activeParameter: active,
            parameters: parameters.map(({ span: { start, end }, says }) => ({
              label: parameterPlaces ? ([start, end] as [number, number]) : text.slice(start, end),
              ...(says !== '' && { documentation: markup([line(says)], markdownSignatures) }),
            })),
          }));
          return { signatures, activeSignature: 0, activeParameter: found.signatures[0].active };
        },
        null,
      ),
    );
  },
};
