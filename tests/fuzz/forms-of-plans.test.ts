import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { latestRevision, listPlans } from '#db/plan-store.ts'
import { readPlanText } from '#plan/upgrade.ts'
import { assertFuzz, fuzzRuns } from './batches.ts'
import { fillForms, isOfPlans } from './every-form.ts'
import { type Form, type FormHouse, formHouse, formsOf } from './form-house.ts'
import { begin, expectQuick, fuzzTimeout } from './limits.ts'
import { bentPlans } from './plan-inputs.ts'

let house: FormHouse
let forms: Form[]
beforeAll(async () => {
  house = await formHouse()
  forms = (await formsOf(house)).filter(isOfPlans)
}, 120_000)
afterAll(() => house.close())

test('every page shows a bent plan that could be read, and one that could not is not saved', {
  timeout: fuzzTimeout,
}, async () => {
  const [plan] = listPlans(house.books)
  const pages = house.pages.filter((page) => /^\/(now|runway|cover|farm|slower|calendar)/.test(page))
  expect(pages.length).toBeGreaterThan(10)
  const form: Form = { action: '/runway/revisions/mine', method: 'post', takesFiles: false, fields: [] }
  let saved = 0
  await assertFuzz(
    fc.asyncProperty(bentPlans, fc.uuid(), async (text, formId) => {
      const basedOn = latestRevision(house.books, plan!.id)!.revisionNo
      const reply = await house.send(form, [
        ['formId', formId],
        ['planId', plan!.id],
        ['basedOn', String(basedOn)],
        ['document', text],
      ])
      const isRead = readPlanText(text.replaceAll('\0', '')).ok
      expect(reply.status).toBe(isRead ? 303 : 404)
      if (!isRead) return
      saved += 1
      for (const page of pages) {
        const begun = begin()
        const shown = await house.open(page)
        const html = await shown.text()
        if (shown.status >= 500) throw new Error(`${page} answered ${shown.status}: ${house.whatBroke()}`)
        expect(/\b(NaN|Infinity|undefined)\b/.exec(html)?.[0], page).toBeUndefined()
        expectQuick(begun, page)
      }
    }),
    0.03,
  )
  expect(saved).toBeGreaterThan(fuzzRuns(0.03) / 6)
})

test('no form of plans and questions breaks a page or takes long, whatever is put into its fields', {
  timeout: fuzzTimeout,
}, async () => {
  expect(forms.length).toBeGreaterThan(25)
  await fillForms(house, forms)
})
