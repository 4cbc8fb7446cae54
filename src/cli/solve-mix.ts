// `dooryard solve mix PLAN.json`: the mix of each slower phase in the terminal, beside what the plan has there.
import { nameOfMonth } from '#calendar/month.ts'
import type { MixFound } from '#farm/mix/mix.ts'
import { formatDollars } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import { figuresSaid } from '#today/figures-said.ts'
import type { SlowerAnswers } from '#today/slower-years/figures.ts'
import { workOutMixes } from '#today/slower-years/slower-years-work.ts'
import { CommandError, type CommandIo } from './command.ts'

type PhaseMix = SlowerAnswers['mixes'][number]

/** 0 where every mix is found, else 1. */
export async function tellMix(
  plan: Plan,
  aim: string | undefined,
  json: boolean,
  io: CommandIo,
): Promise<number> {
  if (aim !== undefined && aim !== 'net' && aim !== 'hours')
    throw new CommandError(
      '--aim is net (the most net within the hours) or hours (the fewest that keep it)',
      2,
    )
  const asked = {
    aim: aim === 'hours' ? 'fewest hours' : 'most net',
    pinned: [],
    largestChange: null,
  } as const
  const dollars = { of: 'today', month: plan.startMonth } as const
  const mixes = await workOutMixes(plan, { ...asked, pinned: [] }, dollars)
  io.out(
    json
      ? JSON.stringify(figuresSaid({ question: 'mix', ...asked, mixes }), null, 2)
      : mixes.map(inWords).join('\n\n'),
  )
  return mixes.every(({ answer }) => answer.kind === 'found') ? 0 : 1
}

const whole = (hours: number) => Math.round(hours).toLocaleString('en-US')

function inWords(mix: PhaseMix): string {
  const { answer } = mix
  const title = `${nameOfMonth(mix.from)}, ${mix.phase}:`
  if (answer.kind !== 'found') return `${title} ${answer.because}.`
  return [
    `${title} ${formatDollars(answer.net)} a year in ${whole(answer.hours)} hours.`,
    beside(mix.there, answer),
    ...answer.lines.map(
      ({ name, unit, today, scale }) => `  ${name}: ${tenth(scale)} ${unit} (before: ${tenth(today)})`,
    ),
    ...answer.markets.map(
      ({ name, today, trips }) => `  ${name}: ${whole(trips)} trips a year (before: ${whole(today)})`,
    ),
  ].join('\n')
}

const tenth = (value: number) => (Math.round(value * 10) / 10).toLocaleString('en-US')

/** A mix below what the plan has says so first. */
function beside(there: PhaseMix['there'], { net, hours, withoutHours }: MixFound): string {
  const silent = withoutHours.length > 0 ? `, hours of ${withoutHours.join(', ')} not given` : ''
  const planned = `as it stands, the plan makes ${formatDollars(there.net)} in ${whole(there.hours)} hours then${silent}`
  if (net < there.net - 1) return `That is ${formatDollars(there.net - net)} less than planned: ${planned}.`
  if (net - there.net < 1 && Math.abs(hours - there.hours) < 1)
    return `The plan has this mix already: ${planned}.`
  return `That is ${formatDollars(net - there.net)} more: ${planned}.`
}
