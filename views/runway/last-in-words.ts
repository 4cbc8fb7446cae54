// The first sentence over compared plans.
import { longSpell } from '#calendar/spell.ts'
import { formatDollars } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import type { Milestones } from '#runway/project.ts'

/** How long savings last with each; where they last with all, which one keeps most. */
export function lastInWords(
  plans: readonly { name: string; milestones: Pick<Milestones, 'monthsLeft' | 'lowestSpendable'> }[],
): string {
  if (plans.some(({ milestones }) => milestones.monthsLeft !== null))
    return `Savings last ${allOf(
      plans.map(
        ({ name, milestones: { monthsLeft } }) =>
          `${monthsLeft === null ? 'to the end' : longSpell(monthsLeft)} with “${name}”`,
      ),
    )}.`
  const lowest = plans.map(
    ({ name, milestones }) => `${formatDollars(milestones.lowestSpendable)} with “${name}”`,
  )
  return `Savings last with each; the lowest they get is ${allOf(lowest)}.`
}
