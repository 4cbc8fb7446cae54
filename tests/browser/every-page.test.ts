// Every page that links lead to: accessible at AA, 360 px wide without scrolling sideways, readable without script, quiet in the console.
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { expect, test } from 'vitest'
import { openPage, type WatchedPage } from './house.ts'
import { sampleHouse } from './sample-house.ts'

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const mostPages = 160
/** Colours come from the same tokens everywhere, so the first pages stand for all in the dark. */
const darkPages = 20

const opened = sampleHouse()

test('every page is accessible at AA, fits 360 px, and asks nothing of other hosts', {
  timeout: 900_000,
}, async () => {
  const wide = await openPage(opened.browser, opened.house.base)
  const narrow = await openPage(opened.browser, opened.house.base, {
    viewport: { width: 360, height: 740 },
    javaScriptEnabled: false,
  })
  const problems: string[] = []
  let looked = 0
  // What only a form leads to is given here.
  const waiting = [
    '/now',
    '/start/owned',
    '/start/year',
    '/books/accounts/4/change?chosen=found&text=ewe+ration&from=2025-12-01',
  ]
  const seen = new Set(waiting.map(shape))
  for (let path = waiting.shift(); path !== undefined; path = waiting.shift()) {
    looked += 1
    const findings = await Promise.all([
      wideFindings(wide, path, looked <= darkPages),
      narrowFindings(narrow, path),
    ])
    problems.push(...findings.flat())
    // Shows how far it has come, for whoever mends what it finds.
    if (process.env.CRAWL_LOG)
      process.stderr.write(
        `${Math.round(performance.now())} ms ${path}: ${problems.length} so far, ${problems.at(-1) ?? ''}\n`,
      )
    for (const link of await linksOf(wide)) {
      if (seen.size >= mostPages || seen.has(shape(link))) continue
      seen.add(shape(link))
      waiting.push(link)
    }
  }
  for (const watched of [wide, narrow]) problems.push(...watched.complaints, ...watched.strayRequests)
  expect(problems).toEqual([])
  expect(looked).toBeGreaterThan(80)
})

async function wideFindings(watched: WatchedPage, path: string, alsoDark: boolean): Promise<string[]> {
  const { page } = watched
  const status = (await page.goto(path))?.status() ?? 500
  await page.emulateMedia({ colorScheme: 'light' })
  // Through the debugger, so that the page's own policy stays as strict as it is.
  await page.evaluate(axeSource)
  const found = [
    ...(status >= 400 ? [`${path}: status ${status}`] : []),
    ...(await axeFindings(watched, path, standards)),
    ...(await shellFindings(watched, path)),
  ]
  if (!alsoDark) return found
  await page.emulateMedia({ colorScheme: 'dark' })
  return [...found, ...(await axeFindings(watched, `${path} (dark)`, ['color-contrast']))]
}

async function narrowFindings(watched: WatchedPage, path: string): Promise<string[]> {
  await watched.page.goto(path)
  return sidewaysFindings(watched, path)
}

const standards = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']

/** Pages that differ only in a number, an id or the name of the one thing they show are one page. */
function shape(path: string): string {
  const [address, query = ''] = path.split('?') as [string, string?]
  const keys = [...new URLSearchParams(query)].map(([name, value]) =>
    ['kind', 'table'].includes(name) ? `${name}=${value}` : name,
  )
  const kept = address.replace(/\/[^/]*\d[^/]*/g, '/#').replace(/^(\/[^/]+\/[^/]+)\/(?!new$)[^/]+$/, '$1/#')
  return `${kept}?${keys.join('&')}`
}

async function linksOf({ page }: WatchedPage): Promise<string[]> {
  const links = await page.$$eval('a[href^="/"]', (anchors) =>
    anchors.map((anchor) => anchor.getAttribute('href') ?? ''),
  )
  return links
    .map((link) => link.split('#')[0]!)
    .filter(
      (link) =>
        link !== '' && !/\.(csv|json|ics)(\?|$)|\/attachments\/|\/lock$|\/events|\/download/.test(link),
    )
}

async function axeFindings({ page }: WatchedPage, path: string, only: readonly string[]): Promise<string[]> {
  const violations = (await page.evaluate(
    `axe.run(document, { runOnly: ${JSON.stringify(only)}, resultTypes: ['violations'] }).then((result) => result.violations)`,
  )) as { id: string; nodes: { target: string[]; failureSummary: string }[] }[]
  return violations.flatMap((one) =>
    one.nodes
      .slice(0, 3)
      .map((node) => `${path}: ${one.id} at ${node.target.join(' ')}: ${node.failureSummary}`),
  )
}

/** One h1, a title, and nothing printed that is no value. */
async function shellFindings({ page }: WatchedPage, path: string): Promise<string[]> {
  const found: string[] = []
  if ((await page.locator('h1').count()) !== 1) found.push(`${path}: not one h1`)
  if (!(await page.title()).endsWith('· Dooryard')) found.push(`${path}: title “${await page.title()}”`)
  const text = await page.locator('main').textContent()
  const odd = /\b(NaN|undefined|\[object Object\]|Infinity)\b/.exec(text ?? '')
  if (odd) found.push(`${path}: shows “${odd[0]}”`)
  return found
}

async function sidewaysFindings({ page }: WatchedPage, path: string): Promise<string[]> {
  const size = (await page.evaluate(`({
    over: document.documentElement.scrollWidth - window.innerWidth,
    widest: [...document.querySelectorAll('main *')]
      .filter((one) => one.getBoundingClientRect().right > window.innerWidth + 1)
      .slice(0, 3)
      .map((one) => one.tagName + ' ' + one.className),
  })`)) as { over: number; widest: string[] }
  return size.over > 0 ? [`${path}: ${size.over} px wider than 360, by ${size.widest.join(', ')}`] : []
}
