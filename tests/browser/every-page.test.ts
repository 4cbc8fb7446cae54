// Every page that links lead to is opened. By `npm run pages` each, in the test command those of the row of pages and a few that the day
// draws, is walked: accessible at AA, 360 px wide without scrolling sideways, readable without script, quiet in the console, its length
// bounded on a desk and a phone; rooms fit with text at 200 %.
import { expect, test } from 'vitest'
import { navigation } from '#web/forms/navigation.ts'
import { drawnOf, drawnWords } from '../fuzz/batches.ts'
import { behindForms, pagesAmong, rooms, shapeOf } from './addresses.ts'
import { axeFindings, layForAxe, markupForAxe, sidewaysFindings } from './findings.ts'
import { openPage, type WatchedPage } from './house.ts'
import { sampleHouse } from './sample-house.ts'

const mostPages = 160

/** Lists that are read by searching: what is entered, what was noted of a batch, rules of one's own, what each word means; and what is made for paper. */
const lists =
  /^\/(books\/(entries|accounts\/|sorting\/rules)|farm\/batches\/|settings\/words|year-pack\/print)/
const screens = { desk: { width: 1280, height: 800, most: 4 }, phone: { width: 360, height: 740, most: 8 } }

const opened = sampleHouse()

test('every page that links lead to opens, with one h1 and nothing printed that is no value', async () => {
  const pages = await foundPages()
  expect(pages.flatMap(({ found }) => found)).toEqual([])
  expect(pages.length).toBeGreaterThan(80)
})

test('every page is accessible at AA, fits 360 px, and asks nothing of other hosts; is short on a desk and a phone; rooms fit with letters of twice the size', {
  timeout: 900_000,
}, async () => {
  const wide = await openPage(opened.browser, opened.house.base)
  const laid = await openPage(opened.browser, opened.house.base, { bypassCSP: true })
  const narrow = await openPage(opened.browser, opened.house.base, {
    viewport: screens.phone,
    javaScriptEnabled: false,
  })
  const setLetters = await lettersOf(narrow)
  const frames = new Set<string>()
  const problems: string[] = []
  for (const path of await walkedPages()) {
    const findings = await Promise.all([
      wideFindings(wide, laid, path, frames),
      narrowFindings(narrow, path, rooms.includes(path) ? setLetters : null),
    ])
    problems.push(...findings.flat())
    // Shows how far it has come, for whoever mends what it finds.
    if (process.env.CRAWL_LOG)
      process.stderr.write(
        `${Math.round(performance.now())} ms ${path}: ${problems.length} so far, ${problems.at(-1) ?? ''}\n`,
      )
  }
  for (const watched of [wide, laid, narrow]) problems.push(...watched.complaints, ...watched.strayRequests)
  expect(problems, drawnWords('npm run pages')).toEqual([])
})

/** Those of the row of pages, and of the others all that are found, or the few of the day. */
async function walkedPages(): Promise<string[]> {
  const first = navigation.map(({ path }) => path as string)
  const others = (await foundPages()).map(({ path }) => path).filter((path) => !first.includes(path))
  return [...first, ...drawnOf(others, 12)]
}

interface FoundPage {
  path: string
  found: string[]
}

let found: Promise<FoundPage[]> | undefined

/** Every page by its address, read as the server sends it. */
const foundPages = (): Promise<FoundPage[]> => {
  found ??= followLinks()
  return found
}

async function followLinks(): Promise<FoundPage[]> {
  const pages: FoundPage[] = []
  const waiting = [...new Set([...rooms, ...behindForms])]
  const seen = new Set(waiting.map(shapeOf))
  for (let path = waiting.shift(); path !== undefined; path = waiting.shift()) {
    const reply = await fetch(opened.house.base + path)
    const read = readHtml(await reply.text())
    pages.push({ path, found: [...statusFindings(reply.status, path), ...shellFindings(read, path)] })
    for (const link of pagesAmong(read.links)) {
      if (seen.size >= mostPages || seen.has(shapeOf(link))) continue
      seen.add(shapeOf(link))
      waiting.push(link)
    }
  }
  return pages
}

