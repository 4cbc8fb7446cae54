// Reads the plan that a command is given, by its schema; every fault is a line with its path, also a key that no plan has.
import type { Plan } from '#plan/plan.ts'
import { readPlanText } from '#plan/upgrade.ts'
import { CommandError, type CommandIo } from './command.ts'
import { readFileOrInput } from './read-text.ts'

export const readPlanFile = async (file: string, io: CommandIo): Promise<Plan> => {
  const read = readPlanText(await readFileOrInput(file, io), { refuseUnknown: true })
  if (read.ok) return read.plan
  throw new CommandError(
    read.faults.map(({ path, message }) => `${path === '' ? 'plan' : path}: ${message}`),
    2,
  )
}
