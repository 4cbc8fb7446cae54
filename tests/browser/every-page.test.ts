// Every page that links lead to: accessible at AA, 360 px wide without scrolling sideways, readable without script, quiet in the console.
import { expect, test } from 'vitest'
import { axeFindings, axeSource, sidewaysFindings } from './findings.ts'
import { openPage, type WatchedPage } from './house.ts'
import { sampleHouse } from './sample-house.ts'

const mostPages = 160
/** Colors come from the same tokens everywhere, so the first pages stand for all in the dark. */
const darkPages = 20

const opened = sampleHouse()

test('every page is accessible at AA, fits 360 px, and asks nothing of other hosts', {
  timeout: 900_000,
}, async () => {
  const wide = await openPage(opened.browser, opened.house.base)
  await wide.page.addInitScript(axeSource)
  const narrow = await openPage(opened.browser, opened.house.base, {
    viewport: { width: 360, height: 740 },
    javaScriptEnabled: false,
  })
  const problems: string[] = []
  let looked = 0
  // What only a form leads to is given here.
  const waiting = [
    '/now',
    '/month',
    '/farm/notebook?open=market',
    '/farm/notebook/table',
    '/farm/hours',
    '/farm/enterprises',
    '/farm/enterprises/new?usual=broilers',
    '/farm/markets',
    '/farm/herds',
    '/farm/buying',
    '/farm/fit',
    '/farm/batches',
    '/farm/batches/new',
    '/farm/seen',
    '/farm/preparer',
    '/farm/notebook/phone',
    '/books/sorting',
    '/books/acts',
    '/books/entries/20/for',
    '/start/owned',
    '/start/year',
    '/year-pack/schedule-f',
    '/year-pack/people',
    '/year-pack/pay',
    '/books/spending',
    '/books/entries?text=feed',
    '/books/sorting',
    '/books/reconcile/opening/4',
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
  const found = [
    ...(status >= 400 ? [`${path}: status ${status}`] : []),
    ...(await axeFindings(watched, path)),
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
        link !== '' &&
        !/\.(csv|json|ics)(\?|$)|\/attachments\/|\/lock$|\/events|\/download|^\/year-pack\/folder/.test(link),
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
