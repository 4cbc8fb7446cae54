// Puts anything into forms, thousands of times in one house: no page may break or take long, and the books must hold at the end.
import fc from 'fast-check'
import { expect } from 'vitest'
import { verifyBooks } from '#db/verify.ts'
import { type Form, type FormHouse, filledForms } from './form-house.ts'
import { expectQuick, expectSmall, fuzzRuns, fuzzSeed } from './limits.ts'

export const fillForms = async (house: FormHouse, forms: readonly Form[], share: number): Promise<void> => {
  const met = new Map<number, number>()
  const { rss } = process.memoryUsage()
  await fc.assert(
    fc.asyncProperty(filledForms(forms), async ({ form, fields }) => {
      const before = process.cpuUsage()
      const reply = await house.send(form, fields)
      const text = await reply.text()
      const what = `${form.method} ${form.action}`
      if (reply.status >= 500) throw new Error(`${what} answered ${reply.status}: ${house.whatBroke()}`)
      // Nobody types these: a page that shows them shows what it does not have.
      expect(/\bundefined\b|\[object Object\]|function Object/.exec(text)?.[0], what).toBeUndefined()
      expectQuick(before, what)
      expect(reply.headers.get('location') ?? '', what).not.toMatch(/^\/unlock/)
      if (form.action.startsWith('/settings/passphrase')) await house.unlock()
      met.set(reply.status, (met.get(reply.status) ?? 0) + 1)
    }),
    { seed: fuzzSeed, numRuns: fuzzRuns(share) },
  )
  expect(verifyBooks(house.books.sqlite).findings).toEqual([])
  // A fuzz that is only ever refused, or never, would prove little.
  for (const status of [303, 422]) expect(met.get(status) ?? 0).toBeGreaterThan(fuzzRuns(share) / 20)
  expectSmall(rss)
}

/** Forms by which plans are made and asked; the other half of the house is the books. */
export const isOfPlans = ({ action }: Form): boolean =>
  /^\/(runway|farm|cover|slower-years|start|now)\b/.test(action)
