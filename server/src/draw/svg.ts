/** Writes a drawing as SVG. The only place where a lesson's words meet markup, so that nothing stays unescaped. */
import type { Drawing, Label, Shape } from './drawing.ts';

/** XML takes no control characters but tab and line ends, and no halves of surrogate pairs. */
const NOT_XML = /[^\P{Control}\t\n\r]|[\ufffe\uffff]|\p{Surrogate}/gu;

/** Nearly all that is drawn: numbers, letters and the names of styles. */
const PLAIN = /^[\w .,:;/#+()-]*$/;

const SIGNS: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** Text as it may stand in an element or a quoted attribute, in SVG and in HTML. */
export const escaped = (text: string): string =>
  PLAIN.test(text) ? text : text.replace(NOT_XML, '\ufffd').replace(/[&<>"']/g, (sign) => SIGNS[sign]);

/** At most two decimals, so that every machine writes the same; never `-0`. */
export function rounded(value: number): string {
  const hundredths = Math.round(value * 100);
  return `${hundredths === 0 ? 0 : hundredths / 100}`;
}

/**
 * With `css` the drawing stands by itself, as a file; without, it takes its colours from the page that it is put into. `scale` makes
 * the whole of it larger.
 */
export function svgOf(drawing: Drawing, css?: string, scale = 1): string {
  const width = rounded(drawing.width);
  const height = rounded(drawing.height);
  const size = `width="${rounded(drawing.width * scale)}" height="${rounded(drawing.height * scale)}"`;
  const role = drawing.reads === 'picture' ? 'img' : 'group';
  const style = css === undefined ? '' : `<title>${escaped(drawing.says)}</title><style>${css}</style>`;
  const ground = css === undefined ? '' : `<rect class="knock" width="${width}" height="${height}"/>`;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" ${size} viewBox="0 0 ${width} ${height}"` +
    ` role="${role}" aria-label="${escaped(drawing.says)}">${style}${ground}${written(drawing.shapes, css === undefined)}</svg>`
  );
}

/** In a file nothing follows a click, so nothing there is a button. */
const written = (shapes: readonly Shape[], live: boolean): string =>
  shapes.map((shape) => shapeText(shape, live)).join('');

function shapeText(shape: Shape, live: boolean): string {
  const named = shape.style === undefined ? '' : ` class="${escaped(shape.style)}"`;
  switch (shape.kind) {
    case 'line': {
      const [[x1, y1], [x2, y2]] = [shape.from, shape.to];
      return `<line${named} x1="${rounded(x1)}" y1="${rounded(y1)}" x2="${rounded(x2)}" y2="${rounded(y2)}"/>`;
    }
    case 'box': {
      const place = `x="${rounded(shape.x)}" y="${rounded(shape.y)}"`;
      const size = `width="${rounded(shape.width)}" height="${rounded(shape.height)}"`;
      const round = shape.rounding === undefined ? '' : ` rx="${rounded(shape.rounding)}"`;
      const clear = shape.clear ? ' fill="none" pointer-events="all"' : '';
      return `<rect${named} ${place} ${size}${round}${clear}/>`;
    }
    case 'circle':
      return `<circle${named} cx="${rounded(shape.x)}" cy="${rounded(shape.y)}" r="${rounded(shape.radius)}"${shape.clear ? ' fill="none"' : ''}/>`;
    case 'path':
      return `<path${named} d="${pathData(shape.steps)}"${shape.filled ? '' : ' fill="none"'}/>`;
    case 'label':
      return labelText(shape, named, live);
    case 'group': {
      const moved =
        shape.x === 0 && shape.y === 0 ? '' : ` transform="translate(${rounded(shape.x)} ${rounded(shape.y)})"`;
      const button = live && shape.bar !== undefined;
      const bar = button ? ` data-bar="${escaped(shape.bar!)}" tabindex="0" role="button"` : '';
      const role = !button && shape.says !== undefined ? ' role="img"' : '';
      const says = shape.says === undefined ? '' : ` aria-label="${escaped(shape.says)}"`;
      const quiet = shape.quiet ? ' aria-hidden="true" pointer-events="none"' : '';
      return `<g${named}${bar}${role}${says}${quiet}${moved}>${written(shape.shapes, live)}</g>`;
    }
  }
}

function pathData(steps: readonly (string | number)[]): string {
  let data = '';
  let behindNumber = false;
  for (const step of steps) {
    const number = typeof step === 'number';
    if (number && behindNumber) data += ' ';
    data += number ? rounded(step) : step;
    behindNumber = number;
  }
  return data;
}

function labelText(shape: Label, named: string, live: boolean): string {
  const align = shape.align === 'start' ? '' : ` text-anchor="${shape.align}"`;
  const note = live && shape.event !== undefined ? ` data-note="${shape.event}"` : '';
  const title = shape.full === undefined ? '' : `<title>${escaped(shape.full)}</title>`;
  const runs = shape.runs.map(({ text, style }) =>
    style === undefined ? escaped(text) : `<tspan class="${escaped(style)}">${escaped(text)}</tspan>`,
  );
  return `<text${named}${note} x="${rounded(shape.x)}" y="${rounded(shape.y)}"${align}>${title}${runs.join('')}</text>`;
}
