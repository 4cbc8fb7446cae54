// The plan's JSON Schema, made from zod: what may be left out is optional, and titles and units come along.
import { z } from 'zod'
import { planSchema } from './plan.ts'

export const planJsonSchema = (): Record<string, unknown> => ({
  ...z.toJSONSchema(planSchema, { io: 'input' }),
  title: 'Dooryard plan',
})
