// The forms of a page as a browser holds them: what it would post of each when its first button is pressed and nothing was typed.

export interface BrowserForm {
  action: string
  method: 'get' | 'post'
  /** In the order of the page; a name may come more than once. */
  fields: [name: string, value: string][]
}

export const browserForms = (html: string, path: string): BrowserForm[] =>
  [...html.matchAll(/<form\b([^>]*)>([\s\S]*?)<\/form>/g)].map(([, tag, inner]) => ({
    action: attribute(tag!, 'action') ?? path,
    method: (attribute(tag!, 'method') ?? 'get').toLowerCase() === 'post' ? 'post' : 'get',
    fields: [...fieldsIn(inner!), ...pressed(inner!)],
  }))

/** The form as `app.post` takes it. */
export const fieldsOf = ({ fields }: BrowserForm): Record<string, string | string[]> => {
  const out: Record<string, string | string[]> = {}
  for (const [name, value] of fields) {
    const before = out[name]
    out[name] = before === undefined ? value : [...[before].flat(), value]
  }
  return out
}

/** The form that a page sends to its own address, as it opens, with some fields filled in anew. */
export const filledForm = async (
  app: { get(path: string): Promise<Response> },
  page: string,
  over: Readonly<Record<string, string | readonly string[]>> = {},
): Promise<Record<string, string | readonly string[]>> => {
  const form = browserForms(await (await app.get(page)).text(), page).find(({ action }) => action === page)
  if (!form) throw new Error(`${page} has no form of its own`)
  return { ...fieldsOf(form), ...over }
}

const fieldsIn = (inner: string): [string, string][] =>
  [...inner.matchAll(/<input\b([^>]*)>|<(select|textarea)\b([^>]*)>([\s\S]*?)<\/\2>/g)].flatMap(
    ([, input, tag, attributes, content]): [string, string][] => {
      const name = attribute(input ?? attributes!, 'name')
      if (name === undefined || /\sdisabled(?=[\s=]|$)/.test(input ?? attributes!)) return []
      if (tag === 'select') return [[name, chosen(content!)]]
      if (tag === 'textarea')
        return [
          [
            name,
            unescaped(content!)
              .replace(/^\r?\n/, '')
              .replace(/\r?\n/g, '\r\n'),
          ],
        ]
      const value = inputValue(input!)
      return value === null ? [] : [[name, value]]
    },
  )

const inputValue = (attributes: string): string | null => {
  const type = attribute(attributes, 'type') ?? 'text'
  const value = attribute(attributes, 'value')
  if (type === 'file' || type === 'submit' || type === 'button') return null
  if (type === 'checkbox' || type === 'radio')
    return /\schecked(?=[\s=]|$)/.test(attributes) ? (value ?? 'on') : null
  if (type === 'hidden') return value ?? ''
  // A browser shows nothing in a month or day field whose value is none, and posts nothing of it.
  if (type === 'month') return /^\d{4}-(0[1-9]|1[0-2])$/.test(value ?? '') ? value! : ''
  if (type === 'date') return /^\d{4}-\d{2}-\d{2}$/.test(value ?? '') ? value! : ''
  return (value ?? '').replace(/[\r\n]/g, '')
}

/** What a select posts: its chosen option, else its first. */
const chosen = (content: string): string => {
  const options = [...content.matchAll(/<option\b([^>]*)>([^<]*)/g)]
  const option = options.find(([, tag]) => /\sselected(?=[\s=]|$)/.test(tag!)) ?? options[0]
  return option ? (attribute(option[1]!, 'value') ?? unescaped(option[2]!)) : ''
}

/** Return in a field, or the first button, sends that button's name along. */
const pressed = (inner: string): [string, string][] => {
  const tag = [...inner.matchAll(/<button\b([^>]*)>/g)]
    .map(([, attributes]) => attributes!)
    .find((one) => (attribute(one, 'type') ?? 'submit') === 'submit')
  const name = tag === undefined ? undefined : attribute(tag, 'name')
  return name === undefined ? [] : [[name, attribute(tag!, 'value') ?? '']]
}

const attribute = (tag: string, name: string): string | undefined => {
  const found = new RegExp(`(?:^|\\s)${name}="([^"]*)"`).exec(tag)?.[1]
  return found === undefined ? undefined : unescaped(found)
}

export const unescaped = (text: string): string =>
  text
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&')
