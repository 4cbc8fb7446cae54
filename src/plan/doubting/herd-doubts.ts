// Herds that begin with more heads than the land is said to carry: those above the limit are left out.
import { speciesWords } from '#farm/herd/species-words.ts'
import type { Doubt } from '../doubt.ts'
import type { Plan } from '../plan.ts'

export const herdDoubts = ({ farm }: Plan): Doubt[] =>
  farm.herds.flatMap(({ name, kind, breedingFemales, carryingLimit }, place): Doubt[] =>
    breedingFemales <= carryingLimit
      ? []
      : [
          {
            path: ['farm', 'herds', place, 'carryingLimit'],
            message: `${name}: ${breedingFemales} ${speciesWords[kind].female[1]} begin here and ${carryingLimit} are carried, so the plan goes on with ${carryingLimit}. Is that so?`,
            asks: true,
          },
        ],
  )
