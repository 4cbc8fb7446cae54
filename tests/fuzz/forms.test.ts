import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Books } from '#db/open.ts'
import { verifyBooks } from '#db/verify.ts'
import { openSampleBooks } from '#sample/open-sample.ts'
import { createApp } from '#src/server.ts'
import { expectQuick, expectSmall, fuzzRuns, fuzzSeed } from './limits.ts'
import { fieldText } from './statement-inputs.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-fuzz-'))
const now = new Date('2026-11-25T12:00:00Z')
const origin = 'http://localhost'
let books: Books
let app: ReturnType<typeof createApp>

beforeAll(async () => {
  books = await openSampleBooks(folder, now)
  app = createApp({ books, clock: { now: () => now }, isSample: true })
}, 120_000)
afterAll(() => {
  books.close()
  rmSync(folder, { recursive: true, force: true })
})

interface Form {
  action: string
  method: 'get' | 'post'
  fields: Field[]
}

interface Field {
  name: string
  /** What it opens with, or what a choice offers. */
  values: readonly string[]
}

/** Every form of every page that can be reached by links, with the values it opens with. */
const formsOfTheHouse = async (): Promise<Form[]> => {
  const waiting = [
    '/now',
    '/start',
    ...new Set(
      app.routes
        .filter((route) => route.method === 'GET' && !/[:*]/.test(route.path))
        .map((route) => route.path),
    ),
  ]
  const seen = new Set<string>()
  const forms = new Map<string, Form>()
  while (waiting.length > 0 && seen.size < 120) {
    const path = waiting.shift()!
    const shape = path.replace(/\d+/g, '0').replace(/notice=[\w-]+/, '')
    if (seen.has(shape)) continue
    seen.add(shape)
    const reply = await app.request(origin + path)
    if (!(reply.headers.get('content-type') ?? '').includes('text/html')) continue
    const html = await reply.text()
    for (const form of formsIn(html, path))
      forms.set(`${form.method} ${form.action.replace(/[\da-f-]{36}|\d+/g, '0')}`, form)
    for (const [, href] of html.matchAll(/<a [^>]*href="(\/[^"#]*)/g))
      waiting.push(href!.replaceAll('&amp;', '&'))
  }
  return [...forms.values()]
}

const formsIn = (html: string, path: string): Form[] =>
  [...html.matchAll(/<form([^>]*)>([\s\S]*?)<\/form>/g)].map(([, tag, inner]) => ({
    action: (/\baction="([^"]*)"/.exec(tag!)?.[1] ?? path).replaceAll('&amp;', '&'),
    method: /\bmethod="post"/i.test(tag!) ? 'post' : 'get',
    fields: [
      ...[...inner!.matchAll(/<(input|textarea|button)([^>]*)/g)].flatMap(([, , attributes]) =>
        fieldIn(attributes!, [/\bvalue="([^"]*)"/.exec(attributes!)?.[1] ?? '']),
      ),
      ...[...inner!.matchAll(/<select([^>]*)>([\s\S]*?)<\/select>/g)].flatMap(([, attributes, options]) =>
        fieldIn(
          attributes!,
          [...options!.matchAll(/<option value="([^"]*)"/g)].map(([, value]) => value!),
        ),
      ),
    ],
  }))

const fieldIn = (attributes: string, values: readonly string[]): Field[] => {
  const name = /\bname="([^"]*)"/.exec(attributes)?.[1]
  return name ? [{ name, values: values.map((value) => value.replaceAll('&amp;', '&')) }] : []
}

const send = (form: Form, fields: readonly (readonly [string, string])[]) => {
  const body = new URLSearchParams(fields.map(([name, value]): [string, string] => [name, value]))
  if (form.method === 'get') {
    const address = new URL(form.action, origin)
    for (const [name, value] of body) address.searchParams.append(name, value)
    return app.request(address.href)
  }
  return app.request(new URL(form.action, origin).href, { method: 'POST', body, headers: { origin } })
}

test('no form answers with a broken page, hangs or harms the books, whatever is put into its fields', {
  timeout: 3_600_000,
}, async () => {
  const forms = await formsOfTheHouse()
  expect(forms.length).toBeGreaterThan(12)
  const input = fc.record({
    form: fc.nat(10_000),
    /** Per field: keep what it opens with, put something else in, leave it out, send it twice. */
    changes: fc.array(
      fc.record({ how: fc.constantFrom('keep', 'keep', 'put', 'put', 'leave', 'twice'), text: fieldText }),
      { minLength: 1, maxLength: 40 },
    ),
    formId: fc.uuid(),
  })
  await fc.assert(
    fc.asyncProperty(input, async ({ form: which, changes, formId }) => {
      const form = forms[which % forms.length]!
      const fields = form.fields.flatMap(({ name, values }, index): [string, string][] => {
        if (name === 'formId') return [[name, formId]]
        const change = changes[index % changes.length]!
        if (change.how === 'leave') return []
        const value = values[change.text.length % Math.max(1, values.length)] ?? ''
        const text = change.how === 'put' ? change.text : value
        return change.how === 'twice'
          ? [
              [name, value],
              [name, change.text],
            ]
          : [[name, text]]
      })
      const before = process.cpuUsage()
      const reply = await send(form, fields)
      await reply.text()
      expect(reply.status, `${form.method} ${form.action} ${JSON.stringify(fields)}`).toBeLessThan(500)
      expectQuick(before, form.action)
    }),
    { seed: fuzzSeed, numRuns: fuzzRuns(0.1) },
  )
  expect(verifyBooks(books.sqlite).findings).toEqual([])
  expectSmall()
})

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
  for (const form of await formsOfTheHouse()) {
    for (const { name } of form.fields) {
      if (name === 'formId') continue
      const fields = form.fields.map((field): [string, string] => {
        if (field.name === 'formId') return ['formId', crypto.randomUUID()]
        return [field.name, field.name === name ? script : (field.values[0] ?? '')]
      })
      const reply = await send(form, fields)
      await look(reply, `${form.method} ${form.action} ${name}`)
      const next = reply.headers.get('location')
      if (next)
        await look(await app.request(new URL(next, origin).href), `${next} after ${form.action} ${name}`)
    }
  }
  for (const route of app.routes.filter((one) => one.method === 'GET' && !/[:*]/.test(one.path)))
    await look(await app.request(origin + route.path), route.path)
  // A test that never gets its text in would prove nothing.
  expect(met).toBeGreaterThan(50)
})
