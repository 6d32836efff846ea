/** What was last drawn of a lesson, in full, so that a page that comes back needs no server to be filled again. */
import type { PreviewBlock, PreviewPanel, PreviewUpdate } from '../../../server/src/protocol.ts';

export type KeptBlock = PreviewBlock & { readonly content: string };

export interface KeptPreview extends PreviewUpdate {
  readonly blocks: readonly KeptBlock[];
  readonly panel?: PreviewPanel & { readonly blocks: readonly KeptBlock[] };
}

/** The update with what it left out because it was sent before; undefined where that is not there any more. */
export function completed(update: PreviewUpdate, kept: KeptPreview | undefined): KeptPreview | undefined {
  const known = new Map([...(kept?.blocks ?? []), ...(kept?.panel?.blocks ?? [])].map((block) => [block.id, block]));
  const filled = (blocks: readonly PreviewBlock[]): readonly KeptBlock[] | undefined => {
    const whole = blocks.flatMap(({ id, hash, content }): KeptBlock | readonly never[] => {
      const before = known.get(id);
      const found = content ?? (before?.hash === hash ? before.content : undefined);
      return found === undefined ? [] : { id, hash, content: found };
    });
    return whole.length === blocks.length ? whole : undefined;
  };
  const { panel, ...rest } = update;
  const blocks = filled(update.blocks);
  if (!blocks) return undefined;
  if (!panel) return { ...rest, blocks };
  const opened = filled(panel.blocks);
  return opened && { ...rest, blocks, panel: { ...panel, blocks: opened } };
}
