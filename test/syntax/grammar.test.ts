import assert from 'node:assert/strict';
import { lesson } from '../support/syntax-outline.ts';
import { coloured } from '../support/tokens.ts';

async function colours(text: string, expected: string): Promise<void> {
  assert.equal(await coloured(text.trimEnd()), expected.trimEnd());
}

describe('colours', () => {
  it('settings', () =>
    colours(
      lesson`
        tuning drop-d
        tuning D2 A♭2 half-step
        capo 2 on 5 4 3
        no capo
        scale-length 648 mm
        hand medium
        key F# harmonic minor
        meter 6/8
        tempo 3/8 = 60
      `,
      lesson`
        tuning[statement] drop-d[tuning]
        tuning[statement] D2[note] A♭2[note] half-step[tuning]
        capo[statement] 2[number] on[word] 5[number] 4[number] 3[number]
        no[statement] capo[word]
        scale-length[statement] 648[number] mm[word]
        hand[statement] medium[choice]
        key[statement] F#[note] harmonic[mode] minor[mode]
        meter[statement] 6/8[length]
        tempo[statement] 3/8[length] =[sign] 60[number]
      `,
    ));
  it('the head of a lesson, with escapes', () =>
    colours(
      'lesson "A \\"lamp\\""\n  level 3\n  focus “a”, "b"\nuse lamp, bell from "a.lesson"\ncourse "C"\n  starts 2030-01-07\n',
      lesson`
        lesson[statement] " A[title] \"[escape] lamp[title] \"[escape] "
        level[line] 3[number]
        focus[line] “ a[title] ” , " b[title] "
        use[statement] lamp[name] , bell[name] from[word] " a.lesson[title] "
        course[statement] " C[title] "
        starts[line] 2030-01-07[date]
      `,
    ));
  it('a shape and a grip', () =>
    colours(
      lesson`
        shape lamp ; three strings
          strings 4 2 1
          tones ♭3 R any

          open any
          frets 1 to 12
          spacing close
        grip A x-0-2-2-2-0
          fingers x01230
      `,
      lesson`
        shape[statement] lamp[new name] ; three strings[comment]
        strings[line] 4[number] 2[number] 1[number]
        tones[line] ♭3[tone] R[tone] any[tone]

        open[line] any[word]
        frets[line] 1[number] to[word] 12[number]
        spacing[line] close[choice]
        grip[statement] A[chord] x-0-2-2-2-0[frets]
        fingers[line] x01230[frets]
      `,
    ));
  it('a progression: chords, numerals, modifiers and what stands behind them', () =>
    colours(
      lesson`
        progression quay in E minor
          | G in E harmonic minor held Am | V7/V as x79900 | bVII over D | C7(b9, #11) at 8 / |
          ii° | % | N.C. | D/F# with thumb-five pushed as barre
      `,
      lesson`
        progression[statement] quay[new name] in[word] E[note] minor[mode]
        | G[chord] in[modifier] E[note] harmonic[mode] minor[mode] held[modifier] Am[chord] | V7/V[numeral] as[modifier] x79900[frets] | bVII[numeral] over[modifier] D[note] | C7(b9, #11)[chord] at[modifier] 8[number] /[sign] |
        ii°[numeral] | %[sign] | N.C.[sign] | D/F#[chord] with[modifier] thumb-five[name] pushed[modifier] as[modifier] barre[name]
      `,
    ));
  it('a cell, a contour and a melody', () =>
    colours(
      lesson`
        cell ripple in 6/8
          each 1/8 triplet
          p6+a1> p(bass) down(4 to 1) 1/4 triplet(i3 m2) - r
        contour swell on top
          from 5 or R: 0 +1# 1/2 b3
          with a
        melody landing on 1
          7 8 5 /7 | 2: 5 7h8 - (5) 3/4 x
      `,
      lesson`
        cell[statement] ripple[new name] in[word] 6/8[length]
        each[line] 1/8[length] triplet[word]
        p[finger] 6[number] +[pinch] a[finger] 1[number] >[accent] p[finger] ( bass[aim] ) down[stroke] ( 4[number] to[word] 1[number] ) 1/4[length] triplet[word] ( i[finger] 3[number] m[finger] 2[number] ) -[hold] r[rest]
        contour[statement] swell[new name] on[word] top[choice]
        from[line] 5[tone] or[word] R[tone] : 0[step] +1[step] #[bent] 1/2[length] b3[tone]
        with[line] a[finger]
        melody[statement] landing[new name] on[word] 1[number]
        7[fret] 8[fret] 5[fret] /[technique] 7[fret] | 2[number] : 5[fret] 7[fret] h[technique] 8[fret] -[hold] ([technique] 5[fret] )[technique] 3/4[length] x[dead]
      `,
    ));
  it('a tab, where 1/4 is a slide', () =>
    colours(
      lesson`
        tab coda
          chords G | C / N.C.
          1 | 0 - <12> | 7b9r7 1/4 r
          pluck p i | p+a
          fingers 3 - | 3+1 ...
          2 | ... | g5h7>
      `,
      lesson`
        tab[statement] coda[new name]
        chords[line] G[chord] | C[chord] /[sign] N.C.[sign]
        1[number] | 0[fret] -[hold] <[technique] 12[fret] >[technique] | 7[fret] b[technique] 9[fret] r[technique] 7[fret] 1[fret] /[technique] 4[fret] r[rest]
        pluck[line] p[finger] i[finger] | p[finger] +[pinch] a[finger]
        fingers[line] 3[fretting finger] -[hold] | 3[fretting finger] +[pinch] 1[fretting finger] ...[as before]
        2[number] | ...[as before] | g[technique] 5[fret] h[technique] 7[fret] >[technique]
      `,
    ));
  it('a name that is spelt like a keyword is a name where a name stands', () =>
    colours(
      lesson`
        section bars "B"
          shape bars bars 1 to 4
          progression at at bar 8
          words at the bar
        form verse in coda
      `,
      lesson`
        section[statement] bars[new name] " B[title] "
        shape[line] bars[name] bars[word] 1[number] to[word] 4[number]
        progression[line] at[name] at[word] bar[word] 8[number]
        words[line] at[syllable] the[syllable] bar[syllable]
        form[statement] verse[name] in[name] coda[name]
      `,
    ));
  it('claims', () =>
    colours(
      lesson`
        claim verse bar 2 is Dadd11/F#
        claim melody D4 C4 in bar 3
        claim reach at most 2 in verse
        claim melody starts on 5 except bars 4 to 5
      `,
      lesson`
        claim[statement] verse[name] bar[word] 2[number] is[word] Dadd11/F#[chord]
        claim[statement] melody[word] D4[note] C4[note] in[word] bar[word] 3[number]
        claim[statement] reach[word] at[word] most[word] 2[number] in[word] verse[name]
        claim[statement] melody[word] starts[word] on[word] 5[tone] except[word] bars[word] 4[number] to[word] 5[number]
      `,
    ));
  it('prose is Markdown, its facts are seen in it, and a semicolon is none of it but in the first column', () =>
    colours(
      'text\n  ## Open strings\n  So *it* rings: {verse.1.string4.note} ; so\n; aside {x}\n  a \\{ brace\n\n  more\nshow verse\n',
      lesson`
        text[statement]
        ## Open strings[heading]
        So[prose] *it*[italic] rings:[prose] { verse[fact] . 1[number] . string4[fact] . note[fact] } ; so[prose]
        ; aside {x}[comment]
        a[prose] \{[escape] brace[prose]

        more[prose]
        show[statement] verse[name]
      `,
    ));
  it('a finding that is allowed', () =>
    colours(
      'key G major ; allow key-unusual\n; allow key-unusual\n; allow it\n',
      lesson`
        key[statement] G[note] major[mode] ; allow[allow] key-unusual[finding]
        ; allow[allow] key-unusual[finding]
        ; allow[allow] it[finding]
      `,
    ));
  it('what is not known has no colour, and takes none from its neighbours', () =>
    colours(
      lesson`
        shape lamp
          wibble 3
          reach 2
        wobble 3
          reach 2
        key G major
      `,
      lesson`
        shape[statement] lamp[new name]
        wibble 3
        reach[line] 2[number]
        wobble 3
        reach 2
        key[statement] G[note] major[mode]
      `,
    ));
  it('a line that lost its indent still belongs to the body', () =>
    colours(
      'shape lamp\nstrings 4 2\n  reach 2\n',
      'shape[statement] lamp[new name]\nstrings[line] 4[number] 2[number]\nreach[line] 2[number]\n',
    ));
  it('a title that never ends costs its own line', () =>
    colours(
      'lesson "Lamps\n  level 3\nkey G major\n',
      'lesson[statement] " Lamps[title]\nlevel[line] 3[number]\nkey[statement] G[note] major[mode]\n',
    ));
});
