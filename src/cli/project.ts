// `dooryard project PLAN.json`: runs a plan and prints its milestones and years, or everything as JSON.
import { parseArgs } from 'node:util'
import { nameOfMonth } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import { type Projection, project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { projectStorm } from '#runway/storms/storm.ts'
import { stormsOf } from '#runway/storms/usual-storms.ts'
import { whySentences } from '#runway/why.ts'
import { figuresSaid } from '#today/figures-said.ts'
import {
  type ChanceChoices,
  chanceOptionsHelp,
  chanceOptionTypes,
  chanceReport,
  readChanceWords,
} from './chance-options.ts'
import { type Command, CommandError } from './command.ts'
import { readPlanFile } from './read-plan.ts'

export const projectCommand: Command = {
  name: 'project',
  summary: 'Runs a plan month by month and prints months left, the carry month and the years.',
  help: `dooryard project PLAN.json [--bad-year NAME] [--json]
dooryard project PLAN.json --paths N [--seed S] [--workers W] [--json]

Reads a plan (see \`dooryard plan-schema\`), runs its projection and prints the milestones and each year.
PLAN.json may be - to read the plan from the input.

  --bad-year NAME   run the plan through this bad year instead; without a NAME that fits, the names are listed
  --json            print months, years and milestones as JSON
${chanceOptionsHelp}

Estimates, not advice: tax and insurance rules differ by place and change. Check with a licensed preparer or the agency.`,
  run: async (args, io) => {
    const { file, storm, json, chance } = readArguments(args)
    const plan = await readPlanFile(file, io)
    if (chance !== null) {
      io.out(await chanceReport(plan, chance, json))
      return 0
    }
    const projection = runPlan(plan, storm)
    const { months, years, milestones } = projection
    io.out(
      json ? JSON.stringify(figuresSaid({ months, years, milestones }), null, 1) : describe(plan, projection),
    )
    return 0
  },
}

interface Arguments {
  file: string
  storm: string | null
  json: boolean
  chance: ChanceChoices | null
}

const readArguments = (args: readonly string[]): Arguments => {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: {
      'bad-year': { type: 'string' },
      json: { type: 'boolean', default: false },
      ...chanceOptionTypes,
    },
    allowPositionals: true,
  })
  const [file] = positionals
  if (file === undefined || positionals.length > 1)
    throw new CommandError('Name one plan file: dooryard project PLAN.json', 2)
  const chance = readChanceWords(values)
  if (chance !== null && values['bad-year'] !== undefined)
    throw new CommandError(
      'Simulations and a bad year are two different runs: leave out --bad-year or --paths',
      2,
    )
  return { file, storm: values['bad-year'] ?? null, json: values.json, chance }
}

const runPlan = (plan: Plan, name: string | null): Projection => {
  if (name === null) return project(plan)
  const storms = stormsOf(plan)
  const storm = storms.find((one) => one.id === name || one.name === name)
  if (!storm)
    throw new CommandError(
      `No bad year is called “${name}”. There are: ${storms.map((one) => one.id).join(', ')}`,
      2,
    )
  return projectStorm(plan, publishedRules(plan), storm)
}

const describe = (plan: Plan, projection: Projection): string => {
  const rows = projection.years.map((year) => {
    const months = projection.months.filter((one) => one.month.startsWith(`${year.year}-`))
    const sum = (pick: 'draw' | 'householdCosts' | 'farmSales') =>
      months.reduce((total, one) => total + one[pick], 0)
    const last = months.at(-1)!
    return [
      String(year.year),
      ...[sum('farmSales'), sum('draw'), sum('householdCosts'), year.tax, last.spendable, last.floor].map(
        formatDollars,
      ),
    ]
  })
  const head = ['year', 'farm sales', 'draws', 'household', 'tax of year', 'spendable', 'floor']
  const from = `Counted from ${nameOfMonth(projection.months[0]!.month)}, ${plan.continuesFrom === undefined ? 'the plan’s first month, with the plan’s own savings' : 'from which it is continued'}. What the books say is in: npm run dooryard -- now`
  return [plan.name, '', from, '', ...whySentences(plan, projection), '', ...columns([head, ...rows])].join(
    '\n',
  )
}

const columns = (rows: string[][]): string[] => {
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)))
  return rows.map((row) => row.map((cell, column) => cell.padStart(widths[column]!)).join('  '))
}
