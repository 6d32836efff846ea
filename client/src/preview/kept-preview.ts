/** What was last drawn of a lesson, in full, so that a page that comes back needs no server to be filled again. */
import type { PreviewBlock, PreviewUpdate } from '../../../server/src/protocol.ts';

export type KeptBlock = PreviewBlock & { readonly content: string };

export interface KeptPreview extends PreviewUpdate {
  readonly blocks: readonly KeptBlock[];
}

/** The update with what it left out because it was sent before; undefined where that is not there any more. */
export function completed(update: PreviewUpdate, kept: KeptPreview | undefined): KeptPreview | undefined {
  const known = new Map(kept?.blocks.map((block) => [block.id, block]));
  const blocks: KeptBlock[] = [];
  for (const { id, hash, content } of update.blocks) {
    const before = known.get(id);
    const found = content ?? (before?.hash === hash ? before.content : undefined);
    if (found === undefined) return undefined;
    blocks.push({ id, hash, content: found });
  }
  return { ...update, blocks };
}
