// The fields of the desk's form as a browser without script would send them, and the name of a field by the payee of its row.

export interface DeskFields {
  fields: Record<string, string | string[]>
  /** `g.n3.to` for `to` of the row in which the payee's first transaction stands. */
  name(payee: string, field: string): string
}

export const deskFields = (html: string): DeskFields => {
  const form = /<form [^>]*id="desk"[^>]*>(.*?)<\/form>/s.exec(html)?.[1] ?? ''
  const fields: Record<string, string | string[]> = {}
  const attribute = (tag: string, name: string) => new RegExp(` ${name}="([^"]*)"`).exec(tag)?.[1] ?? ''
  for (const [tag] of form.matchAll(/<input [^>]*>/g)) {
    if (/type="checkbox"/.test(tag) && !/ checked/.test(tag)) continue
    const name = attribute(tag, 'name')
    const value = attribute(tag, 'value')
    if (name.endsWith('[]')) fields[name] = [...((fields[name] as string[]) ?? []), value]
    else fields[name] = value
  }
  for (const [, name, inner] of form.matchAll(/<select [^>]*name="([^"]*)"[^>]*>(.*?)<\/select>/gs))
    fields[name!] = / value="([^"]*)" selected/.exec(inner!)?.[1] ?? ''
  const rows = form.split('<li class="desk-group').slice(1)
  return {
    fields,
    name(payee, field) {
      const row = rows.find((one) => one.includes(`<strong>${payee.replace(/ \d+$/, '')}`))
      return `${/name="(g\.n\d+)\./.exec(row!)![1]}.${field}`
    },
  }
}
