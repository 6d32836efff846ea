/** A part of the preview that is replaced as a whole, with a fingerprint that tells whether it must be. */
import type { Look } from '../draw/look.ts';
import type { PanelKind } from '../protocol.ts';

export interface PreviewContent {
  readonly id: string;
  readonly hash: string;
  readonly content: string;
}

/** What is open below the music. */
export interface OpenPanel {
  readonly kind: PanelKind;
  readonly title: string;
  readonly blocks: readonly PreviewContent[];
}

/** How a drawing is made: for whom, and by how much larger than its usual size. */
export interface DrawnAs extends Look {
  readonly scale: number;
}

export const block = (id: string, content: string): PreviewContent => ({ id, hash: hashOf(content), content });

const HASH_PRIME = 0x01000193;
const HASH_STARTS = [0x811c9dc5, 0x2f0b4a67] as const;

/** A quick fingerprint (Fowler, Noll and Vo's, 32 bits, twice with different starts) to tell drawings apart; no secret. */
export function hashOf(text: string): string {
  return HASH_STARTS.map((start) => {
    let hash = start as number;
    for (let index = 0; index < text.length; index++) hash = Math.imul(hash ^ text.charCodeAt(index), HASH_PRIME);
    return (hash >>> 0).toString(36);
  }).join('.');
}
