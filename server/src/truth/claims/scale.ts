/** `scale A minor pentatonic`: every note of the melodies and tabs lies in it, or where there are none, every note that sounds. */
import type { NoteEvent } from '../../realise/score.ts';
import { formatKey, keyOf, modeNames, type Key } from '../../theory/key.ts';
import { formatNoteName, formatPitch, sameSound, semitone, type NoteName, type Pitch } from '../../theory/note.ts';
import type { Predicate, Said } from './judgement.ts';
import { barNamed, barsOn, chordsOf, isPitched, judgedBy, shapesOn, type PlayedBar, type Stage } from './stage.ts';

/** Scales that are offered in the place of one that does not fit: those that players meet first. */
const COMMON_MODES = 15;

interface SoundingBar extends PlayedBar {
  readonly pitches: readonly Pitch[];
}

export const scale: Predicate<Said<'scale'>> = {
  judge: ({ key }, stage) => {
    const { bars, missing } = soundingBars(stage);
    const strangeIn = ({ pitches }: SoundingBar): Pitch | undefined => pitches.find((pitch) => !isIn(key, pitch));
    return judgedBy(
      stage,
      { shaped: bars, missing },
      (bar) => strangeIn(bar) !== undefined,
      (first) => {
        const strange = strangeIn(first)!;
        const truth = `${barNamed(stage, first)} sounds ${formatPitch(strange)}, which ${formatKey(key)} does not have`;
        const right = scaleFor(stage, bars, key.tonic);
        return right ? { truth, repair: { key: formatKey(right) } } : { truth };
      },
    );
  },
  why: ({ key }, stage) => {
    const names = namesIn(soundingBars(stage).bars);
    const rest = key.scale.filter((note) => !names.some((name) => sameSound(name, note)));
    const unused = rest.length === 0 ? '' : `; ${rest.map(formatNoteName).join(' ')} of it does not sound`;
    return `${whatSounds(stage)} has ${names.map(formatNoteName).join(' ')}${unused}.`;
  },
  truths: (stage) => {
    const { bars, missing } = soundingBars(stage);
    if (bars.length === 0 || missing !== undefined) return [];
    const tonics = [stage.lesson.settings.key, ...stage.sections.map((index) => stage.lesson.sections[index].plan.key)];
    const found = tonics.flatMap(({ tonic }) => scaleFor(stage, bars, tonic) ?? []);
    return [...new Set(found.map(formatKey))].map((name) => ({
      text: `scale ${name}`,
      detail: namesIn(bars).map(formatNoteName).join(' '),
    }));
  },
};

const isIn = ({ scale: notes }: Key, pitch: NoteName): boolean => notes.some((note) => sameSound(note, pitch));

const isTold = (event: NoteEvent): boolean =>
  (event.voice === 'melody' || event.voice === 'written') && isPitched(event);

const whatSounds = (stage: Stage): string =>
  barsOn(stage).some(({ played }) => played.events.some(isTold)) ? 'The melody' : 'All that sounds';

/** Pitches are named as the shapes are, seen from a capo. */
function soundingBars(stage: Stage): { readonly bars: readonly SoundingBar[]; readonly missing?: string } {
  const all = barsOn(stage);
  const told = all
    .map((bar) => ({ ...bar, pitches: bar.played.events.filter(isTold).map(({ shapePitch }) => shapePitch) }))
    .filter(({ pitches }) => pitches.length > 0);
  const { missing } = shapesOn(stage);
  if (told.length > 0) return { bars: told, ...(missing !== undefined && { missing }) };
  const bars = all
    .map((bar) => {
      const held = chordsOf(bar).flatMap(({ score }) => score.voicing?.strings ?? []);
      return { ...bar, pitches: [...held, ...bar.played.events.filter(isPitched)].map(({ shapePitch }) => shapePitch) };
    })
    .filter(({ pitches }) => pitches.length > 0);
  return { bars, ...(missing !== undefined && { missing }) };
}

/** The names that sound, each once, from C up. */
function namesIn(bars: readonly SoundingBar[]): readonly NoteName[] {
  const names = new Map<number, NoteName>();
  for (const { pitches } of bars)
    for (const pitch of pitches) names.set(semitone(pitch), names.get(semitone(pitch)) ?? pitch);
  return [...names].sort(([a], [b]) => a - b).map(([, name]) => name);
}

/** The lesson's own key where everything lies in it, else the first common scale on the tonic that has all. */
function scaleFor({ lesson }: Stage, bars: readonly SoundingBar[], tonic: NoteName): Key | undefined {
  const names = namesIn(bars);
  const fits = (key: Key | undefined): key is Key => key !== undefined && names.every((name) => isIn(key, name));
  const own = [lesson.settings.key, ...lesson.sections.map(({ plan }) => plan.key)].find(
    (key) => sameSound(key.tonic, tonic) && fits(key),
  );
  const common = modeNames().slice(0, COMMON_MODES);
  return (
    own ??
    common.map((mode) => keyOf(tonic, mode)).find(fits) ??
    (fits(lesson.settings.key) ? lesson.settings.key : undefined)
  );
}
