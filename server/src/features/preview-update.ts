/** The preview as it is sent: whole, but for the content of blocks that the watcher has already. */
import type { Analysis } from '../analyze.ts';
import type { PreviewBlock, PreviewUpdate, PreviewView } from '../protocol.ts';
import type { PreviewContent } from './preview-block.ts';
import { previewOf } from './preview.ts';

export interface Watched {
  readonly uri: string;
  readonly version: number;
  /** In CSS pixels. */
  readonly width: number;
  readonly view: PreviewView;
}

/** By block, the hash of what a watcher shows. */
export type Shown = ReadonlyMap<string, string>;

export function updateOf(
  analysis: Analysis,
  { uri, version, width, view }: Watched,
  has: Shown,
): { readonly update: PreviewUpdate; readonly has: Shown } {
  const { title, facts, blocks, bars, texts, tempo, panel } = previewOf(analysis, width, view);
  const sent = ({ id, hash, content }: PreviewContent): PreviewBlock =>
    has.get(id) === hash ? { id, hash } : { id, hash, content };
  const update: PreviewUpdate = {
    uri,
    version,
    title,
    facts,
    blocks: blocks.map(sent),
    bars,
    texts,
    tempo,
    view,
    ...(panel && { panel: { ...panel, blocks: panel.blocks.map(sent) } }),
  };
  return { update, has: new Map([...blocks, ...(panel?.blocks ?? [])].map(({ id, hash }) => [id, hash])) };
}

/** Whether what was drawn for one view does for the other, whatever panel is open. */
export const drawsAlike = (one: PreviewView, other: PreviewView): boolean =>
  one.reading === other.reading && one.leftHanded === other.leftHanded && one.largePrint === other.largePrint;
