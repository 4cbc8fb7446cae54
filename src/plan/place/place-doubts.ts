// A county that the state does not have: refused where it is typed.
import { countyNamed } from '#rules/places/counties.ts'
import { stateNames } from '#rules/places/state-names.ts'
import type { Doubt } from '../doubt.ts'
import type { Plan } from '../plan.ts'

export const placeDoubts = ({ household }: Plan): Doubt[] => {
  const { state, county } = household.place
  const path = ['household', 'place', 'county']
  if (county === undefined) return []
  if (state === undefined)
    return [{ path: ['household', 'place', 'state'], message: `Choose the state that ${county} is in` }]
  return countyNamed(state, county) === null
    ? [
        {
          path,
          message: `${stateNames[state]} has no county called ${county} in the marketplace’s list. Choose one from the list`,
        },
      ]
    : []
}
