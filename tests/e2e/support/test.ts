import { expect, test as base, type Page } from '@playwright/test';
import { SIGN_INS, signInAs, type Who } from './sign-in';
import { checkAccessible } from './accessible';

type Fixtures = {
  /** Signs this test's browser in, as one of the demo shop's people. */
  signIn: (who: Who) => Promise<void>;
  /** Fails with the rule and the element where the page as it stands breaks WCAG 2.2 A or AA. */
  accessible: (options?: { except?: string }) => Promise<void>;
  /** Announce a browser message that this test provokes on purpose, such as a refused request. */
  expectMessage: (pattern: RegExp) => void;
  /** Every browser console.error and uncaught error fails the test. Always on. */
  quietBrowser: void;
};

/**
 * The project's own `test`: each journey runs signed out at first, on the demo shop.
 * @example
 * test('the dispatcher books', async ({ page, signIn, accessible }) => {
 *   await signIn('dispatcher');
 *   await page.goto('/due');
 *   await accessible();
 * });
 */
export const test = base.extend<Fixtures & { expected: RegExp[] }>({
  // Playwright reads what a fixture needs from its first parameter, which therefore stays even when empty.
  expected: async ({}, provide) => provide([]),

  expectMessage: async ({ expected }, provide) => provide((pattern) => void expected.push(pattern)),

  quietBrowser: [
    async ({ context, expected }, provide) => {
      const said: string[] = [];
      context.on('console', (message) => {
        if (message.type() === 'error') said.push(`${message.text()} (${message.location().url})`);
      });
      context.on('weberror', (error) => said.push(error.error().stack ?? error.error().message));
      await provide();
      const unexpected = said.filter((text) => !expected.some((pattern) => pattern.test(text)));
      expect(unexpected, 'the browser reported errors').toEqual([]);
    },
    { auto: true },
  ],

  signIn: async ({ page }, provide) => provide((who) => signInAs(page, who)),

  accessible: async ({ page }, provide) => provide((options) => checkAccessible(page, options)),
});

export { expect, SIGN_INS };
export type { Page };
