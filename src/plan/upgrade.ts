// Reads a plan of any age: upgrades older shapes step by step, refuses newer ones in plain words, and names every wrong field.
import type { z } from 'zod'
import { takesSection179 } from '#rules/depreciation/recovery.ts'
import { readJsonText } from './json-text.ts'
import { plainWords } from './plain-words.ts'
import { type Plan, planSchema, planVersion } from './plan.ts'
import { unknownKeys } from './unknown-keys.ts'

export interface PlanFault {
  /** Where in the document, dotted: `household.living.0.perMonth`. Empty for the document as a whole. */
  path: string
  message: string
}

export type ReadPlan =
  | { ok: true; plan: Plan; upgradedFrom: number | null }
  | { ok: false; faults: PlanFault[] }

/** Steps from each older version to the next. Each takes and gives a plain JSON object and loses nothing. */
const steps: Record<number, (document: Record<string, unknown>) => Record<string, unknown>> = {
  0: fromVersion0,
  1: fromVersion1,
  2: fromVersion2,
  3: fromVersion3,
  4: fromVersion4,
  5: fromVersion5,
}

export interface ReadPlanOptions {
  /** A key that no plan has is a fault: for what people write by hand, where it is a slip of the finger. */
  refuseUnknown?: boolean
}

/** Reads parsed JSON as a plan. */
export const readPlan = (document: unknown, options: ReadPlanOptions = {}): ReadPlan => {
  if (typeof document !== 'object' || document === null || Array.isArray(document)) {
    return refuse('', 'A plan is a JSON object, like {"startMonth": "2027-01"}')
  }
  let current = document as Record<string, unknown>
  const version = current.planVersion === undefined ? planVersion : current.planVersion
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 0)
    return refuse('planVersion', `planVersion is a whole number; this program writes ${planVersion}`)
  if (version > planVersion)
    return refuse(
      'planVersion',
      `This plan was written by a newer version (${version}); this program reads up to ${planVersion}. Update the program, or export the plan from the newer one`,
    )
  for (let at = version; at < planVersion; at += 1) current = { ...steps[at]!(current), planVersion: at + 1 }
  current = withTodaysNames(withoutItsDay(current))
  const parsed = planSchema.safeParse(current, { error: plainWords })
  if (!parsed.success) return { ok: false, faults: faultsOf(parsed.error) }
  const unknown = options.refuseUnknown ? unknownKeys(current, parsed.data) : []
  if (unknown.length > 0)
    return { ok: false, faults: unknown.map((path) => ({ path, message: 'there is no such key here' })) }
  return { ok: true, plan: parsed.data, upgradedFrom: version < planVersion ? version : null }
}

/** Reads the text of a plan file. */
export const readPlanText = (text: string, options: ReadPlanOptions = {}): ReadPlan => {
  const read = readJsonText(text)
  return read.ok ? readPlan(read.value, options) : refuse('', read.message)
}

export const faultsOf = (error: z.ZodError): PlanFault[] =>
  error.issues.map((issue) => ({ path: issue.path.join('.'), message: issue.message }))

const refuse = (path: string, message: string): ReadPlan => ({ ok: false, faults: [{ path, message }] })

/**
 * Version 0 was the first slice: one living cost, one premium, draw steps, savings and floor, all flat.
 * `{ startMonth, livingPerMonth, premiumPerMonth, draws: [{ from, perMonth }], savings, floorMonths | floorDollars }`
 */
function fromVersion0(old: Record<string, unknown>): Record<string, unknown> {
  const { livingPerMonth, premiumPerMonth, draws, savings, floorMonths, floorDollars, ...kept } = old
  return {
    ...kept,
    household: {
      living:
        livingPerMonth === undefined
          ? []
          : [{ id: 'living', name: 'Living costs', perMonth: livingPerMonth }],
      floor:
        floorDollars === undefined
          ? { kind: 'months', months: floorMonths ?? 6 }
          : { kind: 'dollars', dollars: floorDollars },
    },
    health: {
      premiums:
        premiumPerMonth === undefined
          ? []
          : [{ id: 'premium', name: 'Health insurance premium', perMonth: premiumPerMonth }],
    },
    savings: { accounts: [{ id: 'savings', name: 'Savings', kind: 'cash', balance: savings ?? 0 }] },
    draw: { policy: 'steps', steps: draws ?? [] },
    tax: { method: 'none' },
  }
}

/** Version 1 knew the federal age curve alone: what it reckoned with is now said in the plan. */
function fromVersion1(old: Record<string, unknown>): Record<string, unknown> {
  const health = isObject(old.health) ? old.health : {}
  const marketplace = isObject(health.marketplace) ? health.marketplace : {}
  if ('ageRating' in marketplace) return old
  if (old.health !== undefined && !isObject(old.health)) return old
  if (health.marketplace !== undefined && !isObject(health.marketplace)) return old
  return { ...old, health: { ...health, marketplace: { ...marketplace, ageRating: 'federal' } } }
}

/** Version 2 let a building be written off at once, which no law allows and the Farm page could not show: its class's table holds. */
function fromVersion2(old: Record<string, unknown>): Record<string, unknown> {
  if (!isObject(old.farm) || !Array.isArray(old.farm.purchases)) return old
  const purchases = old.farm.purchases.map((one: unknown) =>
    isObject(one) &&
    one.section179Share !== undefined &&
    !takesSection179(String(one.assetClass ?? 'machinery-new'))
      ? { ...one, section179Share: 0 }
      : one,
  )
  return { ...old, farm: { ...old.farm, purchases } }
}

/** Version 3 knew no loans of the household: they begin as an empty list. */
function fromVersion3(old: Record<string, unknown>): Record<string, unknown> {
  return old
}

/** Version 4 knew no state's law: no state tax is now what a plan without a place has, until it names one. */
function fromVersion4(old: Record<string, unknown>): Record<string, unknown> {
  if (!isObject(old.tax) || !isObject(old.tax.stateTax) || old.tax.stateTax.kind !== 'none') return old
  return { ...old, tax: { ...old.tax, stateTax: { kind: 'law' } } }
}

/** Version 5 spelled children and others at home `dependants`. */
function fromVersion5(old: Record<string, unknown>): Record<string, unknown> {
  return withTodaysNames(old)
}

/** A key by the name it had: also in a plan that says no version, where it would be dropped and a child with it. */
function withTodaysNames(document: Record<string, unknown>): Record<string, unknown> {
  const { household, health } = document
  return {
    ...document,
    ...(isObject(household) ? { household: renamed(household, 'dependants', 'dependents') } : {}),
    ...(isObject(health) ? { health: renamed(health, 'careEachDependant', 'careEachDependent') } : {}),
  }
}

const renamed = (fields: Record<string, unknown>, was: string, is: string): Record<string, unknown> => {
  const { [was]: value, ...kept } = fields
  return value === undefined || is in kept ? fields : { ...kept, [is]: value }
}

/** Files of an earlier release may hold what pages had found out on a day: it says nothing of the plan. */
const withoutItsDay = ({ leftFrom, badYearsFrom, ...kept }: Record<string, unknown>) => kept

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
