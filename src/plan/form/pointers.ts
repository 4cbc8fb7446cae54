// What a plan has of everything that its fields can name.
import type { Plan } from '../plan.ts'
import type { Pointers } from './draw.ts'

export const pointersOf = ({ household, savings, farm }: Plan): Pointers => {
  const adults = household.people
  return {
    adult: adults,
    child: household.dependents,
    anyone: [...adults, ...household.dependents],
    account: savings.accounts,
    market: farm.markets,
    enterprise: farm.enterprises,
    herd: farm.herds,
    'enterprise or herd': [...farm.enterprises, ...farm.herds],
    facility: farm.facilities,
    worker: [...adults, { id: 'hired', name: 'Hired help' }],
  }
}
