/** Fingers of the plucking hand, or its strokes, that are asked to go faster than they can, or than is easy. */
import type { Rates } from '../hand/model.ts';
import { speedOf, type RemarkKind } from '../hand/plucking.ts';
import type { Severity } from '../util/finding.ts';
import type { Context, Found, Rule } from './rule.ts';
import { isForBeginners } from './shared/level.ts';
import { pluckersNamed, remarksOn, strokesOn, type PlacedRemark, type PlacedStroke } from './shared/plucks.ts';
import { outward, quoted } from './shared/words.ts';

const KINDS: ReadonlySet<RemarkKind> = new Set<RemarkKind>(['finger-fast', 'hand-fast', 'hop']);

export const rule: Rule = {
  code: 'finger-too-fast',
  severity: 'warning',
  topic: 'hands',
  title: 'A finger that plucks too fast',
  why: 'One finger or the thumb plucks three times a second with ease, five with effort and six and a half at the most, ring and little finger a seventh less; two fingers in turn reach thirteen, three or four fourteen. Beyond that the notes blur, whoever plays. The strumming arm swings six and a half times a second at the most, so that strokes to and fro come thirteen times, down-strokes alone six and a half. With `swing` the shorter of two notes counts. What is only hard, or a finger that must hurry from string to string, is a hint. A slower tempo or another finger mends it.',
  care: true,
  bad: `tempo 120

progression quay
  Em

cell ripple
  each 1/16
  p6 p6 i3 m2 p6 p6 i3 m2

section verse
  progression quay
  cell ripple
`,
  good: `tempo 60

progression quay
  Em

cell ripple
  each 1/16
  p6 p6 i3 m2 p6 p6 i3 m2

section verse
  progression quay
  cell ripple
`,
  check: (context) => [
    ...remarksOn(context, KINDS).map((remark) => findingFor(remark, context)),
    ...strokesOn(context).map((stroke) => strokeFinding(stroke, context)),
  ],
};

function findingFor(remark: PlacedRemark, context: Context): Found {
  const { kind, fingers, strings, rate = 0, rates, span } = remark;
  const who = pluckersNamed(fingers);
  if (kind === 'hop' || !rates) {
    const way = `from string ${strings[0]} to ${strings[1]}`;
    const message = `${who} must go ${way} ${where(remark)} at ${Math.round(rate * 10) / 10} notes a second; another finger would have more time.`;
    return { span, severity: 'hint', message };
  }
  const does = fingers.length === 1 ? 'plucks' : 'in turn pluck';
  const { told, limits, slower, severity } = measured(remark, rate, rates, context);
  const message = `${who} ${does} ${told} notes a second ${where(remark)}, and ${limits}; ${slower}, or share them out.`;
  return { span, severity, message };
}

function strokeFinding(stroke: PlacedStroke, context: Context): Found {
  const { way, rate, rates, span } = stroke;
  const { told, limits, slower, severity } = measured(stroke, rate, rates, context);
  const does = way === 'to and fro' ? `makes ${told} strokes` : `strikes ${way} ${told} times`;
  const instead =
    way === 'to and fro' ? 'leave strokes out' : `let every second one go ${way === 'down' ? 'up' : 'down'}`;
  const message = `The strumming hand ${does} a second ${where(stroke)}, and ${limits}; ${slower}, or ${instead}.`;
  return { span, severity, message };
}

const where = ({ cell, chord }: PlacedRemark | PlacedStroke): string =>
  cell ? `in ${quoted(cell.name)}` : `in bar ${chord.bar.number}`;

interface Measured {
  readonly told: number;
  readonly limits: string;
  readonly slower: string;
  readonly severity: Severity;
}

/** A rate that is hard or beyond, in words and beside its limit. */
function measured({ chord }: PlacedRemark | PlacedStroke, rate: number, rates: Rates, context: Context): Measured {
  const isBeyond = speedOf(rate, rates) === 'beyond';
  const most = Math.round((isBeyond ? rates.limit : rates.hard) * 10) / 10;
  const told = outward(rate, most, 10);
  const tempo = Math.floor((chord.section.plan.tempo.perMinute * most) / told);
  return {
    told,
    limits: isBeyond ? `${most} is the most` : `above ${most} is hard`,
    slower: `play at ${tempo} beats a minute`,
    severity: isBeyond || isForBeginners(context) ? 'warning' : 'hint',
  };
}