test('an answered question, and Runway with what is tried of it, have one filled button at most', {
  timeout: 900_000,
}, async () => {
  const { page } = await openPage(opened.browser, opened.house.base, { javaScriptEnabled: false })
  // Answered in a third of the time that others take.
  await page.goto('/runway/questions/slow-down')
  await page.evaluate(`document.querySelector('.question-form details').open = true`)
  await page.getByLabel('Simulations', { exact: true }).fill('50')
  await page.getByRole('button', { name: 'Ask', exact: true }).click()
  const takes = page.locator('form[action$="/take"]')
  const isAnswered = async () => {
    await page.reload()
    return takes.count()
  }
  await expect.poll(isAnswered, { timeout: 800_000, interval: 500 }).toBe(1)
  const found = await filledFindings({ page }, page.url())
  await page
    .getByRole('link', { name: /^Try it first/ })
    .first()
    .click()
  found.push(...(await filledFindings({ page }, page.url())))
  expect(found).toEqual([])
})

test('in a document laid beside axe is found what is found in the page itself', async () => {
  const own = await openPage(opened.browser, opened.house.base)
  const laid = await openPage(opened.browser, opened.house.base, { bypassCSP: true })
  await own.page.goto('/books/sorting')
  await own.page.evaluate(`{
    const main = document.querySelector('main')
    main.querySelector('p').style.color = '#ccc'
    const small = '<button class="dot">.</button>'
    main.insertAdjacentHTML('beforeend', '<input><img src="/assets/mark.svg"><select><option>a</select><a href="/now"></a>' + small + small)
    for (const one of main.querySelectorAll('.dot')) Object.assign(one.style, { width: '9px', height: '9px', padding: '0', minHeight: '0' })
  }`)
  await layForAxe(laid, String(await own.page.evaluate(markupForAxe)))
  const found = await axeFindings(own, 'here')
  expect(await axeFindings(laid, 'here')).toEqual(found)
  const rules = ['color-contrast', 'image-alt', 'label', 'link-name', 'select-name', 'target-size']
  expect([...new Set(found.map((one) => one.split(' ')[1]))]).toEqual(rules)
})

/** Head and foot are looked at where they are first seen: but for the page they mark as current they are the same on many pages. */
async function wideFindings(
  { page }: WatchedPage,
  laid: WatchedPage,
  path: string,
  frames: Set<string>,
): Promise<string[]> {
  const status = (await page.goto(path))?.status() ?? 500
  const read = (await page.evaluate(pageRead)) as PageRead
  const but = frames.has(read.frame) ? ['.head', '.foot'] : []
  frames.add(read.frame)
  await layForAxe(laid, read.markup)
  const found = [
    ...statusFindings(status, path),
    ...(await axeFindings(laid, path, { but })),
    ...shellFindings(read, path),
  ]
  await laid.page.emulateMedia({ colorScheme: 'dark' })
  found.push(...(await axeFindings(laid, `${path} (dark)`, { only: ['color-contrast'], but })))
  await laid.page.emulateMedia({ colorScheme: 'light' })
  return found
}

type SetLetters = (pixels: number) => Promise<unknown>

/** How long it is on a phone and on a desk; of a room also there with letters of twice the size, which `setLetters` sets as a reader does. */
async function narrowFindings(
  watched: WatchedPage,
  path: string,
  setLetters: SetLetters | null,
): Promise<string[]> {
  const { page } = watched
  await page.goto(path)
  const found: string[] = []
  // Begins as wide as the page before ended: each change of width lays the whole page out anew.
  const isPhone = page.viewportSize()!.width === screens.phone.width
  for (const on of isPhone ? (['phone', 'desk'] as const) : (['desk', 'phone'] as const)) {
    await page.setViewportSize(screens[on])
    found.push(...(await lengthFindings(watched, path, on)), ...(await cutFindings(watched, path)))
    if (on === 'phone') found.push(...(await sidewaysFindings(watched, path)))
    else if (setLetters) found.push(...(await largeLetterFindings(watched, path, setLetters)))
  }
  found.push(...(await filledFindings(watched, path)))
  return found
}

async function largeLetterFindings(
  { page }: WatchedPage,
  path: string,
  setLetters: SetLetters,
): Promise<string[]> {
  const found: string[] = []
  await setLetters(32)
  const { letters, over } = (await page.evaluate(`({
    letters: getComputedStyle(document.documentElement).fontSize,
    over: document.documentElement.scrollWidth - document.documentElement.clientWidth,
  })`)) as { letters: string; over: number }
  if (letters !== '32px') found.push(`${path}: letters stay at ${letters}`)
  if (over > 0) found.push(`${path}: ${over} px wider than its window with letters of twice the size`)
  await setLetters(16)
  return found
}

