/** Accessibility of the page as it stands, by a well-kept checker. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';

/** Those of the rules that another look can break: it changes colours, and nothing else. */
const OF_COLOURS = ['color-contrast', 'link-in-text-block'];

/** In another look than one in which all rules have been checked. */
export async function expectLegible(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).withRules(OF_COLOURS).analyze();
  expect(violations.map(({ id, nodes }) => [id, nodes.map(({ target }) => target)])).toEqual([]);
}

/** No rule of WCAG 2.2 A or AA that a machine can check is broken. */
export async function expectAccessible(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
    .analyze();
  expect(violations.map(({ id, nodes }) => [id, nodes.map(({ target }) => target)])).toEqual([]);
}
