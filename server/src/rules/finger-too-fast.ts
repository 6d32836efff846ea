/** Fingers of the plucking hand that are asked to go faster than they can, or than is easy. */
import { speedOf, type RemarkKind } from '../hand/plucking.ts';
import type { Severity } from '../util/finding.ts';
import type { Context, Found, Rule } from './rule.ts';
import { isForBeginners } from './shared/level.ts';
import { pluckersNamed, remarksOn, type PlacedRemark } from './shared/plucks.ts';
import { quoted } from './shared/words.ts';

const KINDS: ReadonlySet<RemarkKind> = new Set<RemarkKind>(['finger-fast', 'hand-fast', 'hop']);

export const rule: Rule = {
  code: 'finger-too-fast',
  severity: 'warning',
  topic: 'hands',
  title: 'A finger that plucks too fast',
  why: 'One finger or the thumb plucks three times a second with ease, five with effort and six and a half at the most, ring and little finger a seventh less; two fingers in turn reach thirteen, three or four fourteen. Beyond that the notes blur, whoever plays. What is only hard, or a finger that must hurry from string to string, is a hint. A slower tempo or another finger mends it.',
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
  check: (context) => remarksOn(context, KINDS).map((remark) => findingFor(remark, context)),
};

function findingFor(remark: PlacedRemark, context: Context): Found {
  const { kind, fingers, strings, rate = 0, rates, span, chord } = remark;
  const speed = rates && speedOf(rate, rates);
  const who = pluckersNamed(fingers);
  const tempo = chord.section.plan.tempo.perMinute;
  const where = remark.cell ? `in ${quoted(remark.cell.name)}` : `in bar ${chord.bar.number}`;
  if (kind === 'hop') {
    const way = `from string ${strings[0]} to ${strings[1]}`;
    const message = `${who} must go ${way} ${where} at ${inTenths(rate)} notes a second; another finger would have more time.`;
    return { span, severity: 'hint', message };
  }
  const isBeyond = speed === 'beyond';
  const severity: Severity = isBeyond || isForBeginners(context) ? 'warning' : 'hint';
  const most = (isBeyond ? rates?.limit : rates?.hard) ?? 0;
  const does = fingers.length === 1 ? 'plucks' : 'in turn pluck';
  const measured = isBeyond ? `${inTenths(most)} is the most` : `above ${inTenths(most)} is hard`;
  const slower = Math.floor((tempo * most) / rate);
  const message = `${who} ${does} ${inTenths(rate)} notes a second ${where}, and ${measured}; play at ${slower} beats a minute, or share them out.`;
  return { span, severity, message };
}

const inTenths = (rate: number): string => String(Math.round(rate * 10) / 10);
