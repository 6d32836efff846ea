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
  if (dice.chance(15)) blocks.push(prose(ground, first.name));
  if (dice.chance(40)) blocks.push(shows(dice, first));
  if (dice.chance(50)) blocks.push(variant(ground, parts, made));
  if (dice.chance(40)) blocks.push(['practice', ...steps(ground, made)].join('\n'));
  return blocks;
}

function sectionOf(ground: Ground, parts: Parts, name: string, progressionName: string, bars: number): string {
  const { dice, names, meter } = ground;
  const { progressions, shapes, cells, contours, melodies, pickups, tabs } = parts;
  const half = Math.max(1, bars >> 1);
  const places = [
    `bars 1 to ${half}`,
    half < bars ? `bars ${half + 1} to ${bars}` : 'bar 1',
    'bar 1',
    `at bar ${bars}`,
  ];
  /** The part for the whole section, in one place of it, or one part here and another there. */
  const calls = (kind: string, names: readonly string[]): readonly string[] => {
    const [own] = names;
    if (dice.chance(75)) return [`  ${kind} ${own}`];
    const [first, second] = dice.shuffled(places);
    return [`  ${kind} ${own} ${first}`, ...(names.length > 1 ? [`  ${kind} ${names[1]} ${second}`] : [])];
  };
  const lines = [...calls('progression', [progressionName, progressions[0].name])];
  if (dice.chance(85)) lines.push(...calls('shape', dice.shuffled(shapes)));
  lines.push(...calls('cell', dice.shuffled(cells)));
  const melody = melodies.length > 0 && dice.chance(50) ? dice.pick(melodies) : undefined;
  if (melody !== undefined && pickups.includes(melody))
    lines.push('  pickup 1/4', `  melody ${melody}`, ...words(dice));
  else if (melody !== undefined) lines.push(...calls('melody', [melody]), ...(dice.chance(40) ? words(dice) : []));
  else if (contours.length > 0) lines.push(...calls('contour', dice.shuffled(contours)));
  if (tabs.length > 0 && dice.chance(60))
    lines.push(dice.chance(50) ? `  tab ${tabs[0]} at bar ${bars}` : calls('tab', tabs)[0]);
  if (dice.chance(25)) lines.push(`  times ${dice.between(2, 3)}`, ...endings(dice, parts));
  if (dice.chance(8)) lines.push(`  key ${dice.pick(MAJOR_TONICS)} major`);
  if (dice.chance(5)) lines.push(`  meter ${meter}`);
  if (dice.chance(8)) lines.push(`  tempo ${dice.chance(70) ? '' : '1/4 = '}${dice.between(60, 120)}`);
  return [`section ${name}${dice.chance(60) ? ` ${names.title()}` : ''}`, ...lines].join('\n');
}

/** A line of words or two, with what joins syllables, holds them, and goes on to the next bar. */
const words = (dice: Dice): readonly string[] =>
  dice.some(
    [
      '  words low- tide | lan- terns, -',
      '  words so: - slow, | so low',
      '  words what, | now? - the',
      '  words | one | two',
    ],
    dice.between(1, 2),
  );

function endings(dice: Dice, { progressions, tabs }: Parts): readonly string[] {
  const names = [...progressions.map((one) => one.name), ...tabs];
  return dice.some([1, 2, 3], dice.between(0, 2)).map((time) => `  ending ${time} ${dice.pick(names)}`);
}

interface Made {
  readonly name: string;
  readonly bars: number;
}

