// What becomes of farm losses, and how fast what the farm buys is written off.

import { monthText } from '#calendar/month.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { takesBonus, takesSection179 } from '#rules/depreciation/recovery.ts'
import type { Way } from './way.ts'

type Purchase = Plan['farm']['purchases'][number]
type Speed = 'elect' | 'bonus' | 'slow'

const speeds: readonly { speed: Speed; name: string; says: string }[] = [
  {
    speed: 'elect',
    name: 'Elect section 179 for what is bought',
    says: 'Written off at once as far as income goes, the rest carried on (26 USC 179).',
  },
  {
    speed: 'bonus',
    name: 'Bonus depreciation for what is bought',
    says: 'Written off at once, even where that makes a loss (26 USC 168(k)).',
  },
  {
    speed: 'slow',
    name: 'Write off over the years',
    says: 'No election and no bonus: each thing by its class.',
  },
]

/** Those that change something of the plan: the other way for losses, each speed, and both. */
export function lossWays(plan: Plan): readonly Way[] {
  const { farm, tax } = plan
  if (farm.enterprises.length + farm.herds.length === 0) return []
  const other = tax.farmLosses === 'back' ? 'forward' : 'back'
  const changing = speeds.filter(
    ({ speed }) => JSON.stringify(writtenOff(plan, speed).farm) !== JSON.stringify(farm),
  )
  return [carried[other], ...changing.flatMap((each) => [writeOff(each), writeOff(each, other)])]
}

/** One of them by its short name, be it as the plan has it. */
export const lossNamed = (id: string): Way | undefined =>
  [
    ...Object.values(carried),
    ...speeds.flatMap((each) => [writeOff(each), writeOff(each, 'back'), writeOff(each, 'forward')]),
  ].find((way) => way.id === id)

type Carried = Plan['tax']['farmLosses']

const carried: Readonly<Record<Carried, Way>> = {
  back: {
    id: 'losses-back',
    name: 'Carry farm losses back two years',
    says: 'Against the returns of the two years before, earliest first, the rest forward (26 USC 172(b)(1)(B)). Needs the figures of those returns.',
    change: (plan) => withLosses(plan, 'back'),
  },
  forward: {
    id: 'losses-forward',
    name: 'Carry farm losses forward',
    says: 'To later years, up to four fifths of their income (26 USC 172(a)(2)).',
    change: (plan) => withLosses(plan, 'forward'),
  },
}

const writeOff = ({ speed, name, says }: (typeof speeds)[number], losses?: Carried): Way =>
  losses === undefined
    ? { id: speed, name, says, change: (plan) => writtenOff(plan, speed) }
    : {
        id: `${speed}-${losses}`,
        name: `${name}, losses ${losses}`,
        says: `Both together. ${says}`,
        change: (plan) => withLosses(writtenOff(plan, speed), losses),
      }

const withLosses = (plan: Plan, farmLosses: Carried): Plan => ({
  ...plan,
  tax: { ...plan.tax, farmLosses },
})

/** Only what is still to be bought: earlier returns stand. */
function writtenOff(plan: Plan, speed: Speed): Plan {
  const first = monthText(firstMonthOf(plan))
  const bought = (one: Purchase): Purchase => {
    if (one.timing === 'dated' && one.month < first) return one
    return {
      ...one,
      section179Share: speed === 'elect' && takesSection179(one.assetClass) ? 1 : 0,
      bonus: speed === 'bonus' && takesBonus(one.assetClass),
    }
  }
  const stock = { elect: 'section179', bonus: 'bonus', slow: 'overYears' } as const
  return {
    ...plan,
    farm: {
      ...plan.farm,
      purchases: plan.farm.purchases.map(bought),
      herds: plan.farm.herds.map((herd) => ({ ...herd, stockWriteOff: stock[speed] })),
    },
  }
}
