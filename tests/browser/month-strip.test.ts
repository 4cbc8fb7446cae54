// Twelve months in one value: typed one by one with a total that follows, and saved without script just as well.
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { latestRevision, listPlans } from '#db/plan-store.ts'
import type { Plan } from '#plan/plan.ts'
import { openPage } from './house.ts'
import { sampleHouse } from './sample-house.ts'

const opened = sampleHouse()
const costsOf = (id: string) => {
  const [head] = listPlans(opened.house.books)
  const plan = latestRevision(opened.house.books, head!.id)!.document as Plan
  return plan.farm.overheads.find((one) => one.id === id)!.costs
}

test('the total follows what is typed, and the months are saved', { timeout: 60_000 }, async () => {
  const { page } = await openPage(opened.browser, opened.house.base)
  await page.goto('/farm/overheads/new')
  await page.getByLabel('Name').fill('Well water')
  const costs = page.locator('fieldset.strip', { hasText: 'Costs in a year' })
  await costs.getByLabel('January').fill('40')
  await costs.getByLabel('June').fill('1,060.50')
  expect(await costs.locator('[data-total]').textContent()).toBe('1,100.5')
  await page.locator('main').getByRole('button', { name: 'Save', exact: true }).last().click()
  await page.waitForURL('**/farm/fit?**')
  expect(costsOf('well-water')).toEqual([40, 0, 0, 0, 0, 1060.5, 0, 0, 0, 0, 0, 0])
})

test('without script one figure stands for all months', { timeout: 60_000 }, async () => {
  const { page } = await openPage(opened.browser, opened.house.base, { javaScriptEnabled: false })
  await page.goto('/farm/overheads/new')
  await page.getByLabel('Name').fill('Bookkeeping')
  const costs = page.locator('fieldset.strip', { hasText: 'Costs in a year' })
  await costs.getByLabel('Or a year’s total, the same every month').fill('600')
  await page.locator('main').getByRole('button', { name: 'Save', exact: true }).last().click()
  await page.waitForURL('**/farm/fit?**')
  expect(costsOf('bookkeeping')).toBe(600)
})

test('totals beside the fields and the bars of a season follow each figure, and stand without script after a save', {
  timeout: 90_000,
}, async () => {
  const { page } = await openPage(opened.browser, opened.house.base)
  await page.goto('/farm/enterprises/new')
  const sums = page.locator('.form-sums dd')
  expect(await sums.allTextContents()).toEqual(['$0.00', '$0.00', '–'])
  const sales = page.locator('fieldset.strip', { hasText: 'Sales per unit per year' })
  await sales.getByLabel('June').fill('300')
  await sales.getByLabel('July').fill('150')
  const heights = await sales
    .locator('[data-bar]')
    .evaluateAll((bars) => bars.map((bar) => bar.getAttribute('height')))
  expect(heights).toEqual(['0', '0', '0', '0', '0', '24', '12', '0', '0', '0', '0', '0'])
  const one = 'Or a year’s total, the same every month'
  await page
    .locator('fieldset.strip', { hasText: 'Direct costs per unit per year' })
    .getByLabel(one)
    .fill('90')
  await page.locator('fieldset.strip', { hasText: 'Hours per unit per year' }).getByLabel(one).fill('8')
  await page.getByLabel('Units today').fill('3')
  // 450 − 90; three of them; 360 over 8 hours.
  expect(await sums.allTextContents()).toEqual(['$360.00', '$1,080.00', '$45.00'])
  await page.getByLabel('Name').first().fill('Spinach')
  await page.locator('main').getByRole('button', { name: 'Save', exact: true }).last().click()
  await page.waitForURL('**/farm/enterprises?**')
  const plain = await openPage(opened.browser, opened.house.base, { javaScriptEnabled: false })
  await plain.page.goto('/farm/enterprises/spinach')
  expect(await plain.page.locator('.form-sums dd').allTextContents()).toEqual([
    '$360.00',
    '$1,080.00',
    '$45.00',
  ])
})

test('what a market comes to in a year follows its fields, and stands without script by a press', {
  timeout: 90_000,
}, async () => {
  const fill = async (page: Page) => {
    await page.goto('/farm/markets/new')
    await page.getByLabel('Name').first().fill('Village green')
    await page
      .locator('fieldset.strip', { hasText: 'Trips a month' })
      .getByLabel('Same every month')
      .fill('2')
    await page.getByLabel('Hours a trip').fill('10')
  }
  // 24 trips at 500 over 240 hours.
  const told = ['24', '$12,000.00', '$0.00', '240', '$50.00']
  const { page } = await openPage(opened.browser, opened.house.base)
  await fill(page)
  const sums = page.locator('#thing-sums dd')
  // Nothing is left yet: the last field is still being typed into.
  await expect.poll(() => sums.allTextContents(), { timeout: 10_000 }).toEqual(told)
  await page.getByLabel('Hours a trip').pressSequentially('0')
  expect(await page.getByLabel('Hours a trip').inputValue()).toBe('100')
  await expect
    .poll(() => sums.allTextContents(), { timeout: 10_000 })
    .toEqual(['24', '$12,000.00', '$0.00', '2,400', '$5.00'])
  expect(await page.evaluate('document.activeElement?.id')).toBe('f-hoursPerTrip')
  const plain = (await openPage(opened.browser, opened.house.base, { javaScriptEnabled: false })).page
  await fill(plain)
  await plain.getByRole('button', { name: 'Work it out again' }).click()
  expect(await plain.locator('#thing-sums dd').allTextContents()).toEqual(told)
  expect(await plain.getByLabel('Name').first().inputValue()).toBe('Village green')
})
