// What a venture holds, where the plan still expects it to come over once from the time when it did not know the venture: counted once.
import { type Month, parseMonth } from '#calendar/month.ts'
import type { Plan } from '#plan/plan.ts'

type Household = Plan['household']

/** The item by which the cash of a venture that the plan does not know is expected once. */
export const cashItem = (side: { id: string; name: string }): { id: string; name: string } => ({
  id: `${itemIds}${side.id}`,
  name: `Cash of ${side.name}`.slice(0, longestName),
})

const itemIds = 'cash-'
const longestName = 80

/** A venture is the same by name, however it is written. */
export const ventureKey = (name: string): string => name.trim().toLowerCase()

/**
 * The household with the ventures' cash as it is in `month`. An item still to come goes, since the venture's own cash stands in the plan:
 * the venture hands over as much of it, and keeps the rest, unless the plan says by itself what it keeps.
 */
export const cashHandedOver = (
  household: Household,
  month: Month,
  cash: readonly number[],
): Pick<Household, 'sideVentures' | 'oneOffs'> => {
  const handsOver = household.sideVentures.map(({ name }) => {
    const expected = cashItem({ id: '', name }).name.toLowerCase()
    return household.oneOffs.find(
      (item) =>
        item.id.startsWith(itemIds) &&
        item.name.trim().toLowerCase() === expected &&
        parseMonth(item.month)! >= month,
    )
  })
  return {
    sideVentures: household.sideVentures.map((venture, place) => {
      const held = cash[place] ?? venture.cash
      const item = handsOver[place]
      if (!item || venture.keeps !== undefined) return { ...venture, cash: held }
      return { ...venture, cash: held, keeps: Math.max(0, held + item.cost) }
    }),
    oneOffs: household.oneOffs.filter((item) => !handsOver.includes(item)),
  }
}
