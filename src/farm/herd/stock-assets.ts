// Bought breeding stock as assets that are written off, by the choice of its herd.
import { dayInMonth } from '#calendar/day.ts'
import { addMonths, month, yearOf } from '#calendar/month.ts'
import { herdLimits } from '#farm/course.ts'
import type { Farm } from '#farm/farm-document.ts'
import { monthFromText } from '#farm/seasonal.ts'
import { firstRecoveryYear } from '#rules/depreciation/recovery.ts'
import type { DepreciableAsset } from '#rules/depreciation/schedule.ts'
import { isBird } from './herd-document.ts'
import { herdMonths } from './herd-months.ts'
import { stockClasses } from './herd-tax.ts'

/** What herds buy up to the end of `lastYear`, at the plan's first prices. Poultry is goods and no asset. */
export const stockAssets = (farm: Farm, lastYear: number): DepreciableAsset[] =>
  farm.herds.flatMap((herd): DepreciableAsset[] => {
    const { kind, stockWriteOff } = herd
    const start = monthFromText(herd.start)
    if (isBird(kind) || yearOf(start) > lastYear) return []
    const count = month(lastYear, 12) - start + 1
    const { stockBought } = herdMonths(herd, start, count, herdLimits(farm, herd.id))
    return Array.from(stockBought).flatMap((dollars, m): DepreciableAsset[] => {
      const at = addMonths(start, m)
      if (dollars === 0 || yearOf(at) < firstRecoveryYear) return []
      const cost = Math.round(dollars * 100) / 100
      return [
        {
          name: herd.name,
          assetClass: stockClasses[kind],
          cost,
          placedInService: dayInMonth(at, 1),
          section179: stockWriteOff === 'section179' ? cost : 0,
          bonus: stockWriteOff === 'bonus',
        },
      ]
    })
  })
