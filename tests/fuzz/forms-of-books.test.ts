import { afterAll, beforeAll, expect, test } from 'vitest'
import { fillForms, isOfPlans } from './every-form.ts'
import { type Form, type FormHouse, formHouse, formsOf } from './form-house.ts'
import { fuzzTimeout } from './limits.ts'

let house: FormHouse
let all: Form[]
let forms: Form[]
beforeAll(async () => {
  house = await formHouse()
  all = await formsOf(house)
  forms = all.filter((form) => !isOfPlans(form))
}, 120_000)
afterAll(() => house.close())

test('script in any field of any form is shown as text, there and on every page after', {
  timeout: 600_000,
}, async () => {
  const script = '"><script>alert(1)</script>'
  const shownAsMarkup = (html: string) => html.includes('<script>alert(1)')
  const shownAsText = (html: string) => html.includes('&lt;script&gt;alert(1)')
  let met = 0
  const look = async (reply: Response, where: string) => {
    const html = (reply.headers.get('content-type') ?? '').includes('text/html') ? await reply.text() : ''
    expect(shownAsMarkup(html), where).toBe(false)
    if (shownAsText(html)) met += 1
  }
  for (const form of all) {
    for (const { name } of form.fields) {
      if (name === 'formId') continue
      const fields = form.fields.map((field): [string, string] => {
        if (field.name === 'formId') return ['formId', crypto.randomUUID()]
        return [field.name, field.name === name ? script : (field.values[0] ?? '')]
      })
      const reply = await house.send(form, fields)
      await look(reply, `${form.method} ${form.action} ${name}`)
      const next = reply.headers.get('location')
      if (next) await look(await house.open(next), `${next} after ${form.action} ${name}`)
    }
  }
  for (const page of house.pages) await look(await house.open(page), page)
  // A test that never gets its text in would prove nothing.
  expect(met).toBeGreaterThan(50)
})

test('no form of the books breaks a page, takes long or harms the books, whatever is put into its fields', {
  timeout: fuzzTimeout,
}, async () => {
  expect(forms.length).toBeGreaterThan(25)
  expect(forms.some((form) => form.takesFiles)).toBe(true)
  // Copying and proving the whole file takes a hundred times as long as other forms: these come less often.
  const quick = forms.filter(({ action }) => !action.startsWith('/settings/backups'))
  await fillForms(house, [...forms, ...quick, ...quick, ...quick])
})

test('a form that arrives without its fields says what to fill in, not what the program expected', async () => {
  const form = forms.find(({ action }) => action === '/settings/passphrase')!
  const reply = await house.send(form, [['formId', crypto.randomUUID()]])
  expect(reply.status).toBe(422)
  const html = await reply.text()
  expect(html).toContain('Fill this in')
  expect(html).not.toMatch(/Invalid input|undefined/)
})
