// What the books write off, this year and in the years ahead, of things that came into use before a month.
import { addDays, firstDayOf } from '#calendar/day.ts'
import { type Month, yearOf } from '#calendar/month.ts'
import { listSides } from '#db/ledger/account-store.ts'
import type { Books } from '#db/open.ts'
import { farmSide, type SideId } from '#ledger/account.ts'
import { electedOf } from '#ledger/reports/depreciation-form.ts'
import {
  inServiceBy,
  type StockInventory,
  stockInventory,
  wearsOut,
} from '#ledger/reports/stock-inventory.ts'
import { cents, centsToDollars } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import type { WrittenOff } from '#runway/compile/plan-of-day.ts'
import { keptUntilChange } from '#today/kept.ts'
import { runnerOf } from '#today/tax/earners.ts'
import { yearHoldings } from '#today/tax/year-holdings.ts'

/** As the inventory of each business stands on the eve of `month`; what comes into use later is not in it. */
export const writtenOff = (books: Books, saved: Plan, month: Month): WrittenOff => {
  const { farm, ventures } = keptUntilChange(books, `written off from ${month}`, () => ({
    farm: aheadOf(books, farmSide, month),
    ventures: listSides(books)
      .filter(({ kind }) => kind === 'venture')
      .flatMap(({ id, name }) => {
        const ahead = aheadOf(books, id, month)
        return ahead ? [{ name, ...ahead }] : []
      }),
  }))
  return {
    farm,
    ventures: ventures.map(({ name, byYear, section179 }) => ({
      person: runnerOf(saved, name),
      byYear: byYear.map((dollars, y) => (y === 0 ? dollars + section179 : dollars)),
    })),
  }
}

/** Longer than any recovery period. */
const mostYears = 50

/** Null where nothing on the inventory wears out. */
const aheadOf = (books: Books, side: SideId, month: Month): WrittenOff['farm'] => {
  const eve = addDays(firstDayOf(month), -1)
  const things = yearHoldings(books, side, eve).filter((one) => wearsOut(one.kind) && inServiceBy(one, eve))
  if (things.length === 0) return null
  const first = stockInventory(things, yearOf(month))
  const byYear = [deducted(first)]
  for (let y = 1; y < mostYears; y += 1) {
    const inventory = stockInventory(things, first.year + y)
    if (inventory.depreciationCents === 0) break
    byYear.push(deducted(inventory))
  }
  return { byYear, section179: centsToDollars(electedOf(first)) }
}

/** Without what is elected of the year's own things, which waits for income. */
const deducted = (inventory: StockInventory): number =>
  centsToDollars(cents(inventory.depreciationCents - electedOf(inventory)))
