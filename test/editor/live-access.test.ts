/** The live page for everybody: nothing against it in any look, and all of it by keyboard alone, with the focus always in sight. */
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, beforeEach, describe, test } from 'node:test';
import type { Browser, Page } from 'playwright-core';
import { assertAccessible, assertLegible } from './legibility.ts';
import { BARS, SAMPLE_FILE } from './sample.ts';
import { eventually } from './user-steps.ts';
import { Watching } from './watching.ts';
import { launchBrowser, SHOTS } from './workbench.ts';

/** With shapes that have many voicings. */
const SAMPLE_TEXT = readFileSync(SAMPLE_FILE, 'utf8').replace('  shape lamp\n', '  shape open-chords\n');
const READINGS = ['frets', 'intervals', 'notes', 'fingers'] as const;
const PANELS = ['Neck', 'Voicings', 'Open strings', 'Variants'] as const;
const LOOKS = [
  ['light', { colorScheme: 'light', forcedColors: 'none' }],
  ['dark', { colorScheme: 'dark', forcedColors: 'none' }],
  ['high contrast', { colorScheme: 'dark', forcedColors: 'active' }],
] as const;

/** Where the focus is, in words that tell one stop from another. */
interface Stop {
  readonly name: string;
  readonly isMarked: boolean;
  /** Not under the buttons that stay in sight. */
  readonly isSeen: boolean;
  /** The things that the arrows lead to from here. */
  readonly group: string | undefined;
}

