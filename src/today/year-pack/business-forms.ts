// Whose the forms of the farm and of each venture are, and the farm's form of each where two owners file one.
import type { SideId } from '#ledger/account.ts'
import { formsOfTwo } from '#ledger/reports/form-lines.ts'
import type { BusinessSaid, YesNo } from '#ledger/tax/form-said.ts'
import type { Plan } from '#plan/plan.ts'
import type { CurrentPlan } from '#today/current-plan.ts'
import type { BooksYear } from '#today/tax/books-year.ts'
import { ownedByFirst, runnerOf } from '#today/tax/earners.ts'
import type { FarmForm, VentureForm } from './figures.ts'

/** `owes` is what the books' payees tell of Forms 1099, where nobody said it. */
export const farmFormOf = (farm: BooksYear['farm'], current: CurrentPlan, owes: YesNo): FarmForm | null => {
  if (!farm) return null
  const { form } = farm
  const said = withForms(farm.said, owes)
  const plan = planOf(current)
  const names = plan?.household.people.map(({ name }) => name) ?? []
  if (plan === null || names.length < 2) return { said, owners: names, each: null }
  const share = ownedByFirst(plan, said)
  if (said.ownership === null) return { said, owners: [], each: null }
  if (said.ownership === 'one') return { said, owners: [names[share === 0 ? 1 : 0]!], each: null }
  return {
    said,
    owners: names.slice(0, 2),
    each: said.ownership === 'joint' ? formsOfTwo(form, share) : null,
  }
}

/** G of Schedule F and J of Schedule C are not answered where no payment calls for the forms; an answer before that is known stands. */
export const withForms = <Said extends BusinessSaid>(said: Said, owes: YesNo): Said => ({
  ...said,
  owes1099: said.owes1099 ?? owes,
  files1099: (said.owes1099 ?? owes) === 'no' ? null : said.files1099,
})

export const ventureForms = (
  { ventures }: BooksYear,
  current: CurrentPlan,
  owing: ReadonlyMap<SideId, YesNo>,
): VentureForm[] => {
  const plan = planOf(current)
  return ventures.map(({ form, said, depreciation }) => {
    const id = said.person ?? (plan && runnerOf(plan, form.name))
    const person = plan?.household.people.find((one) => one.id === id)?.name ?? null
    return { form, said: withForms(said, owing.get(form.sideId) ?? null), depreciation, person }
  })
}

const planOf = (current: CurrentPlan): Plan | null => (current.status === 'read' ? current.plan : null)
