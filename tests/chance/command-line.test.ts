// `project --paths` and `solve` as they are typed, the plan on standard input.
import { describe, expect, test, vi } from 'vitest'
import type { PlanInput } from '#plan/plan.ts'
import { CommandError, type CommandIo } from '#src/cli/command.ts'
import { projectCommand } from '#src/cli/project.ts'
import { solveCommand } from '#src/cli/solve.ts'
import { farmPlan, savingsPlan } from './plans.ts'

// Workers start slowly on a busy machine.
vi.setConfig({ testTimeout: 120_000 })

async function typed(
  command: typeof solveCommand,
  args: string[],
  plan: unknown,
  rest: Partial<CommandIo> = {},
) {
  const lines: string[] = []
  const io: CommandIo = {
    out: (text) => lines.push(text),
    err: (text) => lines.push(text),
    readInput: async () => JSON.stringify(plan),
    env: {},
    now: () => new Date('2026-11-20T12:00:00Z'),
    ...rest,
  }
  const code = await command.run(args, io)
  return { code, text: lines.join('\n') }
}

const savings = savingsPlan({ savings: 300_000, perMonth: 3_600, years: 8 }) as unknown as PlanInput

describe('project with drawn courses', () => {
  test('prints the same for one worker and for two', async () => {
    const args = ['-', '--paths', '80', '--seed', '4', '--json']
    const one = await typed(projectCommand, [...args, '--workers', '1'], savings)
    const two = await typed(projectCommand, [...args, '--workers', '2'], savings)
    expect(one.text).toBe(two.text)
    const told = JSON.parse(one.text) as { held: { of: number }; bands: { month: string }[] }
    expect(told.held.of).toBe(80)
    expect(told.bands[0]!.month).toBe('2026-01')
    expect(told.bands).toHaveLength(96)
  })

  test('says in words how many hold and what the worst share', async () => {
    const { code, text } = await typed(projectCommand, ['-', '--paths', '100', '--workers', '1'], savings)
    expect(code).toBe(0)
    expect(text).toMatch(/The household never goes short in [\d.]+% of them \(standard error [\d.]+%\)/)
    expect(text).toContain('In the worst tenth stocks grew above prices')
  })

  test.for([
    [['-', '--paths', '0'], '--paths takes a whole number from 1 to 100000'],
    [['-', '--paths', '1e3'], '--paths takes a whole number'],
    [['-', '--paths', '10', '--seed', '-1'], '--seed'],
    [['-', '--paths', '10', '--bad-year', 'frost'], 'two different runs'],
  ] as const)('refuses %j in words', async ([args, says]) => {
    await expect(typed(projectCommand, [...args], savings)).rejects.toThrow(says)
  })
})

/** What is printed where nobody watches: asked once, read by two tests. */
let asked: ReturnType<typeof typed> | undefined
const unwatched = () => {
  asked ??= typed(solveCommand, ['start-with', '-', '--paths', '50', '--workers', '1'], savings)
  return asked
}

describe('solve', () => {
  test('tells a person at a terminal how far it is on one line, and nobody else', async () => {
    const told: string[] = []
    let seconds = 0
    const watched = {
      overwrite: (line: string) => void told.push(line),
      // A clock that goes on by two seconds a look.
      now: () => {
        seconds += 2
        return new Date(Date.UTC(2026, 10, 20, 12, 0, seconds))
      },
    }
    const args = ['start-with', '-', '--paths', '50', '--workers', '1']
    const { text } = await typed(solveCommand, args, savings, watched)
    expect(told.length).toBeGreaterThan(2)
    expect(told.every((line, k) => line !== told[k - 1])).toBe(true)
    const done = told
      .slice(0, -1)
      .map((line) => Number(/^Simulating “Savings needed today”: (\d+)% done\./.exec(line)![1]))
    expect([...done].sort((a, b) => a - b)).toEqual(done)
    expect(told.some((line) => /About \d+ (seconds|minutes) left\.$/.test(line))).toBe(true)
    expect(told.at(-1)).toBe('')
    // Nothing of it is in what is printed, and the same is printed where nobody watches.
    expect((await unwatched()).text).toBe(text)
  })

  test('prints the answer as a sentence', async () => {
    const { code, text } = await unwatched()
    expect(code).toBe(0)
    expect(text).toMatch(
      /^With \$[\d,]+ of cash and taxable savings today nothing goes unpaid in 90% of simulations/,
    )
  })

  test('ends with 1 and the reason when it cannot be reached', async () => {
    const { code, text } = await typed(
      solveCommand,
      ['cushion', '-', '--paths', '60', '--workers', '1'],
      savings,
    )
    expect(code).toBe(1)
    expect(text).toMatch(/^This cannot be reached, because the plan has no slower year ahead/)
  })

  test('tells income room without drawing anything', async () => {
    const { code, text } = await typed(solveCommand, ['income-room', '-', '--json'], farmPlan())
    expect(code).toBe(0)
    expect((JSON.parse(text) as { years: unknown[] }).years.length).toBeGreaterThan(15)
  })

  test('names the questions when asked another', async () => {
    const asked = typed(solveCommand, ['weather', '-'], savings)
    await expect(asked).rejects.toBeInstanceOf(CommandError)
    await expect(asked).rejects.toThrow('Ask one of: draw, plow-back')
  })
})
