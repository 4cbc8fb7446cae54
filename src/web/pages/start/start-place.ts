// What the first step says of where the household lives, laid over what the plan tells of it.
import type { Books } from '#db/open.ts'
import type { FieldProblem } from '#ledger/problem.ts'
import type { PlanInput } from '#plan/plan.ts'
import { countyNamed } from '#rules/places/counties.ts'
import type { StateCode } from '#rules/places/state-names.ts'
import { currentPlan } from '#today/current-plan.ts'

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

/** A local rate beside rates that somebody typed for the whole state would be dropped: it is refused at its field. */
export const rateUnheard = (books: Books, localRate: number): FieldProblem[] => {
  const current = currentPlan(books)
  if (localRate === 0 || current.status !== 'read' || current.plan.tax.stateTax.kind === 'law') return []
  const message = 'The plan has state rates of your own: add the local rate to them on Runway, under Taxes'
  return [{ path: 'localRate', message }]
}
