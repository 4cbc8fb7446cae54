// The farm's enterprises as choices for the lines of an entry: named in the plan, kept in the books by their tag.
import type { Books } from '#db/open.ts'
import { currentPlan } from '#today/current-plan.ts'
import type { Option } from '#views/parts/field.tsx'

export const findEnterprises = (books: Books): Option[] => {
  const current = currentPlan(books)
  if (current.status !== 'read') return []
  return current.plan.farm.enterprises.map((enterprise) => ({
    value: enterprise.tag ?? enterprise.id,
    label: enterprise.name,
  }))
}
