/** What a page of the live preview may say, with every value checked: it comes from a browser, and anybody may write there. */
import {
  PANELS,
  READINGS,
  type FromPage,
  type PanelAsked,
  type PlaceInText,
  type PreviewChange,
  type PreviewView,
} from '../protocol.ts';

/** Longer than any id of a bar or a list of frets. */
const LONGEST_WORD = 200;

type Values = Readonly<Record<string, unknown>>;

/** Undefined for anything that a page does not say. */
export function messageOf(text: string): FromPage | undefined {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    return undefined;
  }
  const message = valuesOf(read);
  if (!message) return undefined;
  const { kind, width } = message;
  switch (kind) {
    case 'ready':
    case 'resized': {
      if (typeof width !== 'number' || !Number.isFinite(width)) return undefined;
      if (kind === 'resized' || message.view === undefined) return { kind, width };
      const view = viewOf(message.view);
      return view && { kind, width, view };
    }
    case 'view': {
      const view = viewOf(message.view);
      return view && { kind, view };
    }
    case 'change': {
      const { version, bar, chord } = message;
      const change = changeOf(message.change);
      return isCount(version) && isWord(bar) && isCount(chord) && change
        ? { kind, version, bar, chord, change }
        : undefined;
    }
    case 'sound': {
      const { variant } = message;
      return variant === undefined ? { kind } : isWord(variant) ? { kind, variant } : undefined;
    }
    case 'reveal': {
      const place = placeOf(message.place);
      return place && { kind, place };
    }
    default:
      return undefined;
  }
}

const valuesOf = (value: unknown): Values | undefined =>
  typeof value === 'object' && value !== null ? (value as Values) : undefined;

const isCount = (value: unknown): value is number => Number.isSafeInteger(value) && (value as number) >= 0;

const isWord = (value: unknown): value is string => typeof value === 'string' && value.length <= LONGEST_WORD;

function viewOf(value: unknown): PreviewView | undefined {
  const { reading, leftHanded, largePrint, panel } = valuesOf(value) ?? {};
  const known = READINGS.find((one) => one === reading);
  if (!known || typeof leftHanded !== 'boolean' || typeof largePrint !== 'boolean') return undefined;
  const view = { reading: known, leftHanded, largePrint };
  if (panel === undefined) return view;
  const asked = panelOf(panel);
  return asked && { ...view, panel: asked };
}

function panelOf(value: unknown): PanelAsked | undefined {
  const { kind, bar, chord, most } = valuesOf(value) ?? {};
  const known = PANELS.find((one) => one === kind);
  const isRight =
    (bar === undefined || isWord(bar)) &&
    (chord === undefined || isCount(chord)) &&
    (most === undefined || isCount(most));
  if (!known || !isRight) return undefined;
  return {
    kind: known,
    ...(bar !== undefined && { bar }),
    ...(chord !== undefined && { chord }),
    ...(most !== undefined && { most }),
  };
}

function changeOf(value: unknown): PreviewChange | undefined {
  const { kind, frets, string, rings } = valuesOf(value) ?? {};
  if (kind === 'pin') return isWord(frets) ? { kind, frets } : undefined;
  if (kind === 'unpin') return { kind };
  return kind === 'open' && isCount(string) && typeof rings === 'boolean' ? { kind, string, rings } : undefined;
}

function placeOf(value: unknown): PlaceInText | undefined {
  const { startLine, startCharacter, endLine, endCharacter } = valuesOf(value) ?? {};
  const isPlace = isCount(startLine) && isCount(startCharacter) && isCount(endLine) && isCount(endCharacter);
  return isPlace ? { startLine, startCharacter, endLine, endCharacter } : undefined;
}
