// Forms as a browser sees them: what each would send as it stands, and every choice that it offers.
import { unescaped as plain } from '../web/browser-form.ts'
import type { FormHouse } from './form-house.ts'

export interface OpenForm {
  /** Where it was found. */
  page: string
  action: string
  method: 'get' | 'post'
  takesFiles: boolean
  controls: Control[]
}

interface Control {
  name: string
  kind: 'text' | 'area' | 'hidden' | 'radio' | 'checkbox' | 'select' | 'button'
  /** What it holds when the page opens; null when it sends nothing as it stands. */
  value: string | null
  options: readonly string[]
  attributes: string
}

/** No name: the form as it stands. */
export interface Choice {
  form: OpenForm
  name: string | null
  value: string | null
}

/**
 * Every form of every page that links lead to: some of each page that comes with other content, more of the settings, where each account
 * has a form of its own kind; each make of form once.
 */
export const openForms = async (house: FormHouse, under = '/', most = mostOfPattern): Promise<OpenForm[]> => {
  const waiting = [...new Set(house.pages)]
  const seen = new Set<string>()
  const ofPattern = new Map<string, number>()
  const forms = new Map<string, OpenForm>()
  while (waiting.length > 0) {
    const page = waiting.shift()!
    const pattern = house.patternOf(page)
    const count = ofPattern.get(pattern) ?? 0
    if (!page.startsWith(under) || seen.has(page) || /\.(ics|csv|json)\b/.test(page)) continue
    if (count >= (page.startsWith('/settings') ? 10 * most : most)) continue
    seen.add(page)
    ofPattern.set(pattern, count + 1)
    const reply = await house.open(page)
    if (!(reply.headers.get('content-type') ?? '').includes('text/html')) continue
    const html = await reply.text()
    for (const form of formsIn(html, page)) {
      const key = makeOf(form, house)
      if (!forms.has(key)) forms.set(key, form)
    }
    for (const [, href] of html.matchAll(/<a [^>]*href="(\/[^"#]*)/g)) waiting.push(plain(href!))
  }
  return [...forms.values()]
}

const mostOfPattern = 12

/** Two forms are of one make when they go to one route and offer the same choices under the same names. */
const makeOf = ({ method, action, controls }: OpenForm, house: FormHouse): string =>
  JSON.stringify([
    method,
    house.patternOf(action),
    [
      ...new Set(controls.map(({ name, options }) => [numberless(name), [...options].sort()].join(' '))),
    ].sort(),
  ])

const numberless = (name: string): string => name.replace(/\d+/g, '0')

/** Each option of each list, each way of each tick, each button: once for rows that are alike. A form that offers none is sent as it stands. */
export const choicesOf = (form: OpenForm): Choice[] => {
  const met = new Set<string>()
  const choices = form.controls.flatMap(({ name, kind, value, options }) => {
    if (kind === 'text' || kind === 'area' || kind === 'hidden') return []
    const offered = kind === 'checkbox' ? [value === null ? options[0]! : null] : options
    return offered.flatMap((option) => {
      const key = `${numberless(name)}=${option}`
      if (option === value || met.has(key)) return []
      met.add(key)
      return [{ form, name, value: option }]
    })
  })
  return choices.length > 0 ? choices : [{ form, name: null, value: null }]
}

/** What a browser would send with one choice made and some fields filled in. */
export const sentWith = (
  { controls }: OpenForm,
  choice: Pick<Choice, 'name' | 'value'>,
  filled: ReadonlyMap<string, string>,
): [string, string][] => {
  const isChosen = (name: string) => name === choice.name
  const sent = controls.flatMap(({ name, kind, value }): [string, string][] => {
    if (kind === 'button' || isChosen(name)) return []
    const given = filled.get(name) ?? value
    return given === null ? [] : [[name, given]]
  })
  return choice.name === null || choice.value === null ? sent : [...sent, [choice.name, choice.value]]
}

/** Something that a person could have meant, for a field that may not be empty. */
export const fillingFor = ({ controls }: OpenForm, name: string): string | null => {
  const control = controls.find((one) => one.name === name)
  if (!control) return null
  // A tick that an answer asks for: the person means it.
  if (control.kind === 'checkbox') return control.options[0]!
  if (control.kind === 'select' || control.kind === 'radio')
    return control.options.find((option) => option !== '') ?? null
  if (/type="date"/.test(control.attributes)) return '2026-06-14'
  if (/type="month"/.test(control.attributes) || /month|from|until|start$/i.test(name)) return '2027-03'
  if (/born|day/i.test(name)) return '2026-06-14'
  return /inputmode="(decimal|numeric)"/.test(control.attributes) ? '12' : 'Something new'
}

/** The same form on the page as it is now: with a new id, and the revision that it stands on. */
export const openAgain = async (house: FormHouse, form: OpenForm): Promise<OpenForm | null> => {
  const html = await (await house.open(form.page)).text()
  const key = makeOf(form, house)
  const now = formsIn(html, form.page)
  return now.find((one) => makeOf(one, house) === key) ?? null
}

/** The form as an answer shows it again, with what it asks besides. */
export const shownAgain = (html: string, form: OpenForm): OpenForm =>
  formsIn(html, form.page).find(({ action, method }) => action === form.action && method === form.method) ??
  form

/** Names of the fields that an answer finds something wrong with. */
export const faultyFields = (html: string): string[] =>
  [...html.matchAll(/href="#f-([^"]+)"/g)].map(([, name]) => plain(name!))

const formsIn = (html: string, page: string): OpenForm[] =>
  [...html.matchAll(/<form([^>]*)>([\s\S]*?)<\/form>/g)].map(([, tag, inner]) => ({
    page,
    action: plain(/\baction="([^"]*)"/.exec(tag!)?.[1] ?? page),
    method: /\bmethod="post"/i.test(tag!) ? 'post' : 'get',
    takesFiles: tag!.includes('multipart/form-data'),
    controls: controlsIn(inner!),
  }))

const controlsIn = (inner: string): Control[] => {
  const radios = new Map<string, Control & { options: string[] }>()
  const found: Control[] = []
  for (const [, tag, attributes, rest] of inner.matchAll(
    /<(input|button|textarea|select)\b([^>]*)>((?:(?!<\/?(?:input|textarea|select|button)\b)[\s\S])*)/g,
  )) {
    const name = plain(attribute(attributes!, 'name') ?? '')
    if (name === '') continue
    const type = attribute(attributes!, 'type') ?? 'text'
    const value = plain(attribute(attributes!, 'value') ?? '')
    const isTicked = /\bchecked\b/.test(attributes!)
    const common = { name, attributes: attributes! }
    if (tag === 'select') found.push({ ...common, kind: 'select', ...optionsIn(rest!) })
    else if (tag === 'textarea') found.push({ ...common, kind: 'area', value: plain(rest!), options: [] })
    else if (tag === 'button') found.push({ ...common, kind: 'button', value: null, options: [value] })
    else if (type === 'checkbox')
      found.push({ ...common, kind: 'checkbox', value: isTicked ? value : null, options: [value] })
    else if (type === 'radio') {
      const known = radios.get(name)
      if (known) known.options.push(value)
      const radio = known ?? { ...common, kind: 'radio' as const, value: null, options: [value] }
      if (isTicked) radio.value = value
      if (!known) found.push(radio)
      radios.set(name, radio)
    } else if (type !== 'file')
      found.push({ ...common, kind: type === 'hidden' ? 'hidden' : 'text', value, options: [] })
  }
  return found
}

const optionsIn = (inner: string): { value: string | null; options: string[] } => {
  const tags = [...inner.matchAll(/<option([^>]*)>/g)].map(([, attributes]) => ({
    value: plain(attribute(attributes!, 'value') ?? ''),
    isSelected: /\bselected\b/.test(attributes!),
  }))
  const options = tags.map(({ value }) => value)
  return { value: tags.find(({ isSelected }) => isSelected)?.value ?? options[0] ?? null, options }
}

const attribute = (attributes: string, name: string): string | undefined =>
  new RegExp(`(?:^|\\s)${name}="([^"]*)"`).exec(attributes)?.[1]
