// Puts anything into forms, thousands of times in one house: no page may break or take long, and the books must hold at the end.
import { setImmediate as turnOfTheLoop } from 'node:timers/promises'
import { range } from 'd3-array'
import fc from 'fast-check'
import { expect } from 'vitest'
import { verifyBooks } from '#db/verify/verify.ts'
import { type FuzzBatch, fuzzBatches, partOf } from './batches.ts'
import { type Form, type FormHouse, filledForms, formHouse } from './form-house.ts'
import { begin, expectQuick, expectSmall } from './limits.ts'

/**
 * Begins in `first`, and goes on in a new house for every batch and after every five thousand inputs: no couple has the
 * hundreds of sides and accounts that a hundred thousand forms would leave in one. All are copies of the sample: `forms` are found
 * once. Books and plans share the inputs of the test command.
 */
export const fillForms = async (first: FormHouse, forms: readonly Form[]): Promise<void> => {
  const { rss } = process.memoryUsage()
  for (const batch of fuzzBatches(partOf(1, 0.5)).flatMap(houseful)) {
    const house = batch.isFirst ? first : await formHouse()
    await fillHouse(house, forms, batch)
    if (!batch.isFirst) house.close()
  }
  expectSmall(rss)
}

const inputsPerHouse = 5000

const houseful = ({ seed, numRuns }: FuzzBatch, index: number) =>
  range(0, numRuns, inputsPerHouse).map((sent) => ({
    seed: seed + sent,
    numRuns: Math.min(inputsPerHouse, numRuns - sent),
    isFirst: index + sent === 0,
  }))

const fillHouse = async (
  house: FormHouse,
  forms: readonly Form[],
  { seed, numRuns }: FuzzBatch,
): Promise<void> => {
  const met = new Map<number, number>()
  let inputs = 0
  await fc.assert(
    fc.asyncProperty(filledForms(forms), async ({ form, fields }) => {
      const begun = begin()
      const reply = await house.send(form, fields)
      const text = await reply.text()
      const what = `${form.method} ${form.action}`
      if (reply.status >= 500) throw new Error(`${what} answered ${reply.status}: ${house.whatBroke()}`)
      // Nobody types these: a page that shows them shows what it does not have.
      expect(/\bundefined\b|\[object Object\]|function Object/.exec(text)?.[0], what).toBeUndefined()
      expectQuick(begun, what)
      expect(reply.headers.get('location') ?? '', what).not.toMatch(/^\/unlock/)
      if (form.action.startsWith('/settings/passphrase')) await house.unlock()
      // A server hears from its workers between requests; promises alone would never let it.
      inputs += 1
      if (inputs % 100 === 0) await turnOfTheLoop()
      met.set(reply.status, (met.get(reply.status) ?? 0) + 1)
    }),
    { seed, numRuns },
  )
  expect(verifyBooks(house.books.sqlite).findings).toEqual([])
  // A fuzz that is only ever refused, or never, would prove little.
  for (const status of [303, 422]) expect(met.get(status) ?? 0).toBeGreaterThan(numRuns / 20)
}

/** Forms by which plans are made and asked; the other half of the house is the books. */
export const isOfPlans = ({ action }: Form): boolean =>
  /^\/(runway|farm|cover|slower-years|start|now)\b/.test(action)
