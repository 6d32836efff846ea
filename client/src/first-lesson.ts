/** What a new lesson starts from: a few bars that sound, to be written over. */

export const FIRST_LESSON = `lesson "Untitled lesson"
  level 2

key G major
meter 4/4
tempo 60
tuning standard
hand medium

; Which strings carry a chord. The others stay silent.
shape bell
  strings 4 3 2
  spacing close
  frets 0 to 7

progression path
  G | Em | C | G

; What the plucking hand repeats in every bar.
cell sway
  each 1/8
  p4 i3 m2 i3 p4 i3 m2 i3

section verse
  progression path
  shape bell
  cell sway
`;
