/** What a new lesson starts from: a few bars that sound, to be written over. */

export const FIRST_LESSON = `lesson "Untitled lesson"
  level 2

key C major
meter 4/4
tempo 72
tuning standard
hand medium

; Which strings carry a chord, and what each of them sounds.
shape bell
  strings 5 4 3
  tones R 3 5
  frets 0 to 12

progression path
  C | Am | F | G

; What the plucking hand repeats in every bar.
cell sway
  each 1/8
  p5 i4 m3 i4 p5 i4 m3 i4

section verse
  progression path
  shape bell
  cell sway
`;
