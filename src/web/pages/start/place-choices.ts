// The states to choose from, and the counties of the one that was chosen.
import { countiesOf } from '#rules/places/counties.ts'
import { stateNames } from '#rules/places/state-names.ts'
import type { PlaceChoices } from '#views/start/place.tsx'

export const placeChoices = (state: string): PlaceChoices => ({
  states: Object.entries(stateNames).map(([value, label]) => ({ value, label })),
  counties: countiesOf(state),
})
