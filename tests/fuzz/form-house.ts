// The sample's house with every form that its pages offer, and inputs for them as people, pastes and malice make them.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import type { Books } from '#db/open.ts'
import { openSampleBooks } from '#sample/open-sample.ts'
import { createApp } from '#src/server.ts'
import { accessOf } from '#web/server/access.ts'
import { copySample } from '../sample/built-sample.ts'
import { fieldText, statementBytes } from './statement-inputs.ts'

export interface Form {
  action: string
  method: 'get' | 'post'
  takesFiles: boolean
  fields: Field[]
}

interface Field {
  name: string
  isFile: boolean
  /** What it opens with, or what a choice offers. */
  values: readonly string[]
}

export type Sent = readonly (readonly [name: string, value: string | File])[]

const now = new Date('2026-11-25T12:00:00Z')
export const origin = 'http://localhost'

/** `copyOf`: begins with another house's books as they are now, instead of building them. */
export const formHouse = async (copyOf?: Pick<Books, 'sqlite'>) => {
  const folder = mkdtempSync(join(tmpdir(), 'dooryard-fuzz-'))
  if (copyOf) copyOf.sqlite.prepare('VACUUM INTO ?').run(join(folder, 'sample.sqlite'))
  else await copySample(folder)
  const books = await openSampleBooks(folder, now)
  /** Where the last page broke: what the person is shown does not say it. */
  let broken: unknown = null
  const error = (fields: unknown) => {
    broken = fields
  }
  const log = { info: () => {}, warn: () => {}, error }
  const clock = { now: () => now }
  const access = accessOf(books, clock, 16)
  const app = createApp({ books, clock, access, isSample: true, log })
  const patterns = app.routes
    .filter(({ method, path }) => (method === 'GET' || method === 'POST') && path !== '*' && path !== '/*')
    .map(({ path }) => ({ pattern: path, matches: matcherOf(path) }))
  const open = (path: string) => app.request(new URL(path, origin).href)
  return {
    books,
    open,
    /** Addresses of pages that need no id. */
    pages: app.routes
      .filter((route) => route.method === 'GET' && !/[:*]/.test(route.path))
      .map((route) => route.path),
    /** The pattern of the route that an address belongs to: pages and forms of one pattern are the same with other content. */
    patternOf: (path: string) => {
      const { pathname } = new URL(path, origin)
      return patterns.find(({ matches }) => matches.test(pathname))?.pattern ?? pathname
    },
    send: (form: Form, fields: Sent) => {
      if (form.method === 'get') {
        const address = new URL(form.action, origin)
        for (const [name, value] of fields) address.searchParams.append(name, String(value))
        return app.request(address.href)
      }
      const body = form.takesFiles ? new FormData() : new URLSearchParams()
      for (const [name, value] of fields) body.append(name, value as string)
      return app.request(new URL(form.action, origin).href, { method: 'POST', body, headers: { origin } })
    },
    /** Takes away a passphrase that a form has set: locked, the house would show its door to everything that follows. */
    unlock: async () => {
      const act = { formId: crypto.randomUUID(), at: now.toISOString(), actor: 'test' }
      if (access.isSet()) await access.save(act, null, 30)
    },
    whatBroke: () => JSON.stringify(broken),
    close: () => {
      books.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

/** `/farm/:list/:id{[a-z]+}` as an expression for addresses. */
const matcherOf = (pattern: string): RegExp =>
  new RegExp(`^${pattern.replace(/\/:\w+(?:\{(?:[^{}]|\{[^}]*\})*\})?/g, '/[^/]+')}$`)

export type FormHouse = Awaited<ReturnType<typeof formHouse>>

/** Every form of every page that can be reached by links, with the values it opens with. */
export const formsOf = async (house: FormHouse): Promise<Form[]> => {
  const waiting = ['/now', '/start', ...new Set(house.pages)]
  const seen = new Set<string>()
  const forms = new Map<string, Form>()
  while (waiting.length > 0 && seen.size < 120) {
    const path = waiting.shift()!
    const shape = path.replace(/\d+/g, '0').replace(/notice=[\w-]+/, '')
    if (seen.has(shape)) continue
    seen.add(shape)
    const reply = await house.open(path)
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
    takesFiles: tag!.includes('multipart/form-data'),
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
  const isFile = attributes.includes('type="file"')
  return name ? [{ name, isFile, values: values.map((value) => value.replaceAll('&amp;', '&')) }] : []
}

/** Which form, and what is done to its fields one after the other: kept, filled anew, left out, sent twice. */
const filling = fc.record({
  form: fc.nat(10_000),
  changes: fc.array(
    fc.record({ how: fc.constantFrom('keep', 'keep', 'put', 'put', 'leave', 'twice'), text: fieldText }),
    { minLength: 1, maxLength: 40 },
  ),
  formId: fc.uuid(),
  file: statementBytes,
})

/** A form of the list with something in it. */
export const filledForms = (forms: readonly Form[]): fc.Arbitrary<{ form: Form; fields: Sent }> =>
  filling.map(({ form: which, changes, formId, file }) => {
    const form = forms[which % forms.length]!
    const fields = form.fields.flatMap(({ name, isFile, values }, index): [string, string | File][] => {
      if (name === 'formId') return [[name, formId]]
      const { how, text } = changes[index % changes.length]!
      if (how === 'leave') return []
      if (isFile && form.takesFiles && how !== 'put') return [[name, new File([new Uint8Array(file)], text)]]
      const value = values[text.length % Math.max(1, values.length)] ?? ''
      if (how === 'put') return [[name, text]]
      return how === 'keep'
        ? [[name, value]]
        : [
            [name, value],
            [name, text],
          ]
    })
    return { form, fields }
  })
