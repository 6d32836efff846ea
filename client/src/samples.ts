/** The sample lessons that come with the extension. Named here, since a browser cannot list a folder at a web address. */

export interface Sample {
  /** In the folder of the samples. */
  readonly file: string;
  readonly title: string;
  /** 1 to 5. */
  readonly level: number;
  /** Its first line, which says what it teaches. */
  readonly teaches: string;
}

/** The one to begin with, then the others from the easiest on. */
export const SAMPLES: readonly Sample[] = [
  {
    file: 'harbour-lamps.lesson',
    title: 'Harbour lamps',
    level: 3,
    teaches: 'Move a three-note shape along the neck while one open string rings inside every chord.',
  },
  {
    file: 'kite-weather.lesson',
    title: 'Kite weather',
    level: 1,
    teaches: 'On four strings every chord is a melody: let its highest note sing, in three, on a ukulele.',
  },
  {
    file: 'rain-on-the-window.lesson',
    title: 'Rain on the window',
    level: 1,
    teaches:
      'A first evening with a pick: three chords that are one shape of the hand, one strum, and words that fall on the strokes.',
  },
  {
    file: 'hay-on-the-wagon.lesson',
    title: 'Hay on the wagon',
    level: 1,
    teaches:
      'Sing a whole song over one strum: a pick-up on the low D, words under every note, and a last line that ends twice.',
  },
  {
    file: 'after-the-concert.lesson',
    title: 'After the concert',
    level: 3,
    teaches:
      'Everything a lesson may hold, around one small piece: two sections, a tab to end with, claims, prose and a plan.',
  },
  {
    file: 'before-the-bakery.lesson',
    title: 'Before the bakery opens',
    level: 3,
    teaches:
      'Hear a dominant of each step: in numerals it is written V7/V, and in the hand it is a plain seventh chord.',
  },
  {
    file: 'greensleeves.lesson',
    title: 'Greensleeves for one guitar',
    level: 3,
    teaches:
      'Play a tune and its bass with one hand: a whole piece written out, with a pick-up, two endings and all that the fingers do.',
  },
  {
    file: 'half-open-gate.lesson',
    title: 'The half-open gate',
    level: 3,
    teaches:
      'A capo over three strings only: dadgad without turning a peg, thirds that climb the middle, and four strings that hold still.',
  },
  {
    file: 'last-orders.lesson',
    title: 'Last orders at the ferry inn',
    level: 3,
    teaches:
      'Twelve bars of blues in numerals: a swung shuffle under the thumb, fills where a singer breathes, a turnaround, and a lick.',
  },
  {
    file: 'let-them-ring.lesson',
    title: 'Let them ring',
    level: 3,
    teaches:
      'Let a shape choose its own open strings: which colours they may add, which they may not, and what must lie on top.',
  },
  {
    file: 'millpond.lesson',
    title: 'Millpond, early',
    level: 3,
    teaches: 'In open-g the thumb has three strings that always fit, so that the fingers are free to walk above them.',
  },
  {
    file: 'one-song-for-everybody.lesson',
    title: 'One song for everybody',
    level: 3,
    teaches:
      'One song for a whole class: each variant changes the guitar, the hand, the beat or a single part, and the rest stays true.',
  },
  {
    file: 'orchard-wall.lesson',
    title: 'Along the orchard wall',
    level: 3,
    teaches:
      'In open-d a straight line is a major chord and a bent one is minor: read both from one shape, over two strings that ring.',
  },
  {
    file: 'rope-ferry.lesson',
    title: 'The rope ferry',
    level: 3,
    teaches: 'Keep the low D ringing in drop-d while close triads move above it, and count six as two.',
  },
  {
    file: 'slate-roof.lesson',
    title: 'Rain on a slate roof',
    level: 3,
    teaches: 'Two strings move in sixths while three stay open: a whole harmony from two fingers in dadgad.',
  },
  {
    file: 'the-late-bus.lesson',
    title: 'The late bus',
    level: 3,
    teaches:
      'Say more of a chord than its name: held, pushed, repeated, left out, over another bass, with a stroke or a scale of its own.',
  },
  {
    file: 'three-towers.lesson',
    title: 'Three towers and two',
    level: 3,
    teaches: 'Count five as three and two: the thumb says where the bar begins and where it turns.',
  },
  {
    file: 'what-the-ferryman-swears.lesson',
    title: 'What the ferryman swears',
    level: 3,
    teaches:
      'Say what must be true, and have it checked in every bar: each kind of claim once, in a song that keeps a note through every chord.',
  },
  {
    file: 'night-tram.lesson',
    title: 'The last tram',
    level: 4,
    teaches:
      'Seven strings leave room: a root far below, and third and seventh in the middle where the ear wants them.',
  },
  {
    file: 'one-note-many-ways.lesson',
    title: 'One note, many ways',
    level: 4,
    teaches:
      'A note is more than its fret: struck, hammered, bent, shaken, muted, slapped and tapped, each way in two bars of its own.',
  },
];
