import type { Page } from 'playwright-core';
import { expect } from 'vitest';

/** What a person with other eyes, hands or wishes needs of the state that a page is in. The page is left as it was. */
export async function inspect(page: Page, state: string): Promise<void> {
  expect.soft({ state, small: await smallTargets(page) }).toEqual({ state, small: [] });
  expect.soft({ state, mute: await muteDrawings(page) }).toEqual({ state, mute: [] });
  expect.soft({ state, bare: await plotsWithoutTable(page) }).toEqual({ state, bare: [] });
  await page.emulateMedia({ reducedMotion: 'reduce' });
  expect.soft({ state, moving: await moving(page) }).toEqual({ state, moving: [] });
  await page.emulateMedia({ reducedMotion: null, forcedColors: 'active' });
  expect.soft({ state, faint: await faintTexts(page) }).toEqual({ state, faint: [] });
  await page.emulateMedia({ forcedColors: null });
  const size = page.viewportSize();
  if (!size) throw new Error('The page has no size.');
  // Zoom of 200 % leaves half of the CSS pixels (WCAG 2.2, 1.4.4).
  await page.setViewportSize({ width: Math.round(size.width / 2), height: Math.round(size.height / 2) });
  expect.soft({ state, zoom: 2, cut: await cutOff(page) }).toEqual({ state, zoom: 2, cut: [] });
  await page.setViewportSize(size);
}

/** Controls lower or narrower than 24 px, or less than 24 px of room for one in a sentence (WCAG 2.2, 2.5.8). */
function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const all =
      'button, a[href], summary, select, textarea, input:not(.unseen), [role=spinbutton], [role=slider]';
    return [...document.querySelectorAll<HTMLElement>(all)].flatMap((it) => {
      if (!it.checkVisibility({ visibilityProperty: true }) || it.closest('.unseen')) return [];
      const own = it.getBoundingClientRect();
      if (own.width === 0) return [];
      // A label around a control is pressed as the control.
      const label = it.closest('label')?.getBoundingClientRect() ?? own;
      const more = getComputedStyle(it, '::after');
      const room =
        more.content === 'none' ? [0, 0] : [Number.parseFloat(more.width), Number.parseFloat(more.height)];
      const width = Math.max(own.width, label.width, room[0] || 0);
      const height = Math.max(own.height, label.height, room[1] || 0);
      if (width >= 23.9 && height >= 23.9) return [];
      return [`${it.outerHTML.slice(0, 110)} ${width.toFixed(0)} × ${height.toFixed(0)}`];
    });
  });
}

/** Drawings without a sentence: an image role needs one, everything else has to be hidden from readers of screens. */
function muteDrawings(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll<Element>('svg, canvas, img')].flatMap((it) => {
      if (!it.checkVisibility() || it.closest('[aria-hidden=true], [role=img]:not(svg, canvas)')) return [];
      const name = it.getAttribute('aria-label') ?? it.getAttribute('alt');
      const named = it.closest(
        'a[aria-label], button[aria-label], [role=application], [aria-roledescription]',
      );
      if (name === '' || named) return [];
      return name && /\S+ \S+/.test(name) ? [] : [it.outerHTML.slice(0, 110)];
    }),
  );
}

/**
 * Plots that have no sentence of their own, or no table of their own with a name and numbers: in the same note, after
 * the plot and before the next one.
 */
function plotsWithoutTable(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const plots = 'svg.drawing, svg.course';
    const told = new Set<string>();
    return [...document.querySelectorAll(plots)].flatMap((it) => {
      const sentence = it.getAttribute('aria-label') ?? '';
      const place = it.closest('.note, .courses > li');
      const inOrder = [...(place?.querySelectorAll(`${plots}, table`) ?? [])];
      const after = inOrder.slice(inOrder.indexOf(it) + 1);
      const next = after.findIndex((other) => other.matches(plots));
      const own = (next < 0 ? after : after.slice(0, next)).find(
        (table) =>
          table.querySelector('caption')?.textContent?.trim() &&
          table.querySelectorAll('th[scope=row] ~ td').length > 0,
      );
      const again = told.has(sentence);
      told.add(sentence);
      return [
        ...(/\S+ \S+ \S+/.test(sentence) ? [] : [`${sentence}: no sentence`]),
        ...(again ? [`${sentence}: the sentence of another plot`] : []),
        ...(own ? [] : [`${sentence}: no table`]),
      ];
    });
  });
}

/** How many plots stand in the state that the page is in. */
export function countPlots(page: Page): Promise<number> {
  return page.locator('svg.drawing, svg.course').count();
}

/** What would move by itself or on a change although that is not wanted. */
function moving(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll('*')].flatMap((it) => {
      const { transitionDuration, animationDuration, animationName, scrollBehavior } = getComputedStyle(it);
      const lasts = (times: string): boolean =>
        times.split(',').some((time) => Number.parseFloat(time) > 0.001);
      const still =
        !lasts(transitionDuration) &&
        (animationName === 'none' || !lasts(animationDuration)) &&
        scrollBehavior !== 'smooth';
      return still ? [] : [`${it.outerHTML.slice(0, 90)} ${transitionDuration} ${animationName}`];
    }),
  );
}

/** Texts that don't stand out from what lies behind them, where a person's own colours are forced. */
function faintTexts(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const rgba = (css: string): number[] => {
      const [r, g, b, a = 1] = (css.match(/[\d.]+/g) ?? []).map(Number);
      return [r, g, b, a];
    };
    const luminance = ([r, g, b]: number[]): number =>
      [r, g, b]
        .map((value) => value / 255)
        .map((value) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4))
        .reduce((sum, value, at) => sum + value * [0.2126, 0.7152, 0.0722][at], 0);
    const behind = (it: Element | null): number[] => {
      for (let at = it; at; at = at.parentElement) {
        const colour = rgba(getComputedStyle(at).backgroundColor);
        if (colour[3] > 0.99) return colour;
      }
      return [255, 255, 255, 1];
    };
    return [...document.querySelectorAll<HTMLElement>('body *')].flatMap((it) => {
      const own = [...it.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim());
      if (
        !own ||
        !it.checkVisibility() ||
        it.closest('.unseen, .stage, svg') ||
        it.matches(':disabled, option')
      )
        return [];
      const [low, high] = [luminance(rgba(getComputedStyle(it).color)), luminance(behind(it))].sort(
        (a, b) => a - b,
      );
      const ratio = (high + 0.05) / (low + 0.05);
      return ratio >= 4.5 ? [] : [`${it.outerHTML.slice(0, 90)} ${ratio.toFixed(1)}`];
    });
  });
}

/** What lies outside the page sideways, or is wider than the place that cuts it off. */
async function cutOff(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    for (let i = 0; i < 2; i++) await new Promise((next) => requestAnimationFrame(next));
    const out = [...document.querySelectorAll<HTMLElement>('.margin-body *, .shelf *, .headline')].filter(
      (it) => {
        if (it.closest('.unseen, svg')) return false;
        // A table of many columns and a strip of many versions are scrolled in their own place.
        for (let at = it.parentElement; at && !at.matches('.margin-body, body'); at = at.parentElement)
          if (['auto', 'scroll'].includes(getComputedStyle(at).overflowX) && at.scrollWidth > at.clientWidth)
            return false;
        const { left, right, width } = it.getBoundingClientRect();
        return width > 1 && (right > innerWidth + 1 || left < -1);
      },
    );
    const wide = document.documentElement.scrollWidth > innerWidth ? ['the page itself'] : [];
    return [...wide, ...out.map((it) => it.outerHTML.slice(0, 110))];
  });
}