describe('the live page for everybody', { timeout: 240_000 }, () => {
  const folder = mkdtempSync(join(tmpdir(), 'stringcourse-access-'));
  const file = join(folder, 'watched.lesson');
  let browser: Browser;
  let watching: Watching;
  let page: Page;

  const open = async (width: number, height = 900): Promise<void> => {
    await page?.close();
    page = await browser.newPage({ viewport: { width, height } });
    page.setDefaultTimeout(10_000);
    await page.goto(await watching.address());
    await page.locator('body[data-version]').waitFor();
  };
  const press = async (...keys: readonly string[]): Promise<void> => {
    for (const key of keys) await page.keyboard.press(key);
  };
  const focused = (): Promise<string> => page.evaluate(() => document.activeElement?.textContent ?? '');
  /** Tab until the focus is there; a page whose end comes first fails. */
  const tabTo = async (selector: string): Promise<void> => {
    for (let presses = 0; presses < 60; presses++) {
      await press('Tab');
      if (await page.locator(`${selector}:focus`).count()) return;
    }
    assert.fail(`Tab does not lead to ${selector}`);
  };

  before(async () => {
    mkdirSync(SHOTS, { recursive: true });
    writeFileSync(file, SAMPLE_TEXT);
    watching = new Watching(file);
    browser = await launchBrowser();
  });
  after(async () => {
    await browser?.close();
    await watching?.end();
    rmSync(folder, { recursive: true, force: true });
  });
  beforeEach(() => writeFileSync(file, SAMPLE_TEXT));

  const assertForEverybody = async (what: string): Promise<void> => {
    for (const [look, media] of LOOKS) {
      await page.emulateMedia(media);
      try {
        await assertAccessible(page);
        await assertLegible(page);
      } catch (failure) {
        throw new Error(`${what}, ${look}: ${String(failure)}`, { cause: failure });
      }
      await page.screenshot({ path: join(SHOTS, `access-${what}-${look}.png`.replaceAll(' ', '-')) });
    }
    await page.emulateMedia({ colorScheme: 'light', forcedColors: 'none' });
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    assert.ok(wide <= 0, `${what}: ${wide} pixels beyond the window`);
  };
  const choose = async (reading: string): Promise<void> => {
    await page.getByRole('radio', { name: reading }).click();
    await page.locator(`body[data-reading="${reading}"]`).waitFor();
  };
  const openPanel = async (panel: string): Promise<void> => {
    await page.getByRole('button', { name: panel, exact: true }).click();
    // Of variants that are looked at one at a time the first is out of sight.
    const kind = panel.toLowerCase().replace(' ', '-');
    await page.locator(`[data-kind="${kind}"] .panel-blocks :is(svg, table):visible`).first().waitFor();
  };

  test('has nothing against it in each reading', async () => {
    await open(1400);
    for (const reading of READINGS) {
      await choose(reading);
      await assertForEverybody(reading);
    }
  });
  test('has nothing against it with each panel open', async () => {
    await open(700);
    await page.locator('[data-bar="verse.2"]').click();
    for (const panel of PANELS) {
      await openPanel(panel);
      await assertForEverybody(panel);
    }
    await openPanel('Open strings');
    await page.locator('.cell').first().click();
    await page.locator('.offer button').first().waitFor();
    await assertForEverybody('an offer');
  });
  test('has nothing against it in large print, left-handed', async () => {
    await open(700);
    await page.locator('[data-bar="verse.2"]').click();
    await page.getByRole('button', { name: 'large print' }).click();
    await page.getByRole('button', { name: 'left-handed' }).click();
    await choose('intervals');
    for (const panel of PANELS) {
      await openPanel(panel);
      await assertForEverybody(`large ${panel}`);
    }
  });
  test('has nothing against it for a course and for parts', async () => {
    await open(700);
    writeFileSync(file, 'course "A week"\n  starts 2030-01-07\n  day 1 "watched.lesson"\n');
    await page.locator('h1', { hasText: 'A week' }).waitFor();
    await assertForEverybody('a course');
    writeFileSync(file, '; High up.\nshape window\n  strings 3 2 1\n  spacing close\n\ngrip A x02220\n');
    await page.locator('h1', { hasText: 'Parts' }).waitFor();
    await assertForEverybody('parts');
  });

  /** What can be pressed, typed into or chosen; of a group that the arrows lead through, each. */
  const CONTROLS = 'button:not([disabled]), input, select, a[href], [tabindex]';
  const stopHere = (): Promise<Stop | undefined> =>
    page.evaluate((controls): Stop | undefined => {
      const here = document.activeElement;
      if (!here || here === document.body) return undefined;
      const mark = here instanceof SVGElement ? getComputedStyle(here.querySelector('.hit')!).stroke : '';
      const box = here.getBoundingClientRect();
      const inMain = here.closest('.blocks') !== null;
      const top = document.querySelector('.tools')!.getBoundingClientRect().bottom;
      const foot = document.querySelector('.dock')!.getBoundingClientRect().top;
      return {
        name: `${[...document.querySelectorAll(controls)].indexOf(here)}`,
        isMarked: here instanceof SVGElement ? mark !== 'none' : getComputedStyle(here).outlineStyle !== 'none',
        isSeen: inMain ? box.bottom > top && box.top < foot : box.bottom > 0 && box.top < window.innerHeight,
        group: here.matches('.reading, .opens, .voicing, .cell, [data-bar]') ? (here.classList[0] ?? 'bar') : undefined,
      };
    }, CONTROLS);
  const nameOf = (index: string): Promise<string> =>
    page.evaluate(([controls, at]) => document.querySelectorAll(controls)[Number(at)]?.outerHTML.slice(0, 160) ?? '', [
      CONTROLS,
      index,
    ] as const);
  /** By Tab from the top to the end, and from each stop of a group by the arrows to the others. */
  const reached = async (): Promise<ReadonlySet<string>> => {
    const stops = new Set<string>();
    const visit = async (stop: Stop): Promise<void> => {
      if (stops.has(stop.name)) return;
      stops.add(stop.name);
      assert.ok(stop.isMarked, `the focus is not seen at ${await nameOf(stop.name)}`);
      assert.ok(stop.isSeen, `the focus is out of sight at ${await nameOf(stop.name)}`);
    };
    await page.evaluate(() => {
      (document.activeElement as HTMLElement | null)?.blur();
      getSelection()?.removeAllRanges();
      window.scrollTo(0, 0);
    });
    await page.mouse.click(2, 2);
    for (let presses = 0; presses < 80; presses++) {
      await press('Tab');
      const stop = await stopHere();
      if (!stop || (presses > 0 && stops.has(stop.name) && stop.group === undefined)) break;
      await visit(stop);
      if (stop.group === undefined) continue;
      await press('Home');
      for (let before = ''; ; await press('ArrowRight')) {
        const next = await stopHere();
        if (!next || next.name === before) break;
        await visit(next);
        before = next.name;
      }
      // The other things of a group may stand anywhere: on from the first of them.
      await press('Home');
    }
    return stops;
  };
  const assertAllReached = async (): Promise<void> => {
    const stops = await reached();
    const all = await page.evaluate(
      (controls) =>
        [...document.querySelectorAll<HTMLElement>(controls)].flatMap((one, index) =>
          one.getClientRects().length > 0 ? [`${index}`] : [],
        ),
      CONTROLS,
    );
    const missed = await Promise.all(all.filter((one) => !stops.has(one)).map(nameOf));
    assert.deepEqual(missed, []);
    assert.ok(all.length > 15, `${all.length} controls`);
  };

  test('every control is reached by keyboard, and the focus is seen at each', async () => {
    await open(900, 700);
    await assertAllReached();
    await page.locator('[data-bar="verse.2"]').click();
    for (const panel of PANELS) {
      await openPanel(panel);
      await assertAllReached();
    }
  });
  test('does all of its work without a mouse', async () => {
    await open(900, 700);
    await press('Tab', 'ArrowRight');
    await page.locator('body[data-reading="intervals"]').waitFor();
    await tabTo('[data-bar]');
    await press('ArrowRight', 'Enter');
    await watching.saying(new RegExp(`watched\\.lesson:${BARS}:7`));
    await page.locator('.bar.here[data-bar="verse.2"]').waitFor();
    await tabTo('.opens');
    await press('ArrowRight', 'Enter');
    await page.getByRole('region', { name: 'D in bar 2 of The quay at dusk' }).waitFor();
    await page.locator('.voicing').first().waitFor();
    await tabTo('.voicing');
    await press('Home', 'ArrowRight');
    const frets = await page.locator('.voicing:focus').getAttribute('data-pin');
    await press('Enter');
    await page.locator('.said', { hasText: `In line ${BARS} write: D as ${frets}` }).waitFor();
    await press('Escape');
    assert.equal(await focused(), 'Voicings');
    await press('ArrowRight', 'Enter');
    await tabTo('.cell');
    await press('End', 'Enter');
    assert.ok(await page.locator('.offer button:focus').count(), 'the offer has the focus');
    await press('Escape', 'Escape');
    await press('ArrowRight', 'Enter');
    await page.locator('.panel-blocks section').first().waitFor();
    await tabTo('.panel-blocks section [data-bar]');
    await press('Escape');
    assert.equal(await focused(), 'Variants');
  });
  test('tells each bar, each voicing and each open string in a sentence', async () => {
    await open(1400);
    const bar = page.locator('[data-bar="verse.2"]');
    const says = (await bar.getAttribute('aria-label')) ?? '';
    assert.match(says, /^bar 2, D: thumb, string four, open, with melody, ring finger, string one, fret five; index, /);
    assert.equal(await bar.getAttribute('role'), 'button');
    await bar.click();
    await openPanel('Voicings');
    const voicing = (await page.locator('.voicing').first().getAttribute('aria-label')) ?? '';
    assert.match(
      voicing,
      /^D, difficulty \d\.\d, \w+, played now: string six silent; string five silent; string four open; /,
    );
    await openPanel('Open strings');
    const cell = (await page.locator('.cell').first().getAttribute('aria-label')) ?? '';
    assert.match(cell, /^String 6 open over G: sixth; the chord would sound G 6 over E\.$/);
    await openPanel('Neck');
    const neck = (await page.locator('.panel-blocks svg').getAttribute('aria-label')) ?? '';
    assert.match(neck, /^D: string six silent; .*; melody: string one fret five, string one fret three/);
    await eventually('what was opened is told', async () =>
      assert.equal(await page.locator('.heard').textContent(), 'Neck: D in bar 2 of The quay at dusk'),
    );
  });
});
