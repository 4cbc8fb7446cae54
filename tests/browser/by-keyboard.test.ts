// From the first page to the year pack by the keyboard alone, and without script: setting up, Now, a draw, a lever, a question with its answer, a month closed, the pack.
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { drawnOf } from '../fuzz/batches.ts'
import { closePages, launch, openHouse, openPage } from './house.ts'

let browser: Browser
beforeAll(async () => {
  browser = await launch()
})
afterAll(() => closePages(browser))

/** What a hand does; `find` is what a person sees: a button's or link's text, a field's label. */
interface Hand {
  put(label: string, text: string): Promise<void>
  press(text: string): Promise<void>
}

const withMouse = (page: Page): Hand => ({
  put: (label, text) => page.getByLabel(label, { exact: true }).first().fill(text),
  async press(text) {
    await page
      .locator('button, a, summary')
      .filter({ hasText: new RegExp(`^\\s*${text}\\s*$`) })
      .filter({ visible: true })
      .first()
      .click()
    await page.waitForLoadState()
  },
})

/** Until the page has an answer, the first one from few simulations; without script it is asked for again. */
const answered = async (page: Page, script: boolean): Promise<void> => {
  const answer = page.locator('.question-answer').first()
  if (script) return answer.waitFor({ timeout: 120_000 })
  for (let tries = 0; tries < 120 && (await answer.count()) === 0; tries += 1) {
    await page.waitForTimeout(1000)
    await page.goto(page.url())
  }
}

interface Focused {
  text: string
  label: string
  type: string
  unfolds: boolean
}

/** More presses of Tab than this to a field or button are a fault of the page. */
const mostTabs = 130

const withKeys = (page: Page): Hand => {
  const said = `(() => {
    const one = document.activeElement
    const label = one?.labels?.[0]?.textContent ?? ''
    return { text: (one?.textContent ?? '').trim(), label: label.trim(), type: one?.type ?? '', unfolds: one?.tagName === 'SUMMARY' }
  })()`
  const reach = async (is: (at: Focused) => boolean, name: string) => {
    for (let tabs = 0; tabs < mostTabs; tabs += 1) {
      const at = (await page.evaluate(said)) as Focused
      if (is(at)) return at
      await page.keyboard.press('Tab')
    }
    throw new Error(`${page.url()}: “${name}” is not reached by ${mostTabs} presses of Tab`)
  }
  return {
    async put(label, text) {
      const { type } = await reach((at) => at.label === label, label)
      if (type === 'date') {
        const [year, month, day] = text.split('-') as [string, string, string]
        await page.keyboard.type(month + day + year)
        return
      }
      await page.keyboard.press('Control+A')
      await page.keyboard.type(text)
    },
    async press(text) {
      const { unfolds } = await reach((at) => at.text === text, text)
      if (unfolds) return page.keyboard.press('Enter')
      // A lever changes a part of its page and leads nowhere.
      const moved = page.waitForEvent('framenavigated', { timeout: 4000 }).catch(() => null)
      await page.keyboard.press('Enter')
      await moved
      await page.waitForLoadState()
    },
  }
}

const ways = [
  // Few simulations: what is asked is whether a hand gets there, and what is still worked out keeps the next one waiting.
  {
    name: 'by the keyboard alone',
    script: true,
    hand: withKeys,
    question: 'Savings needed today',
    simulations: '50',
  },
  // Another question: both houses are of one process, which keeps the last answer to each.
  // Enough for a first answer before the whole one.
  { name: 'without script', script: false, hand: withMouse, question: 'Monthly draw', simulations: '100' },
]

test.for(drawnOf(ways, 1))(
  '$name from the first page to the year pack',
  { timeout: 300_000 },
  async ({ script, hand, question, simulations }) => {
    const house = await openHouse('empty')
    try {
      const { page, complaints } = await openPage(browser, house.base, { javaScriptEnabled: script })
      const { put, press } = hand(page)
      const at = (path: string) => page.waitForURL((url) => url.pathname === path)
      await page.goto('/')
      await press('Begin')
      await put('Name of the farm', 'Sedge Bottom')
      await put('Name', 'Ada')
      await put('Born', '1984-03-09')
      await press('Next: accounts and balances')
      await at('/start/accounts')
      await put('First day of the books', '2026-10-01')
      await put('Household checking', '31250')
      await put('Farm checking', '8400')
      await press('Next: loans, and what you own')
      await at('/start/owned')
      await press('Leave it for later')
      await at('/start/year')
      await press('Leave it for later')
      await at('/start/costs')
      await put('Living, a month', '2400')
      await press('See where you stand')
      await at('/now')
      expect(await page.locator('.answer').textContent()).toMatch(/months?\b/)

      await press('Crossings')
      await at('/crossings')
      await press('Owner’s draw')
      await put('Amount', '650')
      await press('Record it on both sides')
      await at('/crossings')
      expect(await page.locator('main').textContent()).toContain('$650')

      await press('Runway')
      await at('/runway')
      const before = await page.locator('#course .answer').textContent()
      await put('Living costs, percent of the plan', '50')
      await press('Run the projection')
      await page
        .waitForFunction(
          `document.querySelector('#course .answer').textContent !== ${JSON.stringify(before)}`,
          null,
          { timeout: 20_000 },
        )
        .catch(() => {})
      expect(await page.locator('#course .answer').textContent()).not.toBe(before)

      await press('Questions')
      await at('/runway/questions')
      await press(question)
      await page.waitForURL('**/runway/questions/*')
      await press('Number of simulations and seed')
      await put('Simulations', simulations)
      await press('Ask')
      await answered(page, script)
      expect((await page.locator('.question-answer').first().textContent())!.trim()).not.toBe('')

      await press('Books')
      await at('/books')
      await press('Close a month')
      await at('/books/close')
      await press('Close the month')
      await at('/books/close')
      expect(await page.locator('main').textContent()).toContain('Closed through October 2026')
      await press('Year pack')
      await at('/year-pack')
      expect(await page.locator('h1').textContent()).toContain('2026')
      expect(complaints).toEqual([])
    } finally {
      await house.close()
    }
  },
)
