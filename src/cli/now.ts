// `dooryard now`: says in the terminal what Now says.
import { parseArgs } from 'node:util'
import { type Month, monthName } from '#calendar/month.ts'
import { countedFrom } from '#calendar/spell.ts'
import { dataPlace } from '#db/data-place.ts'
import { openBooks } from '#db/open.ts'
import { formatCents, formatDollars } from '#money/format.ts'
import { figuresSaid } from '#today/figures-said.ts'
import type { NowFigures } from '#today/now/figures.ts'
import { nowFigures } from '#today/now/now-figures.ts'
import { localDay } from '#web/server/clock.ts'
import { type Command, CommandError, type CommandIo } from './command.ts'

export const nowCommand: Command = {
  name: 'now',
  summary: 'Says what Now says: months left, as planned and in the worst bad year.',
  help: `
npm run dooryard -- now [OPTIONS]

Reads the books and the plan in use and prints savings, months left, the carry month and what is due. Nothing is booked;
a file of an older Dooryard is updated as the server would update it, with a copy of it put aside before.

  --json         prints the figures of the page as JSON
  --data PLACE   the folder, or the file, that holds the books

Estimates, not advice: tax and insurance rules differ by place and change. Check with a licensed preparer or the agency.
`,
  run: async (args, io) => say(args, io),
}

function say(args: readonly string[], io: CommandIo): number {
  const { values } = parseArgs({
    args: [...args],
    options: { json: { type: 'boolean', default: false }, data: { type: 'string' } },
  })
  const opened = openBooks(dataPlace({ data: values.data, env: io.env }).file, {
    now: io.now(),
    mustExist: true,
  })
  if (!opened.ok) throw new CommandError(opened.problem.message)
  try {
    const figures = nowFigures(opened.books, localDay(io.now()))
    if (values.json) io.out(JSON.stringify(figuresSaid(figures), null, 2))
    else for (const line of linesOf(figures)) io.out(line)
    return 0
  } finally {
    opened.books.close()
  }
}

const linesOf = (figures: NowFigures): string[] => [
  `Spendable savings ${formatCents(figures.spendable.cents)}`,
  ...figures.reachSays,
  ...planLines(figures),
  ...reviewLines(figures.review),
  ...figures.ahead.map((step) => `Ahead: ${step.says}`),
  ...figures.due.map((item) => `Due: ${item.says}`),
]

const reviewLines = (review: NowFigures['review']): string[] => {
  if (review === null) return []
  if (review.status === 'none') return [review.says]
  const { before, now } = review.monthsLeft
  const words = (left: number | null) => (left === null ? 'to the end of the plan' : String(left))
  const told = review.parts.filter(({ savings, months }) => Math.abs(savings) >= 0.5 || months !== 0)
  return [
    `Since ${monthName(review.month)} began: months left were ${words(before)}, and are ${words(now)}.`,
    ...(review.standsIn === null ? [] : [review.standsIn]),
    ...told.map(
      ({ name, savings, months, monthsLeft }) =>
        `  ${name}: savings ${formatDollars(savings)}, months ${months === null ? words(monthsLeft) : String(months).replace('-', '−')}`,
    ),
  ]
}

function planLines({ plan, month }: Pick<NowFigures, 'plan' | 'month'>): string[] {
  switch (plan.status) {
    case 'none':
      return ['There is no plan yet: enter one in the browser to see months left.']
    case 'begun':
      return ['Enter account balances and monthly costs in the browser to see months left.']
    case 'unreadable':
      return [`The plan cannot be read: ${plan.says}`]
    case 'read':
      return [
        `Months left, as planned: ${leftWords(plan.monthsLeft, plan.floorMonth, `, ${countedFrom(month)}`)}`,
        ...(plan.worst
          ? [
              `Months left, in a bad year (${plan.worst.name}): ${leftWords(plan.worst.monthsLeft, plan.worst.floorMonth)}`,
            ]
          : []),
        plan.runsShort === null
          ? `Smallest margin above the floor, in today’s dollars: ${formatDollars(plan.marginDollars)}${plan.marginMonth === null ? '' : ` in ${monthName(plan.marginMonth)}`}`
          : `Out of money in ${monthName(plan.runsShort)}`,
        ...(plan.drawsFit ? [plan.drawsFit.says] : []),
        ...(plan.calledOn ? [`As planned counts on more than the planned draws. ${plan.calledOn.says}`] : []),
        ...(plan.onProgram ? [plan.onProgram.says] : []),
        ...(plan.workedToEnd ? [plan.workedToEnd.says] : []),
        plan.carryMonth === null
          ? 'The farm’s draws never cover all household costs for good.'
          : `The farm covers all household costs from ${monthName(plan.carryMonth)}.`,
      ]
  }
}

const leftWords = (months: number | null, floorMonth: Month | null, counted = ''): string =>
  months === null
    ? 'to the end of the plan'
    : `${months}${counted}${floorMonth === null ? '' : `, below the floor from ${monthName(floorMonth)}`}`
