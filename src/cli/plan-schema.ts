// `dooryard plan-schema`: the JSON Schema of the plan document, made from the schema that forms and checks use.

import { parseArgs } from 'node:util'
import { planSchemaTold } from '#plan/form/schema-told.ts'
import type { Command } from './command.ts'

export const planSchemaCommand: Command = {
  name: 'plan-schema',
  summary: 'Prints the JSON Schema of a plan.',
  help: `dooryard plan-schema

Prints the JSON Schema (draft 2020-12) of the plan document that \`dooryard project\` reads.
Every field but startMonth has a default.`,
  run: async (args, io) => {
    parseArgs({ args: [...args], options: {} })
    io.out(JSON.stringify(planSchemaTold(), null, 2))
    return 0
  },
}
