// What the first step says of where the household lives, laid over what the plan tells of it.
import type { PlanInput } from '#plan/plan.ts'
import { countyNamed } from '#rules/places/counties.ts'
import type { StateCode } from '#rules/places/state-names.ts'

/** The county as its state’s list writes it, where it is one of it; what else the place tells stays. */
export const placeOf = (
  { household }: PlanInput,
  state: '' | StateCode,
  county: string,
): NonNullable<PlanInput['household']>['place'] => {
  const { state: _, county: __, ...told } = household?.place ?? {}
  return {
    ...told,
    ...(state === '' ? {} : { state }),
    ...(county === '' ? {} : { county: (state === '' ? null : countyNamed(state, county)) ?? county }),
  }
}

/** Rates that somebody typed for the whole state stay. */
export const withLocalRate = (tax: PlanInput['tax'], localRate: number): PlanInput['tax'] =>
  tax?.stateTax === undefined || tax.stateTax.kind === 'law'
    ? { ...tax, stateTax: { kind: 'law', localRate } }
    : tax
