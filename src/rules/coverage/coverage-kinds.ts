// What a person can be covered by; a kind's place in this list is what a run writes down.
export const coverageKinds = [
  'absent',
  'none',
  'other plan',
  'marketplace',
  'Medicaid',
  'children’s program',
  'basic health program',
  'Medicare',
  // Of months that are over: nothing in plan or books says what covered the person.
  'not known',
] as const
export type CoverageKind = (typeof coverageKinds)[number]

/** Programs of the state, by income. */
export const statePrograms: ReadonlySet<CoverageKind> = new Set([
  'Medicaid',
  'children’s program',
  'basic health program',
])

export const absent = 0
export const uncovered = 1
export const otherPlan = 2
export const marketplace = 3
export const medicaid = 4
export const childrensProgram = 5
export const basicProgram = 6
export const medicare = 7
