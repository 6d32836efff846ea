/** What generated lessons make of their parts: sections, claims, prose, variants and a plan of practice. */
import type { Dice } from './dice.ts';
import { MAJOR_TONICS, type Ground, type Parts } from './generate-parts.ts';

export function sections(ground: Ground, parts: Parts): readonly string[] {
  const { dice, names } = ground;
  const blocks: string[] = [];
  const made = parts.progressions.map(({ name, bars }) => {
    const section = dice.chance(30) ? name : names.fresh();
    blocks.push(sectionOf(ground, parts, section, name, bars));
    return { name: section, bars };
  });
  const first = made[0];
  if (dice.chance(40)) blocks.push(`form ${[...made, dice.pick(made)].map((one) => one.name).join(' ')}`);
  if (dice.chance(50))
    blocks.push(
      claims(ground, made)
        .map((claim) => `claim ${claim}`)
        .join('\n'),
    );
  if (dice.chance(60)) blocks.push(prose(ground, first.name));
  if (dice.chance(15)) blocks.push('note\n  Play it once before you explain it; let them guess.');
  if (dice.chance(40)) blocks.push(shows(dice, first));
  if (dice.chance(35)) blocks.push(variant(ground, parts, made));
  if (dice.chance(40)) blocks.push(['practice', ...steps(ground, made)].join('\n'));
  return blocks;
}

function sectionOf(ground: Ground, parts: Parts, name: string, progressionName: string, bars: number): string {
  const { dice, names, meter } = ground;
  const lines = [`  progression ${progressionName}`];
  const half = Math.max(1, bars >> 1);
  if (parts.shapes.length > 1 && bars > 1 && dice.chance(25))
    lines.push(
      `  shape ${parts.shapes[0]} bars 1 to ${half}`,
      `  shape ${parts.shapes[1]} bars ${half + 1} to ${bars}`,
    );
  else if (dice.chance(85)) lines.push(`  shape ${dice.pick(parts.shapes)}`);
  lines.push(`  cell ${dice.pick(parts.cells)}`);
  if (parts.contours.length > 0 && dice.chance(70)) lines.push(`  contour ${dice.pick(parts.contours)}`);
  else if (parts.melodies.length > 0) lines.push(`  melody ${dice.pick(parts.melodies)} at bar 1`);
  if (parts.tabs.length > 0 && dice.chance(60)) lines.push(`  tab ${parts.tabs[0]} at bar ${bars}`);
  if (dice.chance(20)) {
    lines.push('  times 2');
    if (parts.progressions.length > 1 && dice.chance(40)) lines.push(`  ending 2 ${parts.progressions[1].name}`);
  }
  if (parts.melodies.length > 0 && dice.chance(20)) lines.push('  pickup 1/4', '  words low- tide | lan- terns');
  if (dice.chance(8)) lines.push(`  key ${dice.pick(MAJOR_TONICS)} major`);
  if (dice.chance(5)) lines.push(`  meter ${meter}`);
  if (dice.chance(8)) lines.push(`  tempo ${dice.between(60, 120)}`);
  return [`section ${name}${dice.chance(60) ? ` ${names.title()}` : ''}`, ...lines].join('\n');
}

interface Made {
  readonly name: string;
  readonly bars: number;
}

function claims({ dice, tonic, mode }: Ground, made: readonly Made[]): readonly string[] {
  const section = dice.pick(made);
  const bar = dice.between(1, section.bars);
  const all = [
    'open 3 throughout',
    `${section.name} bar ${bar} is ${tonic}`,
    `${section.name} bar ${bar} chord 1 is ${tonic}`,
    `bar ${bar} tones 3 5 R`,
    `bar ${bar} open 3 adds 11`,
    `melody starts on 5${dice.chance(30) ? ` except bar ${bar}` : ''}`,
    `melody D4 C4 B3 in bar ${bar}`,
    'same contour throughout',
    `scale ${tonic} ${mode}`,
    `playable at ${dice.between(60, 120)}${dice.chance(30) ? ` in ${section.name}` : ''}`,
    `reach at most ${dice.between(2, 4)}`,
    'no barre',
    'frets 0 to 15',
    'thumb alternates throughout',
    'common tone G3 throughout',
  ];
  return dice.some(all, dice.between(1, 4));
}

const prose = ({ dice, names }: Ground, section: string): string =>
  [
    'text',
    `  ## ${names.title().replaceAll(/["\\]/g, '')}`,
    `  Over {${section}.1.chord} the hand stays where it was; it sounds {${section}.1.sounds}.`,
    ...(dice.chance(40)
      ? ['', '  - Let every note ring.', '  - Count aloud; then *play*.', String.raw`  - A brace is \{.`]
      : []),
  ].join('\n');

function shows(dice: Dice, { name, bars }: Made): string {
  const range = dice.chance(60) ? ` bars 1 to ${Math.min(bars, 4)}` : '';
  return `show ${name}${range}${dice.chance(40) ? ` as ${dice.pick(['tab', 'diagrams', 'neck'])}` : ''}`;
}

function steps({ dice, names }: Ground, made: readonly Made[]): readonly string[] {
  const section = dice.pick(made);
  return Array.from({ length: dice.between(1, 4) }, () => {
    const slow = dice.between(40, 70);
    const pace = dice.chance(60) ? `at ${slow}` : `from ${slow} to ${slow + 30} by ${dice.pick([5, 6, 10])}`;
    const minutes = dice.chance(50) ? ` for ${dice.between(2, 8)} minutes` : '';
    const place = dice.chance(30)
      ? ` in ${section.name}${dice.chance(50) ? ` bars 1 to ${Math.min(2, section.bars)}` : ''}`
      : '';
    return `  step ${names.title()} ${pace}${minutes}${place}`;
  });
}

function variant(ground: Ground, parts: Parts, made: readonly Made[]): string {
  const { dice, names, strings } = ground;
  const lines = [
    `  capo ${dice.between(1, 5)}`,
    `  tempo ${dice.between(40, 70)}`,
    `  level ${dice.between(1, 5)}`,
    `  key ${dice.pick(MAJOR_TONICS)} major`,
    `  hand ${dice.pick(['small', 'large'])}`,
    `  meter ${ground.meter}`,
    '  swing 1/8',
    '  frets 15',
    '  scale-length 600 mm',
    ...(strings === 6 ? ['  tuning standard'] : []),
    '  claim no barre',
    ...steps(ground, made).slice(0, 1),
  ];
  const chosen = dice.some(lines, dice.between(1, 4));
  if (chosen.every((line) => !line.includes('capo')) && dice.chance(20)) chosen.unshift('  no capo');
  const kinds: readonly (readonly [string, readonly string[]])[] = [
    ['shape', parts.shapes],
    ['cell', parts.cells],
    ['contour', parts.contours],
    ['melody', parts.melodies],
    ['tab', parts.tabs],
    ['progression', parts.progressions.map((one) => one.name)],
  ];
  for (const [kind, list] of kinds)
    if (list.length > 0 && dice.chance(15)) chosen.push(`  ${kind} ${list[list.length - 1]} instead of ${list[0]}`);
  return [`variant ${names.fresh()} ${names.title()}`, ...chosen].join('\n');
}