function claims({ dice, tonic, mode }: Ground, made: readonly Made[]): readonly string[] {
  const section = dice.pick(made);
  const bar = dice.between(1, section.bars);
  const place = `${dice.chance(70) ? `${section.name} ` : ''}bar ${bar}${dice.chance(30) ? ' chord 1' : ''}`;
  const within = dice.chance(30) ? ` in ${section.name}` : '';
  const except = dice.pick(['', '', ` except bar ${bar}`, ` except bars 1 to ${bar}`]);
  const all = [
    `open ${dice.pick(['3', '4 2'])} throughout${within}`,
    `${place} is ${tonic}`,
    `${place} tones 3 5 R`,
    `${place} open 3 adds 11`,
    `melody starts on 5${except}${within}`,
    `melody D4 C4 B3 in bar ${bar}${within}`,
    `same contour throughout${within}`,
    `scale ${tonic} ${mode}${within}`,
    `playable at ${dice.between(60, 120)}${within}`,
    `reach at most ${dice.between(2, 4)}${within}`,
    `no barre${within}`,
    `frets 0 to 15${within}`,
    `thumb alternates throughout${within}`,
    `common tone G3 throughout${within}`,
  ];
  return dice.some(all, dice.between(1, 5));
}

/** What a prose may have worked out, behind a section's name and a bar. */
const CHORD_FACTS = ['chord', 'sounds', 'tones', 'notes', 'frets', 'fingers', 'colour', 'melody', 'reach'];
const OTHER_FACTS = ['title', 'key', 'soundingKey', 'tempo', 'capo'];

function prose({ dice, names }: Ground, section: string): string {
  const fact = (): string =>
    dice.pick([
      `{${section}.1.${dice.pick(CHORD_FACTS)}}`,
      `{${section}.1.1.notes}`,
      `{${section}.1.string${dice.between(1, 4)}.${dice.pick(['interval', 'degree', 'note'])}}`,
      `{${section}.bars}`,
      `{lesson.${dice.pick(OTHER_FACTS)}}`,
    ]);
  return [
    dice.chance(70) ? 'text' : 'note',
    `  ## ${names.title().replaceAll(/["\\]/g, '')}`,
    `  Over ${fact()} the hand stays where it was;   it sounds ${fact()}.`,
    ...(dice.chance(40)
      ? [
          '',
          '',
          '  - Let every note ring.',
          '      - Count aloud; then *play*.',
          String.raw`  - A brace is \{.`,
          '',
          '  | a | b |',
        ]
      : []),
  ].join('\n');
}

function shows(dice: Dice, { name, bars }: Made): string {
  const range = dice.pick(['', ` bars 1 to ${Math.min(bars, 4)}`, ` bar ${bars}`]);
  const view = dice.chance(50) ? ` as ${dice.pick(['tab', 'diagrams', 'neck'])}` : '';
  return `show ${name}${dice.chance(80) ? range + view : view + range}`;
}

function steps({ dice, names }: Ground, made: readonly Made[]): readonly string[] {
  const section = dice.pick(made);
  return Array.from({ length: dice.between(1, 4) }, () => {
    const slow = dice.between(40, 70);
    const pace = dice.chance(60) ? `at ${slow}` : `from ${slow} to ${slow + 30} by ${dice.pick([5, 6, 10])}`;
    const minutes = dice.chance(50) ? ` for ${dice.between(2, 8)} minutes` : '';
    const place = dice.chance(30)
      ? ` in ${section.name}${dice.pick(['', ` bars 1 to ${Math.min(2, section.bars)}`, ' bar 1'])}`
      : '';
    return `  step ${names.title()} ${pace}${dice.chance(80) ? minutes + place : place + minutes}`;
  });
}

function variant(ground: Ground, parts: Parts, made: readonly Made[]): string {
  const { dice, names, strings } = ground;
  const lines = [
    `  capo ${dice.between(1, 5)}${dice.chance(20) ? ' on 3 2' : ''}`,
    `  tempo ${dice.chance(80) ? '' : '1/8 = '}${dice.between(40, 70)}`,
    `  level ${dice.between(1, 5)}`,
    `  key ${dice.pick(MAJOR_TONICS)} major`,
    `  hand ${dice.pick(['small', 'medium', 'large'])}`,
    `  meter ${ground.meter}`,
    '  swing 1/8',
    '  frets 15',
    '  scale-length 600 mm',
    ...(strings === 6 ? ['  tuning standard'] : []),
    ...dice
      .shuffled(claims(ground, made))
      .slice(0, 2)
      .map((claim) => `  claim ${claim}`),
    ...steps(ground, made).slice(0, 1),
  ];
  const chosen = dice.some(lines, dice.between(1, 6));
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
