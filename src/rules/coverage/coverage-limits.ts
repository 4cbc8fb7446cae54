// Up to which income a state's public programs cover whom: Medicaid for adults, parents, pregnancy and children, the children's
// program, a basic health program. In percent of the federal poverty level; 0 where there is no such coverage.
import { limitsTable } from '../places/published.ts'

/** In the order of `standings`, then the two programs beside Medicaid. */
export const limitNames = [
  'infant',
  'youngChild',
  'olderChild',
  'adult',
  'parent',
  'pregnant',
  'childrensProgram',
  'basic',
] as const
export type LimitName = (typeof limitNames)[number]
export type CoverageLimits = Readonly<Record<LimitName, number>>

/** Each as pages and forms call it. */
export const limitWords: Record<LimitName, string> = {
  infant: 'Medicaid, children under 1',
  youngChild: 'Medicaid, children 1 to 5',
  olderChild: 'Medicaid, children 6 to 18',
  adult: 'Medicaid, adults',
  parent: 'Medicaid, parents',
  pregnant: 'Medicaid in pregnancy',
  childrensProgram: 'Children’s program (CHIP)',
  basic: 'Basic health program',
}

export const noLimits: CoverageLimits = {
  infant: 0,
  youngChild: 0,
  olderChild: 0,
  adult: 0,
  parent: 0,
  pregnant: 0,
  childrensProgram: 0,
  basic: 0,
}

/** As published for the state, those in force in a month like `2027-01`; what has ended or not begun counts as none. */
export const coverageLimits = (state: string, month: string): CoverageLimits => {
  const key = `${state} ${month}`
  const found = known.get(key) ?? limitsIn(state, month)
  known.set(key, found)
  return found
}

/** A plan asks for the January of each of its years, and each plan for the same ones. */
const known = new Map<string, CoverageLimits>()

const limitsIn = (state: string, month: string): CoverageLimits => {
  const { limits } = limitsTable()
  const at = (name: LimitName): number =>
    limits[name]?.states[state]?.findLast(([from]) => from <= month)?.[1] ?? 0
  return Object.fromEntries(limitNames.map((name) => [name, at(name)])) as CoverageLimits
}

/** Where a limit comes from and how it was obtained, as pages say it. */
export const limitSource = (name: LimitName): string =>
  `${limitsTable().limits[name]?.source ?? ''}. ${limitsTable().note}`
