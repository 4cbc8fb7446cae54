// Plan → seen: one press takes a figure over, with script and without, on a phone too.
import { expect, test } from 'vitest'
import { latestRevision, listPlans } from '#db/plan-store.ts'
import { drawnOf } from '../fuzz/batches.ts'
import { openPage } from './house.ts'
import { sampleHouse } from './sample-house.ts'

const opened = sampleHouse()
const revision = () => {
  const [head] = listPlans(opened.house.books)
  return latestRevision(opened.house.books, head!.id)!.revisionNo
}

test.for(drawnOf([false, true], 1))(
  'one press takes a figure over, script %s',
  { timeout: 90_000 },
  async (javaScriptEnabled) => {
    const { page } = await openPage(opened.browser, opened.house.base, {
      javaScriptEnabled,
      viewport: { width: 360, height: 740 },
    })
    await page.goto('/farm/seen')
    const buttons = page.locator('main').getByRole('button', { name: /^Put in the plan/ })
    const before = await buttons.count()
    expect(before).toBeGreaterThan(1)
    const name = (await buttons.first().getAttribute('aria-label'))!
    const saved = revision()
    await buttons.first().click()
    await page.waitForURL('**/farm/seen?**')
    expect(revision()).toBe(saved + 1)
    expect(await page.getByRole('button', { name, exact: true }).count()).toBe(0)
    expect(await buttons.count()).toBeLessThan(before)
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(360)
  },
)
