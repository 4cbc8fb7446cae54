// What is wrong with a page as it stands in the browser: for those who hear or zoom it, and on a narrow screen.
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { WatchedPage } from './house.ts'

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const standards = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']

interface Axe {
  /** Rules or standards by axe’s names; AA when missing. */
  only?: readonly string[]
  /** What is left out, by selectors. */
  but?: readonly string[]
}

/** `where` names the page in what is found. */
export async function axeFindings(
  { page }: Pick<WatchedPage, 'page'>,
  where: string,
  { only = standards, but = [] }: Axe = {},
): Promise<string[]> {
  // Through the debugger, so that the page's own policy stays as strict as it is.
  if (await page.evaluate("typeof axe === 'undefined'")) await page.evaluate(axeSource)
  const context = but.length === 0 ? 'document' : JSON.stringify({ exclude: but })
  // Loading every sheet of styles once more takes as long as half the rules; only rules on sound and film look at what it brings.
  const options = JSON.stringify({ runOnly: only, resultTypes: ['violations'], preload: false })
  const violations = (await page.evaluate(
    `axe.run(${context}, ${options}).then((result) => result.violations)`,
  )) as { id: string; nodes: { target: string[]; failureSummary: string }[] }[]
  return violations.flatMap((one) =>
    one.nodes
      .slice(0, 3)
      .map((node) => `${where}: ${one.id} at ${node.target.join(' ')}: ${node.failureSummary}`),
  )
}

/** In the light by all rules, in the dark by the one that looks at colors. */
export async function axeInLightAndDark(
  { page }: Pick<WatchedPage, 'page'>,
  where: string,
): Promise<string[]> {
  await page.emulateMedia({ colorScheme: 'light' })
  const found = await axeFindings({ page }, where)
  await page.emulateMedia({ colorScheme: 'dark' })
  return [...found, ...(await axeFindings({ page }, `${where} (dark)`, { only: ['color-contrast'] }))]
}

/**
 * A document as it stands, laid into a page that keeps axe: its half a megabyte read anew and run cold on every address takes twice
 * as long as what the rules look at. It may be of any address of the house; styles that its script has set hold here where the page bypasses its policy.
 */
export async function layForAxe({ page }: Pick<WatchedPage, 'page'>, markup: string): Promise<void> {
  if (page.url() === 'about:blank') await page.goto('/settings/words')
  await page.evaluate(`new Promise((resolve) => {
    document.open()
    addEventListener('load', resolve, { once: true })
    document.write(${JSON.stringify(markup)})
    document.close()
  })`)
}

/** What `layForAxe` takes, read from the page: its markup without script. Of a long choice the first few stand for all: no rule looks at options. */
export const markupForAxe = `(() => {
  const copy = document.documentElement.cloneNode(true)
  for (const one of copy.querySelectorAll('script, option:not([selected]):nth-of-type(n+4)')) one.remove()
  return '<!DOCTYPE html>' + copy.outerHTML
})()`

export async function sidewaysFindings({ page }: WatchedPage, where: string): Promise<string[]> {
  const size = (await page.evaluate(`({
    over: document.documentElement.scrollWidth - window.innerWidth,
    widest: [...document.querySelectorAll('main *')]
      .filter((one) => one.getBoundingClientRect().right > window.innerWidth + 1)
      .slice(0, 3)
      .map((one) => one.tagName + ' ' + one.className),
  })`)) as { over: number; widest: string[] }
  // A frame lets a table scroll where it must; of the sample none has to.
  const cut = (await page.evaluate(`[...document.querySelectorAll('main .table-frame')]
    .filter((one) => one.checkVisibility() && one.scrollWidth > one.clientWidth + 1)
    .map((one) => one.getAttribute('aria-label'))`)) as string[]
  return [
    ...(size.over > 0 ? [`${where}: ${size.over} px wider than 360, by ${size.widest.join(', ')}`] : []),
    ...cut.map((name) => `${where}: the table ${name} is cut at 360 px`),
  ]
}
