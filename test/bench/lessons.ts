/** Lessons for the benchmarks: an evening of six sections, the same with all that can be said of it, and long ones that are written out. */

export const ROOTS = ['C', 'D', 'E', 'F', 'G', 'A', 'B', 'Bb', 'Eb', 'F#'];
export const KINDS = ['', 'm', '7', 'm7', 'maj7', 'sus4', 'add9', '6'];

const PARTS = 6;
const BARS = 16;

/** So many sections, each with its own progression, cell and contour, over shapes of three and four strings. */
export function evening(parts = PARTS): string {
  const lines = [
    '; A lesson of some thirty lines a section.',
    'lesson "A long evening"',
    '  level 3',
    '',
    'key G major',
    'meter 4/4',
  ];
  lines.push('tempo 84', '', 'shape lamp', '  strings 4 2 1', '  tones 3 R 5', '  open 3', '  frets 1 to 12', '');
  lines.push('shape bell', '  strings 4 3 2 1', '  frets 0 to 9', '  reach 3', '');
  for (let part = 0; part < parts; part++) {
    lines.push(`; Part ${part + 1}.`, `progression row-${part}`);
    for (let row = 0; row < 4; row++) {
      const chord = (bar: number): string => {
        const number = part * BARS + row * 4 + bar;
        return ROOTS[(number * 3) % 6] + KINDS[(number * 7) % 4];
      };
      lines.push(`  ${[0, 1, 2, 3].map(chord).join(' | ')}`);
    }
    lines.push('', `cell hand-${part}`, '  each 1/8', `  p4 i3 m2 i3 a1 i3 m2 ${['i3', 'p4', 'm2'][part % 3]}`, '');
    lines.push(`contour line-${part} on 1`, '  each 1/4', `  from 5: 0 -1 0 ${part % 2 ? '+1' : '-1'}`, '');
    lines.push(
      `section part-${part} "Part ${part + 1}"`,
      `  progression row-${part}`,
      `  shape ${part % 2 ? 'lamp' : 'bell'}`,
    );
    lines.push(
      `  cell hand-${part}`,
      `  contour line-${part}`,
      '',
      'text',
      `  ## Part ${part + 1}`,
      '  Let the open string ring.',
      '',
    );
  }
  return `${lines.join('\n')}\n`;
}

/** The same with ten claims, three variants and thirty facts. */
export function toldEvening(): string {
  const claims = [
    'playable at 80',
    'no barre',
    'reach at most 3',
    'frets 0 to 12',
    'scale G major in part-1',
    'same contour throughout',
    'melody starts on 5',
    'open 3 throughout in part-1',
    'common tone G3 throughout in part-3',
    'part-0 bar 1 is C',
  ];
  const variants = [
    ['variant slow', '  tempo 60', '  level 1'],
    ['variant low', '  key D major', '  capo 2'],
    ['variant small', '  hand small', '  shape bell instead of lamp'],
  ];
  const facts = ['chord', 'sounds', 'frets', 'reach', 'fingers'];
  const prose = Array.from({ length: PARTS }, (_, part) => [
    'text',
    `  ${facts.map((fact, at) => `In bar ${at + 1} it is {part-${part}.${at + 1}.${fact}}.`).join(' ')}`,
  ]);
  const more = [claims.map((claim) => `claim ${claim}`), ...variants, ...prose];
  return `${evening()}${more.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

/** One section of so many bars: open chords in eighths, and a melody in quarters that is written out over them. */
export function sungLesson(bars: number): string {
  const chord = (bar: number): string => ROOTS[(bar * 3) % 6] + KINDS[(bar * 7) % 4];
  const notes = (bar: number): string => [0, 2, 3, 1].map((step) => `${(bar + step) % 5}`).join(' ');
  return writtenLesson('melody tune on 1', bars, notes, [
    'progression row',
    rowsOf(bars, chord),
    '',
    'cell hand',
    '  each 1/8',
    '  p(bass) i3 m2 i3 a1 i3 m2 i3',
    '',
    'section verse',
    '  progression row',
    '  cell hand',
    '  melody tune',
  ]);
}

function writtenLesson(head: string, bars: number, notes: (bar: number) => string, parts: readonly string[]): string {
  return `${['lesson "A long line"', '', head, '  each 1/4', rowsOf(bars, notes), '', ...parts].join('\n')}\n`;
}

const rowsOf = (bars: number, write: (bar: number) => string): string =>
  Array.from(
    { length: Math.ceil(bars / 4) },
    (_, row) => `  ${[0, 1, 2, 3].map((bar) => write(row * 4 + bar)).join(' | ')}`,
  ).join('\n');

/** One tab of so many bars, in blocks of four: a bass and a tune in eighths, with the plucking hand. */
export function tabLesson(bars: number): string {
  const blocks = Array.from({ length: Math.ceil(bars / 4) }, (_, block) => {
    const row = (step: (eighth: number, bar: number) => string): string =>
      [0, 1, 2, 3]
        .map((bar) => Array.from({ length: 8 }, (_, eighth) => step(eighth, block * 4 + bar)).join(' '))
        .join(' | ');
    return [
      `  1 | ${row((eighth, bar) => (eighth % 2 ? `${(bar + eighth) % 4}` : '-'))} |`,
      `  2 | ${row((eighth, bar) => (eighth % 4 === 2 ? `${bar % 3}` : '-'))} |`,
      `  5 | ${row((eighth, bar) => (eighth % 4 === 0 ? `${(bar + eighth / 4) % 4}` : '-'))} |`,
    ].join('\n');
  });
  return `${['lesson "A long tab"', '', 'tab piece', '  each 1/8', blocks.join('\n\n'), '', 'section verse', '  tab piece'].join('\n')}\n`;
}
