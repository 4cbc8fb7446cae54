// `dooryard solve QUESTION PLAN.json`: asks one question of a plan over many drawn courses and prints the answer with how sure it is.
import { parseArgs } from 'node:util'
import { CoursePool } from '#chance/pool.ts'
import { compileForChance } from '#chance/prepare.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { pricesIn } from '#runway/dollars/dollars.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import {
  askQuestion,
  type ChanceQuestion,
  isChanceQuestion,
  questionWords,
  sayMoves,
  type Told,
} from '#solve/questions.ts'
import { whyOf } from '#solve/why.ts'
import { solveIncomeRoom } from '#today/cover/income-room.ts'
import { figuresSaid } from '#today/figures-said.ts'
import { wholeOf, workersOf } from './chance-options.ts'
import { type Command, CommandError, type CommandIo, refuseWords } from './command.ts'
import { progressLine } from './progress-line.ts'
import { readPlanFile } from './read-plan.ts'
import { tellMix } from './solve-mix.ts'

const list = Object.entries(questionWords)
  .map(([name, { asks }]) => `  ${name.padEnd(13)} ${asks}`)
  .join('\n')

const help = `dooryard solve QUESTION PLAN.json [--confidence P] [--paths N] [--seed S] [--workers W] [--later-rate P] [--hours H]
                            [--json]

Answers a question about a plan from many simulations, or says why it cannot be reached. PLAN.json may be - for standard input.

${list}
  income-room   How much more can we earn in each year before coverage costs more than it brings? (nothing is simulated)
  mix           Which enterprises and trips keep our net at the hours of the slower phases? (nothing is simulated)

Every question but income-room and mix, which simulate nothing, takes
--confidence P   percent of simulations in which the answer must hold, 50 to 99 (the plan's own)
--paths N        simulations, 50 to 100000 (each question has its own number)
--seed S         whole number that fixes chance (1)
--workers W      processors to use, no more than there are (all of them); the answer does not depend on it

and besides
--later-rate P   account-order and losses: percent of tax on what is left untaxed at the end (12)
--hours H        slow-down: hours a week of each of us once slower (those of the plan's slower phases)
--aim net|hours  mix: the most net within the hours (usual), or the fewest hours that keep it
--json           all of them: the whole answer, points, intervals, what else was tried

Estimates, not advice.`

export const solveCommand: Command = {
  name: 'solve',
  summary: 'Answers a question about a plan from many simulations.',
  help,
  async run(args, io) {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        confidence: { type: 'string' },
        paths: { type: 'string' },
        seed: { type: 'string' },
        workers: { type: 'string' },
        'later-rate': { type: 'string' },
        hours: { type: 'string' },
        aim: { type: 'string' },
        json: { type: 'boolean' },
      },
    })
    const [name, file, extra] = positionals
    if (name === undefined || file === undefined || extra !== undefined)
      throw new CommandError('Name one question and one plan file, like: solve start-with plan.json', 2)
    if (name === 'income-room' || name === 'mix')
      refuseWords(`${name} simulates nothing`, values, [...chanceWords, 'later-rate', 'hours'])
    if (name === 'mix') return tellMix(await readPlanFile(file, io), values.aim, values.json ?? false, io)
    refuseWords('only mix has an aim', values, ['aim'])
    if (name === 'income-room') return tellIncomeRoom(await readPlanFile(file, io), values.json ?? false, io)
    if (!isChanceQuestion(name))
      throw new CommandError(
        `There is no question ${name}. Ask one of: ${Object.keys(questionWords).join(', ')}, income-room, mix`,
        2,
      )
    const { alsoAsks } = questionWords[name]
    if (alsoAsks !== 'laterRate') refuseWords(`${name} asks for no later rate`, values, ['later-rate'])
    if (alsoAsks !== 'weeklyHours') refuseWords(`${name} asks for no hours`, values, ['hours'])
    const plan = await readPlanFile(file, io)
    const choices = {
      confidence:
        values.confidence === undefined
          ? plan.chance.confidence
          : wholeOf(values.confidence, '--confidence', 50, 99) / 100,
      paths: wholeOf(values.paths ?? String(questionWords[name].paths), '--paths', 50, 100_000),
      seed: wholeOf(values.seed ?? '1', '--seed', 0, Number.MAX_SAFE_INTEGER),
      laterRate:
        values['later-rate'] === undefined
          ? undefined
          : wholeOf(values['later-rate'], '--later-rate', 0, 60) / 100,
      weeklyHours: values.hours === undefined ? undefined : wholeOf(values.hours, '--hours', 0, 100),
      workers: workersOf(values.workers),
    }
    const told = await ask(name, plan, choices, io)
    const { answer, moves } = told
    io.out(values.json ? JSON.stringify(figuresSaid({ ...answer, moves }), null, 2) : inWords(told, plan))
    return answer.answer.kind === 'cannot be reached' ? 1 : 0
  },
}

/** What, why, what would change it, and what to bear in mind. */
const inWords = ({ answer, moves }: Told, plan: Plan): string =>
  [
    answer.sentence,
    ...answer.more,
    whyOf(answer, firstMonthOf(plan)),
    sayMoves(moves),
    questionWords[answer.question].caution,
  ]
    .filter((each) => each !== '')
    .join('\n')

const chanceWords = ['confidence', 'paths', 'seed', 'workers'] as const

function tellIncomeRoom(plan: Plan, json: boolean, io: CommandIo): number {
  const found = solveIncomeRoom(plan, publishedRules(plan), project(plan))
  io.out(json ? JSON.stringify(figuresSaid(found), null, 2) : found.sentence)
  return found.answer.kind === 'reached' ? 0 : 1
}

interface AskChoices {
  confidence: number
  paths: number
  seed: number
  workers: number
  laterRate: number | undefined
  weeklyHours: number | undefined
}

async function ask(question: ChanceQuestion, plan: Plan, choices: AskChoices, io: CommandIo) {
  const line = progressLine(io, `Simulating “${questionWords[question].title}”:`)
  const rules = publishedRules(plan)
  const courses = new CoursePool(choices.workers)
  try {
    const { workers: _, ...chosen } = choices
    const dollars = { of: 'today', month: plan.startMonth } as const
    return await askQuestion(question, {
      plan,
      compile: (variant) => compileForChance(variant, rules),
      courses,
      project: (variant) => project(variant, rules),
      dollars,
      prices: pricesIn(project(plan, rules), dollars),
      onProgress: line.onProgress,
      ...chosen,
    })
  } finally {
    line.end()
    await courses.close()
  }
}
