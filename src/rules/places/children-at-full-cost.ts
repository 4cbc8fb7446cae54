// States that sell their children's program at its full cost to families above its limit.
import type { StateCode } from './state-names.ts'

export const childrenAtFullCost: { states: readonly StateCode[]; source: string } = {
  states: ['FL', 'NY', 'PA'],
  source:
    'The states’ children’s programs, from memory; others may sell it too, and prices are not in the data',
}
