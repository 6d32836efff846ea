/** The look of a drawing that stands by itself as a file: the same classes and sizes as in the preview, colours of its own. */

const SANS = "system-ui,'DejaVu Sans',Verdana,sans-serif";

/** Ink on paper by day, light on dark where the reader's system asks for it. */
export const FILE_STYLES = [
  ':root{--ground:#fcfbf8;--ink:#23262b;--soft:#676b73;--line:#c3c3bd;--melody:#7c2d57;--colour:#17665f;--warn:#8f5200}',
  '@media (prefers-color-scheme:dark){:root{--ground:#1c1e22;--ink:#e7e6e1;--soft:#a0a3ab;--line:#50535a;--melody:#e5a0c4;--colour:#71cbc0;--warn:#e2b466}}',
  `text{font-family:${SANS};fill:var(--ink)}`,
  '.knock{fill:var(--ground)}.here{display:none}',
  '.string,.wire{stroke:var(--line);stroke-width:1}.barline{stroke:var(--soft);stroke-width:1}',
  '.stem{stroke:var(--soft);stroke-width:1.2}.beam{fill:var(--soft)}',
  '.nut{stroke:var(--ink);stroke-width:3}.mute{stroke:var(--soft);stroke-width:1.3}',
  '.fret{font-size:13px;font-variant-numeric:tabular-nums}.fret.open{fill:var(--colour)}',
  '.fret.melody{font-weight:700;fill:var(--melody)}.ring{stroke:var(--melody);stroke-width:1.3}',
  '.symbol{font-size:16px;font-weight:650}.sounds{font-size:11.5px;fill:var(--soft)}.colour{fill:var(--colour)}',
  '.pluck{font-size:11px;font-style:italic;fill:var(--soft)}.small{font-size:10px;fill:var(--soft)}',
  '.grace{font-size:10px;font-variant-numeric:tabular-nums}.word{font-size:12.5px}',
  '.finger{font-size:10px;fill:var(--ground)}.degree{font-size:10px}.barre{fill:var(--ink)}',
  '.capo{fill:var(--ground);stroke:var(--soft);stroke-width:1.4}',
  '.dot{fill:var(--ink);stroke:var(--ink);stroke-width:1}.dot.colour{fill:var(--colour);stroke:var(--colour)}',
  '.dot.hollow{fill:none;stroke-width:1.4}',
  '.broken{stroke:var(--warn);stroke-dasharray:4 3}',
  '.title{font-size:20px;font-weight:650}.section{font-size:15px;font-weight:650}.caption{font-size:11.5px;fill:var(--soft)}',
].join('');
