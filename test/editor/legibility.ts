/** Whether a page can be read by everybody: its roles and names, and the contrast of everything written in it. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import type { Frame, Page } from 'playwright-core';

/** What WCAG 2.2 asks of small type, in its success criterion 1.4.3. */
const LEAST_CONTRAST = 4.5;

const AXE = readFileSync('node_modules/axe-core/axe.min.js', 'utf8');

interface AxeResult {
  readonly violations: readonly {
    readonly id: string;
    readonly help: string;
    readonly nodes: readonly { readonly html: string }[];
  }[];
}

export async function assertAccessible(page: Page | Frame): Promise<void> {
  await page.evaluate(AXE);
  const result = await page.evaluate(() => {
    const { axe } = globalThis as unknown as { readonly axe: { run: (options: object) => Promise<AxeResult> } };
    return axe.run({
      resultTypes: ['violations'],
      // The numbers in a bar are a picture of it, and its name says the same in words.
      rules: { 'label-content-name-mismatch': { enabled: false } },
    });
  });
  const said = result.violations.map(({ id, help, nodes }) => `${id}: ${help}\n  ${nodes[0]?.html.slice(0, 200)}`);
  assert.deepEqual(said, []);
}

/** Axe passes over text in drawings, so these are measured here: on the page's ground, and on the band at the cursor. */
export async function assertLegible(page: Page | Frame): Promise<void> {
  const written = await page.evaluate(() => {
    const band = document.querySelector('.bar > rect.here');
    const bandColour = band ? getComputedStyle(band).fill : 'none';
    const seen = new Map<string, { what: string; ink: string; grounds: string[] }>();
    const add = (element: Element, ink: string): void => {
      const what = `${element.tagName.toLowerCase()}.${[...element.classList].join('.')}`;
      // A finger's number stands on its dot.
      const dot = element.matches('.finger') ? element.parentElement?.querySelector('.dot:not(.hollow)') : undefined;
      const ground = dot ? getComputedStyle(dot).fill : getComputedStyle(document.body).backgroundColor;
      // What sounds stands on an edge of its own, which is painted first and wide enough to be its ground.
      const { paintOrder, stroke } = getComputedStyle(element);
      const isEdged = paintOrder.startsWith('stroke') && stroke !== 'none';
      const grounds = isEdged ? [stroke] : element.closest('.bar') ? [ground, bandColour] : [ground];
      seen.set(`${what} ${ink}`, { what, ink, grounds });
    };
    for (const text of document.querySelectorAll('svg text, svg tspan')) add(text, getComputedStyle(text).fill);
    for (const text of document.querySelectorAll('h1, h2, small, li, p, figcaption, figcaption *'))
      add(text, getComputedStyle(text).color);
    return [...seen.values()];
  });
  assert.ok(written.length > 5, 'something is written');
  const faint = written.flatMap(({ what, ink, grounds }) =>
    grounds.flatMap((ground) => {
      const [inkColour, groundColour] = [colourOf(ink), colourOf(ground)];
      // A band without a tint lets the ground through, which has been measured.
      if (!inkColour || !groundColour) return [];
      const contrast = contrastOf(inkColour, groundColour);
      return contrast < LEAST_CONTRAST ? [`${what}: ${ink} on ${ground} is ${contrast.toFixed(2)}`] : [];
    }),
  );
  assert.deepEqual(faint, []);
}

type Colour = readonly [number, number, number];

/** Red, green and blue from 0 to 1, of what a browser computes; undefined for what lets everything through. */
function colourOf(css: string): Colour | undefined {
  const numbers = [...css.replace(/^color\(srgb/, '').matchAll(/[\d.]+(?:e-?\d+)?/g)].map(([number]) => Number(number));
  const [red, green, blue, alpha = 1] = numbers;
  if (blue === undefined || alpha === 0) return undefined;
  return css.startsWith('color(') ? [red, green, blue] : [red / 255, green / 255, blue / 255];
}

/** Relative luminance and contrast ratio as WCAG 2.2 defines them. */
function contrastOf(one: Colour, other: Colour): number {
  const [light, dark] = [luminanceOf(one), luminanceOf(other)].sort((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

function luminanceOf(colour: Colour): number {
  const [red, green, blue] = colour.map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
