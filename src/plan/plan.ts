// The plan document: one schema that validation, forms, the command line's JSON and the documentation all read.

import { z } from 'zod'
import { farmSchema } from '#farm/farm-document.ts'
import { firstLawYear } from '#rules/law.ts'
import { assumptionsSchema, stormSchema } from './assumption-plan.ts'
import { chanceSchema } from './chance-plan.ts'
import { crossChecks } from './cross-checks.ts'
import { drawSchema } from './draw-plan.ts'
import { monthField, nameField, wholeNumber } from './fields.ts'
import { healthSchema, taxSchema } from './health-plan.ts'
import { householdSchema } from './household-plan.ts'
import { savingsSchema } from './savings-plan.ts'

/** Version of the document's shape. `upgrade.ts` brings older ones up to it. */
export const planVersion = 2

/** Years a plan can begin in: the law has figures from the first on, and is carried on no further than anyone plans. */
const lastStartYear = 2150
const startError = `Enter a month from ${firstLawYear}-01 to ${lastStartYear}-12`
const hasLaw = (text: string): boolean => {
  const year = Number.parseInt(text.trim().slice(0, 4), 10)
  return year >= firstLawYear && year <= lastStartYear
}

const planShape = z.object({
  planVersion: z.literal(planVersion).default(planVersion),
  name: nameField().default('Our plan').meta({ title: 'Name of the plan' }),
  startMonth: monthField().refine(hasLaw, { error: startError }).meta({
    title: 'First month',
    description: 'Balances are those at the start of this month, and all amounts are in its prices',
  }),
  /** Only for a plan without people: with people it runs until the last reaches `planToAge`. */
  years: wholeNumber(1, 80).default(40).meta({ title: 'Years, when no people are named', unit: 'years' }),
  household: householdSchema.prefault({}),
  health: healthSchema.prefault({}),
  savings: savingsSchema.prefault({}),
  farm: farmSchema.prefault({}),
  draw: drawSchema.default({ policy: 'steps', steps: [], growth: 0, withPrices: false }),
  tax: taxSchema.prefault({}),
  assumptions: assumptionsSchema.prefault({}),
  storms: z.array(stormSchema).max(20).default([]),
  chance: chanceSchema.prefault({}),
})

/** The whole document, with the checks that reach across its parts. */
export const planSchema = planShape.superRefine((plan, context) => {
  for (const found of crossChecks(plan)) context.addIssue({ code: 'custom', ...found })
})

export type Plan = z.infer<typeof planShape>
export type PlanInput = z.input<typeof planShape>
