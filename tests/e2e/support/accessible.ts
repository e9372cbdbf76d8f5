import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page } from '@playwright/test';

const WCAG_22_AA = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/**
 * Check the page as it stands against the WCAG 2.2 A and AA rules that a program can check.
 * @param options `except`: a selector to leave out, with the reason beside the call
 */
export async function checkAccessible(page: Page, { except }: { except?: string } = {}) {
  // A page that is still fading in has colours of its own.
  await page.evaluate(() => Promise.all(document.getAnimations().map((animation) => animation.finished.catch(() => {}))));
  // The title of a page comes with the rest of its stream.
  await expect(page).toHaveTitle(/./);
  // No page holds another's frame: without looking into those, axe needs no second page to put its findings together in. Of rules
  // that hold, one element each is enough to know that something was looked at.
  const axe = new AxeBuilder({ page })
    .options({ resultTypes: ['violations'] })
    .setLegacyMode()
    .withTags(WCAG_22_AA);
  if (except) axe.exclude(except);
  let { violations, passes } = await axe.analyze();
  // A page that comes in another's place has no title for a moment, the other's being gone already.
  if (violations.some(({ id }) => id === 'document-title')) {
    await expect(page).toHaveTitle(/./);
    ({ violations, passes } = await axe.analyze());
  }
  const said = violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id}: ${help}\n  ${target.join(' ')}\n  ${failureSummary}`),
  );
  expect(said, `${page.url()} is not accessible`).toEqual([]);
  // An empty page breaks no rule.
  expect(passes.length, `nothing was checked on ${page.url()}`).toBeGreaterThan(0);
}
