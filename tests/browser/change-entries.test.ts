// Changing several entries of a register in a browser, with script and without: ticked by keyboard and by link, looked at, booked, taken back.
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { registerPage } from '#db/ledger/register.ts'
import { drawnOf } from '../fuzz/batches.ts'
import { axeInLightAndDark } from './findings.ts'
import { closePages, launch, openHouse, openPage, type RunningHouse, type WatchedPage } from './house.ts'

let browser: Browser
beforeAll(async () => {
  browser = await launch()
})
afterAll(async () => {
  await closePages(browser)
})

const idOf = (house: RunningHouse, name: string) =>
  listAccounts(house.books, { sideId: 'farm' }).find((account) => account.name === name)!.id

/** What still stands of the feed store since December in the account, as [payee, other account]. */
const standing = (house: RunningHouse) =>
  registerPage(house.books, {
    accountId: idOf(house, 'Farm checking'),
    filter: { text: 'ewe ration', from: '2025-12-01' as never, withoutTakenBack: true },
    limit: 200,
  }).rows.map((row) => `${row.payee}: ${row.others.map((other) => other.name).join(', ')}`)

const problemsOf = async (page: Page, at: string): Promise<string[]> => {
  const over = (await page.evaluate('document.documentElement.scrollWidth - innerWidth')) as number
  return [...(await axeInLightAndDark({ page }, at)), ...(over > 0 ? [`${at}: ${over} px too wide`] : [])]
}

describe.each(drawnOf([{ script: false }, { script: true }], 1))('with script: $script', ({ script }) => {
  let house: RunningHouse
  let watched: WatchedPage
  let page: Page

  beforeAll(async () => {
    house = await openHouse('sample')
    watched = await openPage(browser, house.base, {
      javaScriptEnabled: script,
      ...(script ? {} : { viewport: { width: 360, height: 740 } }),
    })
    page = watched.page
  }, 180_000)
  afterAll(async () => {
    expect(watched.strayRequests).toEqual([])
    expect(watched.complaints).toEqual([])
    await page.context().close()
    await house.close()
  })

  const search = async () => {
    await page.goto(`/books/accounts/${idOf(house, 'Farm checking')}`)
    await page.getByLabel('Search').fill('ewe ration')
    await page.getByLabel('From').fill('2025-12-01')
    await page.getByRole('button', { name: 'Find' }).click()
    await page.getByRole('link', { name: 'Change all that the search finds' }).waitFor()
  }

  test('nothing checked says what to do first', async () => {
    await search()
    await page.getByRole('button', { name: 'Change the checked entries' }).click()
    expect(await page.locator('.error-summary').textContent()).toContain('Check the lines to change')
    await page.getByRole('link', { name: 'Back to the register' }).click()
    expect(await page.getByLabel('Search').inputValue()).toBe('ewe ration')
  })

  test('lines are checked by keyboard, looked at, and booked in one act that is reversed as a whole', async () => {
    const before = standing(house)
    await search()
    const ticks = page.locator('#register input[type=checkbox]')
    await ticks.first().focus()
    await page.keyboard.press('Space')
    await page.keyboard.press('Tab')
    await page.keyboard.press('Tab')
    await page.keyboard.press('Tab')
    await page.keyboard.press('Space')
    expect(await page.getByRole('checkbox', { checked: true }).count()).toBe(2)
    await page.getByRole('button', { name: 'Change the checked entries' }).focus()
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { name: 'What is to change' }).waitFor()
    await page.getByLabel('Other account').selectOption({ label: 'Farm insurance' })
    await page.getByLabel('With whom').fill('Hollow Feed')
    await page.getByRole('button', { name: 'Look at what would be booked' }).click()
    await page.getByText('2 entries are reversed and recorded again').waitFor()
    expect(standing(house)).toEqual(before)
    await page.getByRole('button', { name: 'Book these 2 changes' }).dblclick()
    await page.locator('.notice', { hasText: '2 entries are reversed and recorded again.' }).waitFor()
    expect(standing(house).filter((one) => one === 'Hollow Feed: Farm insurance')).toHaveLength(2)
    expect(standing(house)).toHaveLength(before.length)
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByText('The last action is undone.').waitFor()
    expect(standing(house)).toEqual(before)
  })

  test('a link ticks the whole page; what lies in a closed month is named and stays', async () => {
    const before = standing(house)
    await search()
    await page.getByRole('link', { name: 'Check all on this page' }).click()
    const ticked = await page.locator('#register input[type=checkbox]:checked').count()
    expect(ticked).toBe(before.length)
    await page.getByRole('button', { name: 'Change the checked entries' }).click()
    await page.getByLabel('Note').last().fill('Ration for ewes')
    await page.getByRole('button', { name: 'Look at what would be booked' }).click()
    await page.getByRole('heading', { name: 'What would be booked' }).waitFor()
    expect(await page.getByText('These books are closed through December 2025').count()).toBeGreaterThan(0)
    expect(
      await page
        .getByText('as they are, for the reason')
        .or(page.getByText('as it is, for the reason'))
        .count(),
    ).toBe(1)
  })
})

test('the register, the choice, the look and a statement put right are accessible and fit 360 px', {
  timeout: 240_000,
}, async () => {
  const house = await openHouse('sample')
  const { page, complaints } = await openPage(browser, house.base, { viewport: { width: 360, height: 740 } })
  const register = `/books/accounts/${idOf(house, 'Farm checking')}`
  const found = `${register}/change?chosen=found&text=ewe+ration&from=2025-12-01`
  await page.goto(register)
  await page.emulateMedia({ media: 'print' })
  expect(await page.locator('#register input[type=checkbox]:visible').count()).toBe(0)
  await page.emulateMedia({ media: 'screen' })
  const findings: string[] = []
  const inspect = async (at: string) => {
    findings.push(...(await problemsOf(page, at)))
  }
  const paths = [
    `${register}?chosen=page`,
    found,
    `${found}&look=yes&lines=others&payee=Hollow+Feed`,
    `${found}&look=yes&lines=others`,
    `${register}/change`,
  ]
  for (const path of drawnOf(paths, 2)) {
    await page.goto(path)
    await inspect(path)
  }
  await page.goto(`/books/reconcile?account=${idOf(house, 'Farm checking')}`)
  await page.getByLabel('Last day on the statement').fill('2026-10-31')
  await page.getByLabel('Balance on that day').fill('1')
  await page.getByRole('button', { name: 'Start reconciling' }).click()
  await page.getByText('Change the statement date or balance').click()
  await page.getByLabel('Balance on that day').fill('2')
  await inspect('a statement put right')
  await page.getByRole('button', { name: 'Save changes' }).click()
  await page.getByText('The statement is changed. What was checked stays.').waitFor()
  expect(findings).toEqual([])
  expect(complaints).toEqual([])
  await page.context().close()
  await house.close()
})