const lettersOf = async ({ page }: WatchedPage): Promise<SetLetters> => {
  const browser = await page.context().newCDPSession(page)
  return (pixels) => browser.send('Page.setFontSizes', { fontSizes: { standard: pixels } })
}

/** Filled is the one thing that is next, folds open or not; of folds that share a name the browser keeps one open. */
async function filledFindings({ page }: Pick<WatchedPage, 'page'>, path: string): Promise<string[]> {
  const filled = (await page.evaluate(`{
    for (const fold of document.querySelectorAll('main details')) fold.open = true
    const ground = document.createElement('i')
    ground.style.background = 'var(--action)'
    document.body.append(ground)
    const action = getComputedStyle(ground).backgroundColor;
    [...document.querySelectorAll('main :is(button, a)')]
      .filter((one) => getComputedStyle(one).backgroundColor === action && one.checkVisibility())
      .map((one) => one.textContent.trim())
  }`)) as string[]
  return filled.length > 1 ? [`${path}: filled are ${filled.join(', ')}`] : []
}

/** What a choice says stands whole in its field. */
async function cutFindings({ page }: WatchedPage, path: string): Promise<string[]> {
  const cut = (await page.evaluate(`[...document.querySelectorAll('main select')]
    .filter((one) => one.clientWidth > 2 && (one.scrollWidth > one.clientWidth || one.scrollHeight > one.clientHeight))
    .map((one) => one.name + ' ' + one.selectedOptions[0]?.text)`)) as string[]
  return cut.map((each) => `${path}: cut is ${each}`)
}

async function lengthFindings(
  { page }: WatchedPage,
  path: string,
  on: keyof typeof screens,
): Promise<string[]> {
  const height = Number(await page.evaluate('document.documentElement.scrollHeight'))
  const screen = screens[on]
  const isLong = !lists.test(path) && height > screen.most * screen.height
  return isLong ? [`${path}: ${(height / screen.height).toFixed(1)} screens of a ${on}`] : []
}

/** Asked for at once: the browser library’s own finders load half a megabyte into every page that they look at. */
const pageRead = `({
  headings: document.querySelectorAll('h1').length,
  title: document.title,
  text: document.querySelector('main').textContent,
  plays: document.querySelector('audio, video') !== null,
  frame: [...document.querySelectorAll('.head, .foot')]
    .map((one) => one.outerHTML.replaceAll(' aria-current="page"', ''))
    .join(),
  markup: ${markupForAxe},
})`

interface Shell {
  headings: number
  title: string
  text: string
  plays: boolean
}

interface PageRead extends Shell {
  frame: string
  markup: string
}

/** The same, of what the server sends. */
const readHtml = (html: string): Shell & { links: string[] } => ({
  headings: html.match(/<h1\b/g)?.length ?? 0,
  title: /<title>([^<]*)/.exec(html)?.[1] ?? '',
  text: /<main\b[\s\S]*<\/main>/.exec(html)?.[0].replace(/<[^>]*>/g, '') ?? '',
  plays: /<(audio|video)\b/.test(html),
  links: [...html.matchAll(/<a\b[^>]*\bhref="(\/[^"]*)"/g)].map(([, link]) => link!.replaceAll('&amp;', '&')),
})

const statusFindings = (status: number, path: string): string[] =>
  status >= 400 ? [`${path}: status ${status}`] : []

/** One h1, a title, and nothing printed that is no value; sound or film would need rules that are not run. */
function shellFindings({ headings, title, text, plays }: Shell, path: string): string[] {
  const found: string[] = []
  if (headings !== 1) found.push(`${path}: not one h1`)
  if (!title.endsWith('· Dooryard')) found.push(`${path}: title “${title}”`)
  const odd = /\b(NaN|undefined|\[object Object\]|Infinity)\b/.exec(text)
  if (odd) found.push(`${path}: shows “${odd[0]}”`)
  if (plays) found.push(`${path}: plays sound or film`)
  return found
}
