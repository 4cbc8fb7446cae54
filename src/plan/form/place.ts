// A part of the plan by its path: taken out, and put back with nothing else touched.
import type { Plan } from '../plan.ts'
import { asRecord, type Path } from './shape.ts'

export const valueAt = (plan: Plan, path: Path): unknown =>
  path.reduce<unknown>((at, step) => asRecord(at)[step], plan)

export const withValueAt = (plan: Plan, path: Path, value: unknown): Plan => put(plan, path, value) as Plan

const put = (at: unknown, [step, ...rest]: Path, value: unknown): unknown => {
  if (step === undefined) return value
  const below = rest.length === 0 ? value : put(asRecord(at)[step], rest, value)
  return Array.isArray(at) ? at.toSpliced(Number(step), 1, below) : { ...asRecord(at), [step]: below }
}
